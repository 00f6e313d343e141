"""The weeks a preserve has to cover, and the rule of thumb's sum for them."""

from dataclasses import dataclass

import numpy as np

from model.case import Case
from model.demand.hand_rule import HandRule
from model.demand.lean_weeks import lean_weeks
from model.season.arrays import Floats, SeasonArrays


@dataclass(frozen=True, eq=False)
class CoverWindow:
    """One preserve's window: from this season's first picking to the new crop.

    ``begins`` and ``ends`` are weeks (``ends`` is the new crop's); ``wanted`` the portions
    of its share in weeks without fresh; ``carried_over`` units still there as it begins.
    """

    preserve: str
    begins: int
    ends: int
    weeks_without_fresh: int
    wanted: float
    carried_over: float
    hand_rule: HandRule


def cover_windows(case: Case) -> tuple[CoverWindow, ...]:
    """Give the window of every preserve, in the order of the season."""
    arrays, needs = case.arrays, case.demand
    carried = carry_over(case)
    share = case.season.settings.lean_share
    weeks = np.arange(len(case.weeks))
    windows = []
    for r, preserve in enumerate(case.season.preserves):
        f = arrays.food_of_preserve[r]
        begins, ends = first_picking_week(case, f), int(needs.cover_until[f])
        lean = lean_weeks(needs.wanted[f], case.fresh[f], share)
        covered = lean & (weeks >= begins) & (weeks < ends)
        count = int(covered.sum())
        wanted = float(needs.wanted[f, covered].sum()) * preserve.share_of_food
        rule = HandRule(
            preserve=preserve.name,
            unit=preserve.unit,
            uses_a_week=wanted / count if count else 0.0,
            weeks_without_fresh=count,
            portions_a_unit=preserve.portions,
            carry_over=int(np.floor(carried[r] + 1e-9)),
            loss_share=_loss_share(arrays, r, count),
            begins=case.weeks.monday(begins),
        )
        windows.append(
            CoverWindow(preserve.name, begins, ends, count, wanted, float(carried[r]), rule)
        )
    return tuple(windows)


def first_picking_week(case: Case, food: int) -> int:
    """Give the first week in which a crop of the food is expected, or 0 when none is to come."""
    arrays = case.arrays
    crops = arrays.food_of_crop == food
    for r in np.flatnonzero(arrays.food_of_preserve == food):
        crops |= np.arange(len(arrays.crops)) == arrays.fresh_kg[r].argmax()
    harvest = case.forecast.kg_by_crop(case.forecast.amounts, len(arrays.crops))[crops]
    coming = np.flatnonzero(harvest.sum(axis=0) > 1e-6)
    return int(coming[0]) if len(coming) else 0


def carry_over(case: Case) -> Floats:
    """Project today's stock to the week its food's picking begins; shape (R,), units.

    What is eaten until then is taken from all preserves of the food alike; what is past its
    keeping life by then is gone.
    """
    arrays, needs = case.arrays, case.demand
    carried = np.zeros(len(arrays.preserves))
    for f in range(len(arrays.foods)):
        rows = np.flatnonzero(arrays.food_of_preserve == f)
        begins = first_picking_week(case, f)
        if not begins:
            carried[rows] = arrays.opening_units[rows]
            continue
        still_good = arrays.opening_left[rows, begins - 1]
        portions = arrays.opening_units[rows] * arrays.portions[rows]
        eaten = float((needs.wanted[f, :begins] - case.fresh[f, :begins]).sum())
        left = max(0.0, portions.sum() - eaten) / max(portions.sum(), 1e-9)
        carried[rows] = np.minimum(still_good, arrays.opening_units[rows] * left)
    return carried


def _loss_share(arrays: SeasonArrays, r: int, weeks: int) -> float:
    """Give the share that does not seal, or is lost by the middle of the weeks it is eaten in."""
    left = arrays.sealed_share[r] * (1.0 - arrays.loss_per_week[r]) ** (weeks / 2)
    return float(1.0 - left)
