"""What if: a season with an area, a target or a loss changed, and the two plans side by side."""

from dataclasses import dataclass, replace
from datetime import date

import numpy as np
import pandas as pd

from model.outlook.lasting import lasting
from model.planning import PlannedSeason
from model.season.garden import Setback
from model.season.season import Season

NOTICED = 0.02


@dataclass(frozen=True, slots=True)
class Change:
    """What the household tries out.

    ``amounts`` pairs the place of a planting in the season with a new amount in its own unit,
    ``targets`` a preserve with the sealed jars wanted, ``losses`` a crop with the share of
    what is still to come that is gone.

    >>> model.Change(targets=(("ketchup", 10),)).empty
    False
    """

    amounts: tuple[tuple[int, float], ...] = ()
    targets: tuple[tuple[str, int], ...] = ()
    losses: tuple[tuple[str, float], ...] = ()

    @property
    def empty(self) -> bool:
        """Say whether nothing is changed."""
        return not (self.amounts or self.targets or self.losses)


def changed_season(season: Season, change: Change, today: date) -> Season:
    """Give the season with a change made to it.

    Raises ValueError for impossible numbers.

    >>> change = model.Change(targets=(("ketchup", 10),))
    >>> model.changed_season(season, change, date(2027, 3, 15)).preserve("ketchup").target
    10
    >>> model.changed_season(season, model.Change(targets=(("ketchup", -1),)), date(2027, 3, 15))
    Traceback (most recent call last):
        ...
    ValueError: a target cannot be below 0
    """
    if any(amount < 0 for _, amount in change.amounts):
        raise ValueError("an amount cannot be below 0")
    if any(not 0 <= share <= 1 for _, share in change.losses):
        raise ValueError("a loss is between nothing and all of it")
    if any(target < 0 for _, target in change.targets):
        raise ValueError("a target cannot be below 0")
    amounts, targets = dict(change.amounts), dict(change.targets)
    plantings = tuple(
        replace(planting, amount=amounts[i], least=amounts[i], most=amounts[i], choice="")
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
    """One row a preserve whose number changes: jars to fill before and after, and why.

    >>> season, today = small.case.season, small.case.today
    >>> change = model.Change(targets=(("dilled beans", 12),))
    >>> changed = model.changed_season(season, change, today)
    >>> after = model.plan_season(changed, today, years=10, before=small)
    >>> compared = model.compare_jars(small, after)
    >>> print(*compared)
    preserve unit before after difference reason
    >>> "dilled beans" in compared["preserve"].tolist()
    True
    """
    old, new = before.plan.to_fill, after.plan.to_fill
    return pd.DataFrame(
        [
            {
                "preserve": preserve.name,
                "unit": preserve.unit,
                "before": int(old[r]),
                "after": int(new[r]),
                "difference": int(new[r] - old[r]),
                "reason": _why(before, after, r),
            }
            for r, preserve in enumerate(before.case.season.preserves)
            if old[r] != new[r]
        ],
        columns=["preserve", "unit", "before", "after", "difference", "reason"],
    )


def _why(before: PlannedSeason, after: PlannedSeason, r: int) -> str:
    """Say which fact moved a preserve: a target, its crops, its shelf, or the others."""
    was, now = before.case, after.case
    target = now.season.preserves[r].target
    if target != was.season.preserves[r].target:
        return "as you asked" if target is not None else "no longer asked for"
    for c in np.flatnonzero(was.arrays.fresh_kg[r]):
        had, has = before.plan.harvest_kg[c].sum(), after.plan.harvest_kg[c].sum()
        if abs(has - had) > NOTICED * max(had, has):
            share = f" ({has / had - 1:+.0%})" if had > 0 else ""
            return f"{'more' if has > had else 'less'} {was.arrays.crops[c]} is to come{share}"
    stood, stands = was.arrays.opening_units[r], now.arrays.opening_units[r]
    if abs(stands - stood) >= 1:
        return f"{'more' if stands > stood else 'fewer'} stand on the shelf"
    same_food = was.arrays.food_of_preserve == was.arrays.food_of_preserve[r]
    moved = (before.plan.to_fill != after.plan.to_fill) & same_food
    if moved.sum() > 1:
        return (
            "stands in for another of the same food"
            if _grows(before, after, r)
            else ("another of the same food takes its place")
        )
    return "the hours or jars that others leave it"


def _grows(before: PlannedSeason, after: PlannedSeason, r: int) -> bool:
    return bool(after.plan.to_fill[r] > before.plan.to_fill[r])


def compare_foods(before: PlannedSeason, after: PlannedSeason) -> pd.DataFrame:
    """One row a food: portions met and how long it lasts, before and after.

    >>> print(*model.compare_foods(planned, planned))
    food met_before met_after lasts_before lasts_after new_crop
    """
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
