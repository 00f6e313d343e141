"""The working behind how long a food lasts, and its level weekly amount."""

from dataclasses import dataclass

import numpy as np

from model.outlook.arithmetic import LESS, OVER, TIMES, Pen, about, enough
from model.outlook.lasting import (
    Lasting,
    in_hand,
    lasting,
    level_of,
    plate_lasting,
    present_stretch,
    weeks_out,
    winter_stretch,
)
from model.outlook.level import usable_portions
from model.outlook.working import (
    FROM_NOTES,
    FROM_SETTING,
    Source,
    Working,
    WorkingLine,
    line,
    of_years,
)
from model.outlook.working_counts import plain
from model.planning import PlannedSeason
from model.season.arrays import Floats

Lines = tuple[WorkingLine, ...]
# A food's least share of a week's want; below it the food has given out.
SHARE = Source(FROM_SETTING, "lean_share")


@dataclass(frozen=True, slots=True)
class _MiddleYear:
    """The simulated year in the middle: portions as the stretch begins, eaten kept, left."""

    there: float
    eaten: float
    left: float
    weeks: int
    wanted: float


def lasting_workings(planned: PlannedSeason, food: str, *, now: bool) -> tuple[Working, ...]:
    """Give the workings of a food, or of the whole plate where it is none of the foods.

    ``now`` asks for the stretch to this season's crop, not for the winter; none without one.

    >>> model.workings.lasting_workings(planned, "tomatoes", now=False)[0].what
    'tomatoes: lasts until'
    """
    foods = planned.case.arrays.foods
    if food not in foods:
        plate = plate_lasting(planned, now=now)
        return () if plate is None else (_plate(planned, plate),)
    f = foods.index(food)
    return lasts(planned, f, now=now), *level_workings(planned, f, now=now)


def lasts(planned: PlannedSeason, f: int, *, now: bool) -> Working:
    """Say in how many simulated years a food lasts, and what became of it in the middle one."""
    last = lasting(planned, f, now=now)
    begins, ends = _stretch(planned, f, now=now)
    past = level_of(planned, f, begins, ends).past_from(begins)
    out = weeks_out(planned, f, begins, ends, past)
    year = _middle_year(planned, f, begins, out)
    years = of_years(len(out))

    def write(pen: Pen) -> tuple[Lines, bool]:
        there, eaten, left = (pen.rounded(x) for x in (year.there, year.eaten, year.left))
        lost = pen.rounded(there - eaten - left)
        balance = pen.sum(
            *(there, "portions there on", last.begins, LESS, eaten, "eaten"),
            *((LESS, lost, "lost, given or past keeping") if lost > 0 else ()),
            unit="left then",
        )
        lines = [line(balance, years, of="the middle year")]
        if year.weeks:
            pace = pen.sum(
                *(eaten, "eaten", OVER, float(year.weeks), _weeks(year.weeks)),
                unit="portions a week",
            )
            wanted = pen.rounded(year.wanted)
            told = f", of {pen.written(wanted)} wanted a week beside what is fresh"
            lines.append(line(pace, Source(FROM_NOTES, "foods.csv", last.food), ends=told))
        return (*lines, *_chances(last, out, ends)), lost >= 0

    return Working(f"{last.food}: lasts until", last.until, enough(write))


def _stretch(planned: PlannedSeason, f: int, *, now: bool) -> tuple[int, int]:
    cover = int(planned.case.demand.cover_until[f])
    found = present_stretch(planned, f) if now else winter_stretch(planned, f)
    return found or (max(0, cover - 1), cover)


