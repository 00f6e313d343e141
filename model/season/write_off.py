"""Everything that stands in one place, lost at once: the freezer died, a shelf fell, mice."""

from datetime import date

from model.season.ledger import ONE_DAY, ledgers
from model.season.record import CAUSES, LOST, Taken
from model.season.season import Season


def write_off(season: Season, place: str, cause: str, today: date) -> tuple[Taken, ...]:
    """Give the rows that book as lost all that stands in a place by the book.

    What was counted today is lost tomorrow by the book: a count stands for the end of its day.
    Canned jars whose seals nobody has looked at are not in the book yet; their seal check
    says none. Raises ValueError for a place that is not in the season, or another cause than
    one of ``CAUSES``.
    """
    if place not in {known.name for known in season.places}:
        raise ValueError(f"no place {place!r} in the season")
    if cause not in CAUSES:
        raise ValueError(f"{cause!r} is none of {', '.join(CAUSES)}")
    books = ledgers(season, today)
    gone = (books[p.name] for p in season.preserves if p.place == place)
    return tuple(
        Taken(
            today + ONE_DAY if book.counted == today else today,
            book.preserve,
            book.units,
            LOST,
            cause,
            "",
        )
        for book in gone
        if book.units > 0
    )
