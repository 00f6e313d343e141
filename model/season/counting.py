"""A count of jars becomes makings: what is left is the newest, because oldest goes first."""

from datetime import date

from model.season.ledger import Ledger


def makings_counted(book: Ledger, units: float, unknown: date) -> tuple[tuple[date, float], ...]:
    """Spread a count over the days on which the book says they were made, oldest first.

    What the book does not know of was made about on the day ``unknown``. A count of none is one
    making of none. What was taken after a count of the same day counts as known: what was saved
    of it is counted anew.

    >>> book = model.ledgers(season, date(2027, 3, 15))["ketchup"]
    >>> model.makings_counted(book, 2.0, date(2027, 3, 1))
    ((datetime.date(2026, 9, 19), 2.0),)
    """
    left, found = units, list[tuple[date, float]]()
    for standing in sorted(book.found, key=lambda one: one.put_up, reverse=True):
        part = min(left, standing.units)
        if part > 0:
            found.append((standing.put_up, part))
            left -= part
    if left > 0 or not found:
        known = dict(found)
        found = sorted((known | {unknown: known.get(unknown, 0.0) + left}).items(), reverse=True)
    return tuple(reversed(found))
