"""What two counts of a food say of its eating: all that left the shelf and is not known to have
gone elsewhere.

Used is what stood there and came, less what was given, lost, usually shrinks and is left, and
the little that the garden gave fresh; it is compared with what the notes say is wanted. Nothing
else is needed than counts, and whatever was written down between them.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, timedelta
from functools import lru_cache
from itertools import pairwise

import numpy as np

from model.season.arrays import Floats, Ints
from model.season.ledger import COUNTED, PUT_UP, Ledger, Movement
from model.season.season import Season
from model.season.weeks import WEEK, Weeks

YEAR_WEEKS = 52
ONE_DAY = timedelta(days=1)
# A count may lie so much above the book: a unit, or a tenth, is a slip of the pencil.
SLIP_UNITS, SLIP_SHARE = 1.0, 0.1
# How far off the usual figures are in any one stretch of weeks, as shares: judgement.
WANT_CV, FRESH_CV, SHRINK_CV = 0.1, 0.4, 0.5
# Where the garden gives more of the want than this, nobody knows what was eaten from where.
MOST_FRESH = 0.25


@dataclass(frozen=True, eq=False)
class UseInterval:
    """One food between two counts of all that stands of it.

    Parameters
    ----------
    wanted : shape (52,), portions usually wanted by week of the year.
    used : portions used, fresh ones among them.
    noise : standard deviation of ``used`` about the household's want, portions.
    at_least : the food may have run out, so that more was wanted than was used.
    """

    food: str
    begins: date
    ends: date
    wanted: Floats
    used: float
    noise: float
    at_least: bool


@dataclass(frozen=True, eq=False)
class Wants:
    """What is usually wanted and eaten fresh; shapes (F, W), portions."""

    weeks: Weeks
    wanted: Floats
    fresh: Floats


@dataclass(frozen=True, slots=True)
class _Shelf:
    """The units of one preserve between two counts; ``slip`` of them may be a slip."""

    portions: float
    loss_per_week: float
    moved: Movement
    arrivals: tuple[tuple[date, float], ...]
    appeared: float
    slip: float
    went_past: bool

    @property
    def unexplained(self) -> bool:
        """Say whether more stands there than can have come."""
        return self.appeared > self.slip or self.gone < -self.slip

    @property
    def gone(self) -> float:
        """Give the units that left and are not known to have been given or lost."""
        moved = self.moved
        return moved.opening + moved.came - moved.given - moved.lost - moved.left

    def shrunk(self, weeks: float) -> float:
        """Give the units that usually shrink and rot away beyond what was written as lost."""
        mean = (self.moved.opening + self.moved.came + self.moved.left) / 2
        kept: float = (1 - self.loss_per_week) ** weeks
        return max(0.0, mean * (1 - kept) - self.moved.lost)

    def used(self, weeks: float) -> float:
        """Give the units that were opened."""
        return self.gone - self.shrunk(weeks)


def use_intervals(
    season: Season, books: Mapping[str, Ledger], wants: Wants
) -> tuple[list[UseInterval], dict[str, int]]:
    """Give what the counts within some weeks say, and how many stretches of each food say nothing.

    A stretch says nothing of eating when more stands there in the end than can have (something
    was put up, and nobody wrote it down), or when what stood there was past keeping before its
    end (it may have been thrown away).
    """
    found: list[UseInterval] = []
    left_out: dict[str, int] = {}
    for f, food in enumerate(season.foods):
        own = [books[p.name] for p in season.preserves if p.food == food.name]
        days = [day for day in _whole_counts(own) if day >= wants.weeks.first]
        for begins, ends in pairwise(days):
            shelves = [_shelf(season, book, begins, ends) for book in own]
            if any(shelf.unexplained or shelf.went_past for shelf in shelves):
                left_out[food.name] = left_out.get(food.name, 0) + 1
                continue
            interval = _interval(f, food.name, (begins, ends), shelves, wants)
            if interval is not None:
                found.append(interval)
    return found, left_out


def _whole_counts(books: list[Ledger]) -> list[date]:
    """List the days on which all that stood of a food was counted."""
    counted = [{e.day for e in book.entries if e.kind == COUNTED} for book in books]
    return [
        day
        for day in sorted(set().union(*counted))
        if all(
            day in days or not book.between(day, day).left
            for book, days in zip(books, counted, strict=True)
        )
    ]


def _shelf(season: Season, book: Ledger, begins: date, ends: date) -> _Shelf:
    preserve = season.preserve(book.preserve)
    moved = book.between(begins + ONE_DAY, ends)
    entries = [entry for entry in book.entries if begins < entry.day <= ends]
    appeared = sum(max(0.0, entry.unknown) for entry in entries)
    counts = [c for c in season.counts if c.preserve == book.preserve and c.units]
    new = sum(c.units for c in counts if c.day == ends and c.put_up > begins)
    kept_until = ends - preserve.keeps_weeks * WEEK
    return _Shelf(
        portions=preserve.portions,
        loss_per_week=preserve.loss_per_week,
        moved=moved,
        arrivals=tuple((e.day, e.units) for e in entries if e.kind == PUT_UP),
        appeared=max(appeared, new - moved.came),
        slip=max(SLIP_UNITS, SLIP_SHARE * moved.left),
        went_past=any(c.day == begins and c.put_up <= kept_until for c in counts),
    )


def _interval(
    f: int, food: str, between: tuple[date, date], shelves: list[_Shelf], wants: Wants
) -> UseInterval | None:
    """Set what was used beside what was wanted; None where much of that could be had fresh."""
    begins, ends = between
    part = np.array(wants.weeks.days_inside(begins + ONE_DAY, ends)) / 7
    wanted, fresh = wants.wanted[f] * part, wants.fresh[f] * part
    kept = float((wanted - fresh).sum())
    if not wanted.any() or fresh.sum() > MOST_FRESH * wanted.sum():
        return None
    weeks = float(part.sum())
    used = max(0.0, sum(shelf.used(weeks) * shelf.portions for shelf in shelves))
    shrunk = sum(shelf.shrunk(weeks) * shelf.portions for shelf in shelves)
    by_week = np.zeros(YEAR_WEEKS)
    np.add.at(by_week, week_of_year(wants.weeks), wanted)
    unit = max((shelf.portions for shelf in shelves if _moved(shelf)), default=1.0)
    # units are opened one at a time (Poisson), and counted to about one
    variance = unit * kept + unit**2 + (WANT_CV * kept) ** 2
    variance += (FRESH_CV * fresh.sum()) ** 2 + (SHRINK_CV * shrunk) ** 2
    return UseInterval(
        food=food,
        begins=begins,
        ends=ends,
        wanted=by_week,
        used=float(used + fresh.sum()),
        noise=float(np.sqrt(variance)),
        at_least=_may_have_run_out(shelves, wants.weeks, begins, wanted - fresh, used),
    )


def _moved(shelf: _Shelf) -> bool:
    return shelf.moved.opening + shelf.moved.came > 0


def _may_have_run_out(
    shelves: list[_Shelf], weeks: Weeks, begins: date, kept: Floats, used: float
) -> bool:
    """Say whether less than a week's want is left, or may have been before new jars came."""
    a_week = float(kept.sum() / max(1, np.count_nonzero(kept)))
    if sum(shelf.moved.left * shelf.portions for shelf in shelves) < a_week:
        return True
    there = sum(shelf.moved.opening * shelf.portions for shelf in shelves)
    arrivals = sorted(
        (day, units * shelf.portions) for shelf in shelves for day, units in shelf.arrivals
    )
    for day, portions in arrivals:
        wanted_before = kept @ (np.array(weeks.days_inside(begins + ONE_DAY, day)) > 0)
        if wanted_before >= a_week and used > there - a_week:
            return True
        there += portions
    return False


@lru_cache
def week_of_year(weeks: Weeks) -> Ints:
    """Give the week of the year, 0 to 51, of each week; shape (W,), not to be written to."""
    days = [monday.timetuple().tm_yday for monday in weeks.mondays]
    of_year: Ints = np.minimum((np.array(days) - 1) // 7, YEAR_WEEKS - 1)
    of_year.setflags(write=False)
    return of_year
