"""What counts found missing of a preserve: how much of it is taken as eaten in some days."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date

import numpy as np

from model.case import Case
from model.demand.eating import adults_at_table, usual_portions
from model.season.kitchen import Preserve
from model.season.ledger import COUNTED, Ledger
from model.season.unseen_seals import ONE_DAY
from model.season.weeks import Weeks, monday_of

# Judgement: who writes little down eats what goes unknown, but hardly more than this many times
# what the notes want of the whole food; beyond it a count was partial, or something was let go.
MOST_TIMES = 2.0
# One may always have been opened, however short the stretch.
ONE_UNIT = 1.0


@dataclass(frozen=True, slots=True)
class GoneUnknown:
    """Units that went unknown within some days: taken as eaten, and beyond what can have been."""

    as_eaten: float
    doubtful: float


@dataclass(frozen=True, slots=True)
class Missing:
    """Units that a count found missing, and the days since they were last seen, both included."""

    begins: date
    ends: date
    units: float

    def part(self, begins: date, ends: date) -> float:
        """Give the share of its days that lies within others."""
        inside = (min(self.ends, ends) - max(self.begins, begins)).days + 1
        return max(0, inside) / ((self.ends - self.begins).days + 1)


def gone_unknown(
    case: Case, own: Preserve, begins: date, ends: date, times: float = MOST_TIMES
) -> GoneUnknown:
    """Give what went unknown of a preserve from one day to another.

    What a count finds missing is spread evenly over the days since it was last seen, and is
    taken as eaten up to so many ``times`` what is wanted of its food in them.
    """
    as_eaten = doubtful = 0.0
    for one in missing(case.books[own.name]):
        part = one.part(begins, ends)
        if part:
            most = max(ONE_UNIT, times * _wanted_units(case, own, one))
            as_eaten += part * min(one.units, most)
            doubtful += part * max(0.0, one.units - most)
    return GoneUnknown(as_eaten, doubtful)


def missing(book: Ledger) -> list[Missing]:
    """List what the counts of a book found missing; what turns up again is given back."""
    found: list[Missing] = []
    seen: date | None = None
    for entry in book.entries:
        if entry.kind == COUNTED:
            if entry.unknown < 0:
                begins = min(entry.day, (seen or entry.day) + ONE_DAY)
                found.append(Missing(begins, entry.day, -entry.unknown))
            else:
                found = list(_given_back(found, entry.unknown))
            seen = entry.day if entry.left else None
        elif seen is None and entry.left:
            seen = entry.day
    return found


def _given_back(found: list[Missing], units: float) -> Iterator[Missing]:
    """Take what turned up again off what was missing, the latest first."""
    kept = []
    for one in reversed(found):
        back = min(one.units, units)
        units -= back
        kept.append(Missing(one.begins, one.ends, one.units - back))
    yield from reversed(kept)


def _wanted_units(case: Case, own: Preserve, one: Missing) -> float:
    """Give what is wanted of the whole food over its days, in units of the preserve."""
    season, first = case.season, monday_of(one.begins)
    weeks, food = Weeks(first, (one.ends - first).days // 7 + 1), season.food(own.food)
    wanted = usual_portions(season, weeks, food, adults_at_table(season, weeks, food))
    days = np.array(weeks.days_inside(one.begins, one.ends))
    return float(wanted @ days) / 7 / own.portions
