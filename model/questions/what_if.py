"""What if: a season with an area, a target or a loss changed, and the two plans side by side."""

from dataclasses import dataclass, replace
from datetime import date

import numpy as np
import pandas as pd

from model.outlook.lasting import lasting
from model.planning import PlannedSeason
from model.season.garden import Setback
from model.season.season import Season


@dataclass(frozen=True, slots=True)
class Change:
    """What the household tries out.

    ``amounts`` pairs the place of a planting in the season with a new amount in its own unit,
    ``targets`` a preserve with the sealed jars wanted, ``losses`` a crop with the share of
    what is still to come that is gone.
    """

    amounts: tuple[tuple[int, float], ...] = ()
    targets: tuple[tuple[str, int], ...] = ()
    losses: tuple[tuple[str, float], ...] = ()

    @property
    def empty(self) -> bool:
        """Say whether nothing is changed."""
        return not (self.amounts or self.targets or self.losses)


def changed_season(season: Season, change: Change, today: date) -> Season:
    """Give the season with a change made to it; raises ValueError for impossible numbers."""
    if any(amount < 0 for _, amount in change.amounts):
        raise ValueError("an amount cannot be below 0")
    if any(not 0 <= share <= 1 for _, share in change.losses):
        raise ValueError("a loss is between nothing and all of it")
    if any(target < 0 for _, target in change.targets):
        raise ValueError("a target cannot be below 0")
    amounts, targets = dict(change.amounts), dict(change.targets)
    plantings = tuple(
        replace(planting, amount=amounts[i], least=amounts[i], most=amounts[i])
        if i in amounts
        else planting
        for i, planting in enumerate(season.plantings)
    )
    preserves = tuple(
        replace(preserve, target=targets[preserve.name]) if preserve.name in targets else preserve
        for preserve in season.preserves
    )
    gone = tuple(Setback(today, crop, share) for crop, share in change.losses)
    return replace(
        season, plantings=plantings, preserves=preserves, setbacks=season.setbacks + gone
    )


def compare_jars(before: PlannedSeason, after: PlannedSeason) -> pd.DataFrame:
    """One row a preserve whose number changes: jars to fill before and after."""
    old, new = before.plan.to_fill, after.plan.to_fill
    return pd.DataFrame(
        [
            {
                "preserve": preserve.name,
                "unit": preserve.unit,
                "before": int(old[r]),
                "after": int(new[r]),
                "difference": int(new[r] - old[r]),
            }
            for r, preserve in enumerate(before.case.season.preserves)
            if old[r] != new[r]
        ],
        columns=["preserve", "unit", "before", "after", "difference"],
    )


def compare_foods(before: PlannedSeason, after: PlannedSeason) -> pd.DataFrame:
    """One row a food: portions met and how long it lasts, before and after."""
    rows = []
    for f, food in enumerate(before.case.arrays.foods):
        old, new = lasting(before, f), lasting(after, f)
        rows.append(
            {
                "food": food,
                "met_before": _met(before, f),
                "met_after": _met(after, f),
                "lasts_before": old.until,
                "lasts_after": new.until,
                "new_crop": new.new_crop,
            }
        )
    return pd.DataFrame(rows)


def _met(planned: PlannedSeason, f: int) -> float:
    plan = planned.plan
    return float(np.minimum(plan.met[f], plan.wanted[f]).sum())
