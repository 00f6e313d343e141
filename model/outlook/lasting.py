"""How long each food lasts: in the simulated years in which the household eats what it wants."""

from dataclasses import dataclass
from datetime import date

import numpy as np

from model.cover import first_picking_week
from model.demand.lean_weeks import WHOLE_PLATE
from model.outlook.level import Level, level
from model.planning import PlannedSeason
from model.season.arrays import Bools, Floats, Ints
from model.simulation.food_years import FoodYears


@dataclass(frozen=True, slots=True)
class Lasting:
    """When a food gives out in one stretch without fresh.

    ``low`` and ``high`` are dates that one year in ten beats; ``chance`` is the share of
    years in which it reaches the stretch's end. ``level_portions`` a week just reach it;
    ``keeps_until`` is the day on which all of it is past keeping before that, if it is, and
    ``use_up_portions`` a week use it up by then. ``new_crop`` is None where none is planted.
    """

    food: str
    begins: date
    ends: date
    until: date
    low: date
    high: date
    chance: float
    level_portions: float
    use_up_portions: float
    keeps_until: date | None
    new_crop: date | None
    wanted_portions: float

    @property
    def lasts(self) -> bool:
        """Say whether it reaches the end in the middle of the years."""
        return self.until >= self.ends

    @property
    def nothing(self) -> bool:
        """Say whether nothing of it stands there as the stretch begins, in the middle year."""
        return self.until <= self.begins and self.use_up_portions <= 0


def winter_stretch(planned: PlannedSeason, food: int) -> tuple[int, int] | None:
    """Give the weeks without fresh before the food's new crop: first, and the one after.

    They begin no sooner than the shelf is full: after the last of it is put up this season.
    """
    case = planned.case
    ends = int(case.demand.cover_until[food])
    for stretch in case.lean:
        if stretch.food == case.arrays.foods[food] and stretch.ends >= ends - 3:
            return min(max(stretch.begins, _full_from(planned, food)), ends - 1), ends
    return None


def _full_from(planned: PlannedSeason, food: int) -> int:
    kept = planned.case.arrays.food_of_preserve == food
    filling = np.flatnonzero(planned.plan.put_up[kept].sum(axis=0) > 1e-6)
    return int(filling[-1]) + 1 if len(filling) else first_picking_week(planned.case, food)


def present_stretch(planned: PlannedSeason, food: int) -> tuple[int, int] | None:
    """Give the weeks without fresh from today to this season's first picking, if there are any."""
    case = planned.case
    begins = first_picking_week(case, food)
    for stretch in case.lean:
        if stretch.food == case.arrays.foods[food] and stretch.begins == 0 < begins:
            return 0, min(begins, stretch.ends + 1)
    return None


def gives_out(lived: FoodYears, food: int, begins: int, ends: int, share: float) -> Floats:
    """Give the week in which a food gives out in each year; ``ends`` where it lasts; (Y,).

    It has given out in the first week in which less than a share of the want is met.
    """
    short = weeks_short(lived, np.array([food]), begins, ends, share)[:, 0]
    first = np.where(short.any(axis=1), short.argmax(axis=1) + begins, ends)
    return first.astype(float)


def weeks_out(
    planned: PlannedSeason, food: int, begins: int, ends: int, past: int | None
) -> Floats:
    """Give the week in which a food gives out in each year, or all is ``past`` keeping; (Y,)."""
    share = planned.case.season.settings.lean_share
    out = gives_out(planned.years, food, begins, ends, share)
    return out if past is None else np.minimum(out, past)


def level_of(planned: PlannedSeason, food: int, begins: int, ends: int) -> Level:
    """Give the level amount of what is in hand as a stretch begins."""
    return level(planned, food, begins, ends, in_hand(planned, food, begins))


def weeks_short(lived: FoodYears, foods: Ints, begins: int, ends: int, share: float) -> Bools:
    """Mark the weeks in which less than a share of the want is met; shape (Y, foods, weeks)."""
    wanted = lived.wanted(foods, begins, ends)
    met = lived.met[:, foods, begins:ends]
    return np.asarray((wanted > 1e-6) & (met < share * wanted - 1e-6))


