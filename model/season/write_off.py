"""Everything that stands in one place, lost at once: the freezer died, a shelf fell, mice."""

from datetime import date

from model.season.ledger import ledgers
from model.season.record import CAUSES, LOST, Taken
from model.season.season import Season


def write_off(season: Season, place: str, cause: str, today: date) -> tuple[Taken, ...]:
    """Give the rows that book as lost all that stands in a place by the book.

    Canned jars whose seals nobody has looked at are not in the book yet; their seal check
    says none. Raises ValueError for a place that is not in the season, or another cause than
    one of ``CAUSES``.
    """
    if place not in {known.name for known in season.places}:
        raise ValueError(f"no place {place!r} in the season")
    if cause not in CAUSES:
        raise ValueError(f"{cause!r} is none of {', '.join(CAUSES)}")
    books = ledgers(season, today)
    return tuple(
        Taken(today, preserve.name, books[preserve.name].units, LOST, cause, "")
        for preserve in season.preserves
        if preserve.place == place and books[preserve.name].units > 0
    )
