"""The level amount: how much a week of a food just reaches the new crop, and whether it keeps."""

from dataclasses import dataclass

import numpy as np

from model.planning import PlannedSeason
from model.season.arrays import Bools, Floats

NOTHING = 0.5


@dataclass(frozen=True, slots=True)
class Level:
    """The most portions in every week alike.

    ``to_the_end`` lasts to the end of the stretch. Where all of it is past keeping before,
    ``keeps_weeks`` counts the weeks until then and ``while_it_keeps`` uses it up in them.
    """

    to_the_end: float
    keeps_weeks: int | None
    while_it_keeps: float

    def past_from(self, begins: int) -> int | None:
        """Give the week from which all of it is past keeping; None where some keeps to the end.

        A week counts what is good as it ends: what is past keeping within it is not relied on,
        though the simulated household still eats of it on the days before.
        """
        return None if self.keeps_weeks is None else begins + self.keeps_weeks


def level(planned: PlannedSeason, food: int, begins: int, ends: int, in_hand: float) -> Level:
    """Work out the level amount over a stretch of weeks, ``in_hand`` portions at its start."""
    eaten = planned.case.demand.wanted[food, begins:ends] > 1e-6
    usable = usable_portions(planned, food, begins, ends, in_hand)
    gone = np.flatnonzero(usable < NOTHING)
    if in_hand < NOTHING:
        return Level(0.0, None, 0.0)
    weeks = int(gone[0]) if len(gone) else None
    return Level(_level(usable, eaten), weeks, _level(usable[:weeks], eaten[:weeks]))


def _level(usable: Floats, eaten: Bools) -> float:
    """Give the amount a week that no later part of the stretch runs short of."""
    still = np.cumsum(eaten[::-1])[::-1]
    needed = still > 0
    return float((usable[needed] / still[needed]).min()) if needed.any() else 0.0


def usable_portions(
    planned: PlannedSeason, food: int, begins: int, ends: int, in_hand: float
) -> Floats:
    """Give the portions that could still be eaten from each week on, if none were before.

    Oldest is eaten first, so what stands there as a stretch begins is the newest. Shape
    (ends - begins,).
    """
    arrays = planned.case.arrays
    rows = np.flatnonzero(arrays.food_of_preserve == food)
    usable = np.zeros(ends - begins)
    whole = 0.0
    for r in rows:
        usable += usable_of(planned, int(r), begins, ends)
        whole += float(_standing(planned, int(r), begins) * arrays.portions[r])
    return usable * (in_hand / whole) if whole > 0 else usable


def usable_of(planned: PlannedSeason, r: int, begins: int, ends: int) -> Floats:
    """Give the portions of one preserve, by the plan, as ``usable_portions`` does of a food."""
    arrays = planned.case.arrays
    units, keeps = _standing(planned, r, begins), arrays.keeps_weeks[r]
    kept = 1.0 - arrays.loss_per_week[r]
    ages = np.arange(ends)
    good_of_age = np.where(ages < keeps, kept**ages, 0.0)
    made = np.zeros(ends)
    made[:begins] = arrays.sealed_share[r] * planned.plan.put_up[r, :begins]
    young = np.convolve(made, good_of_age)[begins:ends]
    good = young + arrays.opening_left[r, begins:ends]
    usable: Floats = np.minimum(units * kept ** (ages[begins:] - begins + 1), good)
    return usable * float(arrays.portions[r])


def _standing(planned: PlannedSeason, r: int, begins: int) -> float:
    arrays = planned.case.arrays
    return float(planned.plan.shelf[r, begins - 1] if begins else arrays.opening_units[r])
