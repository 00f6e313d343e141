"""Ration with grace: the smallest change now after which a food reaches its new crop."""

from collections.abc import Mapping
from dataclasses import dataclass, replace

import numpy as np
import pandas as pd

from model.outlook.arithmetic import about
from model.outlook.lasting import Lasting, gives_out, lasting, present_stretch, winter_stretch
from model.outlook.level import NOTHING, usable_of
from model.planning import PlannedSeason
from model.planting.fresh_years import lived
from model.season.arrays import Floats
from model.season.settings import PLAN_FOR
from model.simulation.food_years import food_years

STEP_PORTIONS = 0.5
# A smaller level amount is not named, here or in words beside it.
LEAST_LEVEL = 0.1
RATION_YEARS = 300
# Eight years in ten is a chance that still fails twice: the household says what it plans for.
REACHES: Mapping[str, float] = dict(zip(PLAN_FOR, (0.5, 0.8, 0.9), strict=True))
COLUMNS = (
    *("food", "less_from", "lasts_until", "new_crop", "week_portions", "less_portions"),
    *("chance_before", "chance_after", "ration"),
)


@dataclass(frozen=True, slots=True)
class _Stretch:
    """A food and the weeks in which it has to last; and the most half portions a week to leave out.

    Half a portion a week is left at least: less is no ration.
    """

    food: int
    begins: int
    ends: int
    last: Lasting
    most: int


@dataclass(frozen=True, slots=True)
class _Soon:
    """What would spoil before its turn at a ration: a preserve, its portions, its good weeks.

    It is eaten as wanted before the rest, ``most`` portions a week of it. ``turn`` is the week in
    which it is begun, where those that spoil sooner come first.
    """

    r: int
    portions: float
    keeps: int
    most: float
    turn: int = 0


