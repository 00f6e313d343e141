"""Everything that stands in one place, lost at once: the freezer died, a shelf fell, mice."""

from collections.abc import Mapping
from datetime import date, timedelta

from model.season.ledger import Ledger, after_its_count
from model.season.record import CAUSES, FREEZER_DIED, LOST, Taken
from model.season.season import Season
from model.season.unseen_seals import ONE_DAY, unconfirmed

NO_DAY = timedelta(0)


def write_off(
    season: Season, books: Mapping[str, Ledger], place: str, cause: str, today: date
) -> tuple[Taken, ...]:
    """Give the rows that book as lost all that stands in a place, by the books to today.

    What was counted today is lost of what that count found. A new count of today replaces it.
    Canned jars whose seals nobody has looked at are not in the book yet; they follow batch by
    batch, under their code. Raises ValueError for a place that is not in the season, or another
    cause than one of ``CAUSES``.

    >>> books, today = model.ledgers(season, date(2027, 3, 15)), date(2027, 3, 15)
    >>> lost = model.write_off(season, books, "chest freezer", model.FREEZER_DIED, today)
    >>> {(row.why, row.cause) for row in lost}
    {('lost', 'freezer died')}
    >>> model.write_off(season, books, "attic shelf", model.FREEZER_DIED, today)
    Traceback (most recent call last):
        ...
    ValueError: no place 'attic shelf' in the season
    """
    if place not in {known.name for known in season.places}:
        raise ValueError(f"no place {place!r} in the season")
    if cause not in CAUSES:
        raise ValueError(f"{cause!r} is none of {', '.join(CAUSES)}")
    here = {preserve.name for preserve in season.preserves if preserve.place == place}
    gone = [(name, book.units, "") for name, book in books.items() if name in here and book.units]
    gone += [
        (batch.preserve, batch.filled, batch.code)
        for batch in unconfirmed(season, today)
        if batch.preserve in here
    ]
    return tuple(
        Taken(
            today,
            name,
            units,
            LOST,
            cause,
            code,
            of_counted=None if code else books[name].count_of(today),
        )
        for name, units, code in gone
    )


def out_of_use(season: Season, today: date) -> frozenset[str]:
    """Name the freezers that died by a day and that nobody has put anything in since.

    One works again from the day that the notes give it, or else from when a batch is put up for
    it after the loss, or a count finds something in it.
    """
    of = {preserve.name: preserve.place for preserve in season.preserves}
    died: dict[str, tuple[date, date]] = {}
    for taken in season.record.taken:
        if taken.cause == FREEZER_DIED and taken.day <= today:
            # a count of that day before the loss is no sign that it was mended
            late = ONE_DAY if after_its_count(season, taken) else NO_DAY
            place, days = of[taken.preserve], (taken.day, taken.day + late)
            died[place] = max(days, died.get(place, days))
    filled = [(of[b.preserve], b.put_up) for b in season.record.batches if b.put_up <= today]
    found = [(of[c.preserve], c.day) for c in season.counts if c.units > 0 and c.day <= today]
    works = {p.name: p.works_from for p in season.places if p.works_from and p.works_on(today)}
    return frozenset(
        place
        for place, (day, seen) in died.items()
        if not (place in works and works[place] >= day)
        and not any(where == place and when > day for where, when in filled)
        and not any(where == place and when >= seen for where, when in found)
    )
