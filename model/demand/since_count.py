"""What an old stock-take comes to today: what is usually eaten since, shrink and spoilage off.

A count is never added to: what was put up since is not known until it is counted.
"""

from dataclasses import replace

import numpy as np

from model.season.arrays import Floats, SeasonArrays
from model.season.kitchen import Counted
from model.season.weeks import Weeks


def standing_today(
    counted: tuple[Counted, ...], arrays: SeasonArrays, since: Weeks, kept_want: Floats
) -> tuple[Counted, ...]:
    """Run a stock-take forward over the weeks since.

    Parameters
    ----------
    since : the whole weeks from the count's to today's.
    kept_want : shape (F, weeks), portions of each food that fresh food left wanting.

    Each food is taken from all its preserves alike, and of each the oldest first.
    """
    rows = np.array([arrays.preserves.index(count.preserve) for count in counted], dtype=int)
    units = np.array([count.units for count in counted], dtype=float)
    age = np.array([(since.first - count.put_up).days // 7 for count in counted], dtype=int)
    food = arrays.food_of_preserve[rows]
    oldest_first = np.argsort(-age, kind="stable")
    for week in range(len(since)):
        units *= 1.0 - arrays.loss_per_week[rows]
        units[age + week >= arrays.keeps_weeks[rows]] = 0.0
        for f in range(len(arrays.foods)):
            of_food = food == f
            portions = units[of_food] @ arrays.portions[rows[of_food]]
            share = min(1.0, kept_want[f, week] / portions) if portions > 0 else 0.0
            for r in np.unique(rows[of_food]):
                _take(units, oldest_first[rows[oldest_first] == r], share)
    return tuple(
        replace(count, units=float(left))
        for count, left in zip(counted, units, strict=True)
        if left > 1e-6
    )


def _take(units: Floats, batches: np.ndarray, share: float) -> None:
    """Take a share of a preserve from its batches in order, in place."""
    wanted = share * units[batches].sum()
    for batch in batches:
        taken = min(units[batch], wanted)
        units[batch] -= taken
        wanted -= taken