def lasting(planned: PlannedSeason, food: int, *, now: bool = False) -> Lasting:
    """Say how long a food lasts: in the winter to come, or (``now``) until this season's crop."""
    case = planned.case
    weeks, arrays = case.weeks, case.arrays
    stretch = present_stretch(planned, food) if now else winter_stretch(planned, food)
    cover = int(case.demand.cover_until[food])
    begins, ends = stretch or (max(0, cover - 1), cover)
    amount = level_of(planned, food, begins, ends)
    past = amount.past_from(begins)
    out = weeks_out(planned, food, begins, ends, past)
    low, middle, high = np.percentile(out, [10, 50, 90])
    new_crop = case.forecast.new_crop.get(arrays.foods[food])
    end_day = new_crop if new_crop and ends == cover else weeks.monday(ends)

    def day(week: float) -> date:
        return end_day if week >= ends else weeks.monday(int(week))

    wanted = case.demand.wanted[food, begins:ends]
    eating = int((wanted > 1e-6).sum())
    return Lasting(
        food=arrays.foods[food],
        begins=weeks.monday(begins),
        ends=end_day,
        until=day(middle),
        low=day(low),
        high=day(high),
        chance=float((out >= ends).mean()),
        level_portions=amount.to_the_end,
        use_up_portions=amount.while_it_keeps,
        keeps_until=None if past is None else day(past),
        new_crop=end_day if new_crop or ends < cover else None,
        wanted_portions=float(wanted.sum()) / max(1, eating),
    )


def plate_lasting(planned: PlannedSeason, *, now: bool = False) -> Lasting | None:
    """Say how long the whole plate lasts: until less than the share of it can be served.

    None when there is no such stretch. A food counts as served again from its new crop on.
    """
    case, lived = planned.case, planned.years
    own = [s for s in case.lean if s.food == WHOLE_PLATE]
    stretches = [s for s in own if (s.begins == 0 and s != own[-1]) == now]
    if not stretches:
        return None
    begins, ends = stretches[-1].begins, stretches[-1].ends + 1
    new_crop = (case.demand.usual - case.demand.wanted)[case.plate].sum(axis=0)[begins:ends]
    part = lived.wanted(np.flatnonzero(case.plate), begins, ends)
    wanted = part.sum(axis=1) + new_crop
    met = np.minimum(lived.met[:, case.plate, begins:ends], part).sum(axis=1) + new_crop
    short = (wanted > 1e-6) & (met < case.season.settings.lean_share * wanted)
    out = np.where(short.any(axis=1), short.argmax(axis=1) + begins, ends)
    low, middle, high = (case.weeks.monday(int(w)) for w in np.percentile(out, [10, 50, 90]))
    eating = max(1, int((wanted.mean(axis=0) > 1e-6).sum()))
    return Lasting(
        food=WHOLE_PLATE,
        begins=case.weeks.monday(begins),
        ends=case.weeks.monday(ends),
        until=middle,
        low=low,
        high=high,
        chance=float((out >= ends).mean()),
        level_portions=float(met.mean(axis=0).sum()) / eating,
        use_up_portions=float(met.mean(axis=0).sum()) / eating,
        keeps_until=None,
        new_crop=case.weeks.monday(ends),
        wanted_portions=float(wanted.mean(axis=0).sum()) / eating,
    )


def in_hand(planned: PlannedSeason, food: int, begins: int) -> float:
    """Give the portions of a food on the shelf as a stretch begins, in the middle year."""
    arrays = planned.case.arrays
    rows = np.flatnonzero(arrays.food_of_preserve == food)
    if begins == 0:
        good = np.minimum(arrays.opening_units, arrays.opening_left[:, 0])
        return float(good[rows] @ arrays.portions[rows])
    return float(np.median(planned.years.shelf[:, food, begins - 1]))
