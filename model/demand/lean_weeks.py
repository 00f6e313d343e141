"""The lean weeks: when the garden gives less fresh than is wanted, food by food.

Nothing is tied to a month: they are computed from demand less fresh harvest.
"""

from dataclasses import dataclass

import numpy as np

from model.demand.eating import Demand
from model.season.arrays import Bools, Floats, SeasonArrays

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


def fresh_portions(arrays: SeasonArrays, harvest_kg: Floats, wanted: Floats) -> Floats:
    """Give the portions of each food that can be eaten fresh in each week, up to the want.

    Oldest first: each week's want is met from what was picked within the crop's holding
    time and not yet eaten; crops of one food in their order.

    Parameters
    ----------
    harvest_kg : shape (C, W).
    wanted : shape (F, W), portions.

    Returns
    -------
    shape (F, W), portions.
    """
    eaten = np.zeros_like(wanted)
    longest = int(arrays.hold_weeks.max(initial=1))
    held = np.zeros((len(arrays.crops), longest))
    for week in range(wanted.shape[1]):
        held = np.roll(held, 1, axis=1)
        held[:, 0] = harvest_kg[:, week] * arrays.portions_per_kg
        held[np.arange(longest)[None, :] >= arrays.hold_weeks[:, None]] = 0.0
        for c, f in enumerate(arrays.food_of_crop):
            if f < 0:
                continue
            for age in range(longest - 1, -1, -1):
                take = min(held[c, age], wanted[f, week] - eaten[f, week])
                if take > 0:
                    held[c, age] -= take
                    eaten[f, week] += take
    return eaten


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