def _middle_year(planned: PlannedSeason, f: int, begins: int, out: Floats) -> _MiddleYear:
    """Give the simulated year that gives out in the middle; of several the one with most usual."""
    years = planned.years
    middle = int(np.percentile(out, 50))
    at = np.flatnonzero(np.abs(out - middle) == np.abs(out - middle).min())
    there = _stock_at(planned, f, begins)[at]
    y = int(at[np.argsort(there, kind="stable")[len(at) // 2]])
    until = max(begins, int(out[y]))
    kept = years.met[y, f, begins:until] - years.fresh[y, f, begins:until]
    left = years.shelf[y, f, until - 1] if until > begins else _stock_at(planned, f, begins)[y]
    wanted = years.wanted(np.array([f]), begins, until)[y, 0] - years.fresh[y, f, begins:until]
    weeks = until - begins
    return _MiddleYear(
        there=float(_stock_at(planned, f, begins)[y]),
        eaten=float(kept.sum()),
        left=float(left),
        weeks=weeks,
        wanted=float(np.maximum(wanted, 0).sum()) / max(1, weeks),
    )


def _stock_at(planned: PlannedSeason, f: int, begins: int) -> Floats:
    """Give the portions of a food on the shelf in each year as a stretch begins; shape (Y,)."""
    if begins:
        return planned.years.shelf[:, f, begins - 1].astype(float)
    arrays = planned.case.arrays
    rows = np.flatnonzero(arrays.food_of_preserve == f)
    opening = float(arrays.opening_units[rows] @ arrays.portions[rows])
    return np.full(len(planned.years.appetite), opening)


def _chances(last: Lasting, out: Floats, ends: int) -> Lines:
    """Say in how many years it reaches the end, and between which days it gives out in most."""
    years, reach = len(out), int((out >= ends).sum())
    chance = Pen(2).sum(float(reach), "years reach it", OVER, float(years), unit="of the years")
    span = (
        "gone by ", last.low, " in one year of ten, lasting to ", last.high, " in one of ten",
    )  # fmt: skip
    return line(chance, of_years(years), SHARE), line(span, of_years(years), SHARE)


def _plate(planned: PlannedSeason, last: Lasting) -> Working:
    share = planned.case.season.settings.lean_share
    years = len(planned.years.appetite)
    pen = Pen(1)
    least = pen.sum(
        *(last.wanted_portions, "portions wanted a week", TIMES, share),
        unit="a week; with fewer the plate is no longer filled",
    )
    reach = Pen(3).sum(
        float(round(last.chance * years)), "years reach it", OVER, float(years), unit="of the years"
    )
    served = ("a week on average ", about(last.level_portions), " can be served up to ", last.ends)
    span = (
        "short by ", last.low, " in one year of ten, filled up to ", last.high, " in one of ten",
    )  # fmt: skip
    lines = (
        line(least, Source(FROM_NOTES, "foods.csv"), SHARE),
        line(served, of_years(years)),
        line(reach, of_years(years)),
        line(span, of_years(years)),
    )
    return Working("the plate: lasts until", last.until, lines)


def level_workings(planned: PlannedSeason, f: int, *, now: bool) -> tuple[Working, ...]:
    """Say which part of the stretch sets the level amount; none where nothing stands there."""
    last = lasting(planned, f, now=now)
    amount, to_the_end = last.level_portions, last.keeps_until is None
    if not to_the_end:
        amount = last.use_up_portions
    if amount <= 0:
        return ()
    begins, ends = _stretch(planned, f, now=now)
    there = in_hand(planned, f, begins)
    usable = usable_portions(planned, f, begins, ends, there)
    eaten = planned.case.demand.wanted[f, begins:ends] > 1e-6
    if not to_the_end:
        gone = int(np.flatnonzero(usable < 0.5)[0])
        usable, eaten = usable[:gone], eaten[:gone]
    still = np.cumsum(eaten[::-1])[::-1]
    tight = int(np.argmin(np.where(still > 0, usable / np.maximum(still, 1), np.inf)))
    monday = planned.case.weeks.monday(begins + tight)
    until = last.keeps_until or last.ends

    def write(pen: Pen) -> tuple[Lines, bool]:
        lost = pen.rounded(pen.rounded(there) - pen.rounded(float(usable[tight])))
        good = pen.sum(
            *(there, "portions there on", last.begins, LESS, lost, "lost or past keeping by"),
            monday,
            unit=f"portions of {plain(last.food)} still good then, if none were eaten before",
        )
        level = pen.sum(
            *(good.result, "portions", OVER, float(still[tight]), _weeks(still[tight])),
            *("of eating up to", until),
            unit="portions a week",
        )
        lines = (
            line(good, of_years(len(planned.years.appetite)), Source(FROM_NOTES, "stock.csv")),
            line(level, Source(FROM_NOTES, "foods.csv", last.food)),
        )
        return lines, about(level.result) == about(amount)

    ways = "just reaches the new crop" if to_the_end else "uses it up in time"
    shown = f"{about(amount)} portions a week"
    return (Working(f"{last.food}: the level amount that {ways}", shown, enough(write)),)


def _weeks(number: float) -> str:
    return "week" if number == 1 else "weeks"
