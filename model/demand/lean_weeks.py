"""The lean weeks: when the garden gives less fresh than is wanted, food by food.

Nothing is tied to a month: they are computed from demand less fresh harvest.
"""

from dataclasses import dataclass

import numpy as np

from model.demand.eating import Demand
from model.season.arrays import Bools, Floats, SeasonArrays, with_this_week

WHOLE_PLATE = "whole plate"


@dataclass(frozen=True, slots=True)
class LeanStretch:
    """A run of lean weeks of one food; ``ends`` is its last week."""

    food: str
    begins: int
    ends: int

    @property
    def weeks(self) -> int:
        """Count its weeks."""
        return self.ends - self.begins + 1


def fresh_portions(
    arrays: SeasonArrays, harvest_kg: Floats, wanted: Floats, before_kg: Floats
) -> Floats:
    """Give the portions of each food that can be eaten fresh in each week, up to the want.

    Parameters
    ----------
    harvest_kg : shape (C, W).
    wanted : shape (F, W), portions.
    before_kg : shape (C, H), picked before and still in hand, the newest last, of the first week.

    Returns
    -------
    shape (F, W), portions.
    """
    harvest_kg, earlier_kg = with_this_week(harvest_kg, before_kg)
    return _eaten_in_order(arrays, harvest_kg, wanted, earlier_kg)[0]


def still_in_hand(
    arrays: SeasonArrays, picked_kg: Floats, wanted: Floats, days_over: int
) -> Floats:
    """Give what is left of the pickings of some weeks after eating the want of each; (C, H).

    Parameters
    ----------
    picked_kg : shape (C, H), the newest week last, of which ``days_over`` have been eaten in.
    wanted : shape (F,), portions a week.
    """
    weeks = picked_kg.shape[1]
    every_week = np.repeat(wanted[:, None], weeks, axis=1)
    every_week[:, -1] *= days_over / 7
    left = _eaten_in_order(arrays, picked_kg, every_week, np.zeros((len(arrays.crops), 0)))[1]
    by_week = np.zeros_like(picked_kg)
    ages = min(weeks, left.shape[1])
    by_week[:, weeks - ages :] = left[:, :ages][:, ::-1]
    return by_week


def _eaten_in_order(
    arrays: SeasonArrays, harvest_kg: Floats, wanted: Floats, before_kg: Floats
) -> tuple[Floats, Floats]:
    """Meet each week's want from what was picked within the holding time, oldest first.

    Crops of one food in their order. Returns portions eaten (F, W) and the kilograms that are
    left in the end by age (C, ages).
    """
    eaten = np.zeros_like(wanted)
    longest = int(arrays.hold_weeks.max(initial=1))
    held = np.zeros((len(arrays.crops), longest))
    ages = min(longest, before_kg.shape[1])
    held[:, :ages] = before_kg[:, ::-1][:, :ages]
    for week in range(wanted.shape[1]):
        held = np.roll(held, 1, axis=1)
        held[:, 0] = harvest_kg[:, week]
        held[np.arange(longest)[None, :] >= arrays.hold_weeks[:, None]] = 0.0
        for c, f in enumerate(arrays.food_of_crop):
            if f < 0:
                continue
            per_kg = arrays.portions_per_kg[c]
            for age in range(longest - 1, -1, -1):
                take = min(held[c, age], (wanted[f, week] - eaten[f, week]) / per_kg)
                if take > 0:
                    held[c, age] -= take
                    eaten[f, week] += take * per_kg
    return eaten, held


def lean_weeks(wanted: Floats, fresh: Floats, share: float) -> Bools:
    """Mark the weeks in which fresh portions cover less than a share of the want; (W,).

    A week in which nobody is at the table is like the week before it, up to the last want.
    """
    lean: Bools = (wanted > 0) & (fresh < share * wanted)
    eaten = np.flatnonzero(wanted > 0)
    for week in range(1, int(eaten[-1]) if len(eaten) else 0):
        if wanted[week] <= 0:
            lean[week] = lean[week - 1]
    return lean


def stretches(food: str, lean: Bools) -> list[LeanStretch]:
    """Give the runs of lean weeks of one food."""
    edges = np.flatnonzero(np.diff(np.concatenate([[False], lean, [False]]).astype(int)))
    return [
        LeanStretch(food, int(begins), int(after) - 1)
        for begins, after in zip(edges[::2], edges[1::2], strict=True)
    ]


def lean_stretches(
    arrays: SeasonArrays, needs: Demand, fresh: Floats, plate: Bools, share: float
) -> list[LeanStretch]:
    """Give the lean stretches of every food and of the whole plate.

    For the plate a food counts as fresh again from its new crop on.

    Parameters
    ----------
    fresh : shape (F, W), portions that can be eaten fresh.
    plate : shape (F,), which foods make up the plate.
    """
    found = []
    for f, food in enumerate(arrays.foods):
        found += stretches(food, lean_weeks(needs.wanted[f], fresh[f], share))
    whole_want = needs.usual[plate].sum(axis=0)
    whole_fresh = (fresh + needs.usual - needs.wanted)[plate].sum(axis=0)
    return found + stretches(WHOLE_PLATE, lean_weeks(whole_want, whole_fresh, share))
