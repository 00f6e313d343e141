"""Everything that stands in one place, lost at once: the freezer died, a shelf fell, mice."""

from collections import defaultdict
from collections.abc import Mapping
from dataclasses import replace
from datetime import date

from model.season.ledger import Ledger, Standing
from model.season.record import CAUSES, FREEZER_DIED, LOST, Taken
from model.season.season import Season
from model.season.unseen_seals import ONE_DAY, unconfirmed

NOTHING = 1e-9


def write_off(
    season: Season, books: Mapping[str, Ledger], place: str, cause: str, today: date
) -> tuple[Taken, ...]:
    """Give the rows that book as lost all that stands in a place, by the books to today.

    What was counted today is lost tomorrow by the book: a count stands for the end of its day.
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
        Taken(books[name].after_count(today), name, units, LOST, cause, code)
        for name, units, code in gone
    )


def out_of_use(season: Season, today: date) -> frozenset[str]:
    """Name the freezers that died by a day and that nobody has put anything in since.

    Notes do not say when one is mended: a batch put up for it after the loss, or a count that
    finds something in it, does.
    """
    of = {preserve.name: preserve.place for preserve in season.preserves}
    died: dict[str, date] = {}
    for taken in season.record.taken:
        if taken.cause == FREEZER_DIED and taken.day <= today + ONE_DAY:
            place = of[taken.preserve]
            died[place] = max(taken.day, died.get(place, taken.day))
    used = {
        *((of[b.preserve], b.put_up - ONE_DAY) for b in season.record.batches if b.put_up <= today),
        *((of[c.preserve], c.day) for c in season.counts if c.units > 0 and c.day <= today),
    }
    return frozenset(
        place
        for place, day in died.items()
        if not any(where == place and when >= day for where, when in used)
    )


def not_written_off(
    stock: tuple[Standing, ...], season: Season, books: Mapping[str, Ledger], today: date
) -> tuple[Standing, ...]:
    """Give what stands there less what was counted today and lost since, the oldest first.

    The book knows of it tomorrow only; nobody is to count on it, or eat of it, till then.
    """
    lost: dict[str, float] = defaultdict(float)
    for taken in season.record.taken:
        counted = books[taken.preserve].counted
        if taken.why == LOST and taken.day == today + ONE_DAY and counted == today:
            lost[taken.preserve] += taken.units
    if not lost:
        return stock
    there = []
    for one in sorted(stock, key=lambda one: one.put_up):
        gone = min(one.units, lost[one.preserve])
        lost[one.preserve] -= gone
        there.append(replace(one, units=one.units - gone))
    return tuple(one for one in there if one.units > NOTHING)