def ration_table(
    planned: PlannedSeason, seed: int, *, now: bool = False, years: int = RATION_YEARS
) -> pd.DataFrame:
    """One row a food that gives out before its new crop: how much less a week, and the chance.

    The stretch is that of ``food_table``, or (``now``) of ``present_food_table``. The change
    begins with it, today where it has begun; or later, as soon as what would spoil before its turn
    has been eaten as wanted or is past keeping: that cannot be spread until the new crop. It is
    the fewest half portions a week with which the food reaches the new crop in as many of
    ``years`` simulated years as the household plans for. ``chance_before`` is the chance in those
    tables. Where eating less does not help, because it does not keep so long or too little stands
    there, ``less_portions`` and ``chance_after`` are blank; ``lasts_until`` is where nothing
    stands there. ``ration`` names what is eaten before it.

    >>> print(*model.ration_table(small, seed=1, years=10))
    food less_from lasts_until new_crop week_portions less_portions chance_before chance_after
    ration
    """
    aim = REACHES[planned.case.season.plan_for]
    found = [one for one in _stretches(planned, now=now) if one.last.chance < aim]
    helped = _chances(planned, found, [s.most for s in found], seed, years)
    low, high = [0] * len(found), [stretch.most for stretch in found]
    while any(high[i] - low[i] > 1 for i in range(len(found))):
        middle = [(low[i] + high[i]) // 2 for i in range(len(found))]
        chances = _chances(planned, found, middle, seed, years)
        for i, chance in enumerate(chances):
            if middle[i] > low[i]:
                low[i], high[i] = (low[i], middle[i]) if chance >= aim else (middle[i], high[i])
    after = _chances(planned, found, high, seed, years)
    rows = []
    for i, stretch in enumerate(found):
        helps = stretch.last.keeps_until is None and stretch.most > 0 and helped[i] >= aim
        less = high[i] * STEP_PORTIONS
        begins = _eaten_soon(planned, stretch, less)[1] if helps else stretch.begins
        rows.append(
            {
                "food": stretch.last.food,
                "less_from": planned.case.weeks.monday(begins),
                "lasts_until": None if stretch.last.nothing else stretch.last.until,
                "new_crop": stretch.last.new_crop,
                "week_portions": stretch.last.wanted_portions,
                "less_portions": less if helps else None,
                "chance_before": stretch.last.chance,
                "chance_after": after[i] if helps else None,
                "ration": _words(planned, stretch, less if helps else None),
            }
        )
    return pd.DataFrame(rows, columns=list(COLUMNS))


def _stretches(planned: PlannedSeason, *, now: bool) -> list[_Stretch]:
    """List the foods with a stretch to last through."""
    found = []
    for f in range(len(planned.case.arrays.foods)):
        stretch = present_stretch(planned, f) if now else winter_stretch(planned, f)
        if stretch is not None:
            last = lasting(planned, f, now=now)
            most = max(0, int(last.wanted_portions / STEP_PORTIONS + 1e-9) - 1)
            found.append(_Stretch(f, *stretch, last, most))
    return found


def _chances(
    planned: PlannedSeason, found: list[_Stretch], steps: list[int], seed: int, years: int
) -> list[float]:
    """Give the chance that each food lasts when so many half portions a week are left out."""
    case, wanted, opened = planned.case, planned.plan.wanted.copy(), planned.plan.opened.copy()
    for stretch, less in zip(found, steps, strict=True):
        soon, begins = _eaten_soon(planned, stretch, less * STEP_PORTIONS)
        _open_first(planned, stretch, soon, opened)
        part = less * STEP_PORTIONS / max(stretch.last.wanted_portions, STEP_PORTIONS)
        wanted[stretch.food, begins : stretch.ends] *= max(0.0, 1.0 - part)
    rationed = replace(planned.plan, wanted=wanted, opened=opened)
    came = lived(case, rationed, years, seed, as_wanted=True)
    by_food, share = food_years(came, case.arrays), case.season.settings.lean_share
    return [
        float((gives_out(by_food, s.food, s.begins, s.ends, share) >= s.ends).mean()) for s in found
    ]


def _words(planned: PlannedSeason, stretch: _Stretch, less: float | None) -> str:
    """Say the change as one would at the table."""
    last = stretch.last
    when = "now" if last.begins <= planned.case.today else f"{last.begins}"
    instead = "grow, buy in or eat something else"
    if last.nothing:
        return f"nothing stands there to ration: {instead}"
    if last.keeps_until is not None:
        amount = f"{about(last.use_up_portions)} a week"
        if last.use_up_portions < last.wanted_portions:
            return f"{amount} last until {last.keeps_until}; none of it keeps longer"
        return f"it keeps until {last.keeps_until}: {amount} use it up; eating less does not help"
    if less is None and last.level_portions >= LEAST_LEVEL:
        amount = f"{about(last.level_portions)} a week just reach the new crop, not in every year"
        return f"{amount}: too little for a ration; {instead}"
    if less is None:
        return f"too little stands there for any ration: {instead}"
    portions = "portion" if less <= 1 else "portions"
    soon, begins = _eaten_soon(planned, stretch, less)
    if begins > stretch.begins:
        when = f"{planned.case.weeks.monday(begins)}"
    change = f"{less:g} {portions} a week less from {when} on"
    until = [planned.case.weeks.monday(stretch.begins + one.keeps) for one in soon]
    names = [planned.case.arrays.preserves[one.r] for one in soon]
    first = " and ".join(f"{n} (until {day})" for n, day in zip(names, until, strict=True))
    return f"{change}; eaten first and not spared: {first}" if first else change


def _eaten_soon(
    planned: PlannedSeason, stretch: _Stretch, less_portions: float
) -> tuple[list[_Soon], int]:
    """Give what would spoil before its turn with so much less a week, and when the ration begins.

    That is the week by which it has been eaten as wanted or is past keeping. Nothing waits for
    what the household eats no more of in a week than the ration: it is eaten alike with one.
    """
    rate = stretch.last.wanted_portions - less_portions
    soon = _would_spoil(planned, stretch, rate)
    left = [one.portions for one in soon]
    turns: dict[int, int] = {}
    begins = stretch.begins
    for week in range(stretch.begins, stretch.ends):
        hunger = float(planned.case.demand.wanted[stretch.food, week])
        for i, one in enumerate(soon):
            eaten = min(left[i], one.most, hunger)
            if eaten <= 1e-6 or week >= stretch.begins + one.keeps:
                continue
            turns.setdefault(i, week)
            begins = week + 1 if one.most > rate else begins
            left[i] -= eaten
            hunger -= eaten
    spoiled = [stretch.begins + one.keeps for one in soon]
    return [replace(one, turn=turns.get(i, spoiled[i])) for i, one in enumerate(soon)], begins


def _would_spoil(planned: PlannedSeason, stretch: _Stretch, rate: float) -> list[_Soon]:
    """List what would be past keeping before so many portions a week have eaten it up.

    With it all that spoils sooner: it has its turn before.
    """
    arrays = planned.case.arrays
    found = []
    for r in np.flatnonzero(arrays.food_of_preserve == stretch.food):
        usable = usable_of(planned, int(r), stretch.begins, stretch.ends)
        gone = np.flatnonzero(usable < NOTHING)
        if len(gone) and gone[0]:
            most = float(arrays.most_portions_a_week[r])
            found.append(_Soon(int(r), float(usable[0]), int(gone[0]), most))
    found.sort(key=lambda one: (one.keeps, one.portions))
    there = np.cumsum([one.portions for one in found])
    too_much = [i for i, one in enumerate(found) if there[i] > rate * one.keeps]
    return found[: too_much[-1] + 1] if too_much else []


def _open_first(
    planned: PlannedSeason, stretch: _Stretch, soon: list[_Soon], opened: Floats
) -> None:
    """Let what would spoil be opened before the rest of its food; changes ``opened`` (R, W)."""
    arrays = planned.case.arrays
    if not soon:
        return
    last = stretch.begins + max(one.keeps for one in soon)
    of_food = np.flatnonzero(arrays.food_of_preserve == stretch.food)
    opened[of_food, stretch.begins : last] = 0.0
    for one in soon:
        weeks = slice(one.turn, stretch.begins + one.keeps)
        portions = np.minimum(planned.case.demand.wanted[stretch.food, weeks], one.most)
        opened[one.r, weeks] = portions / arrays.portions[one.r]
