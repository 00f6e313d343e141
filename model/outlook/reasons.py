"""Why the plan fills more or fewer jars of a preserve than the hand rule asks for."""

import numpy as np

from model.outlook.limits import LimitUse
from model.planning import PlannedSeason

NEAR = 0.1
USED_UP = 0.04
RUNS_SHORT = 0.85


def reasons(planned: PlannedSeason, uses: list[LimitUse]) -> list[str]:
    """Name the reason for every preserve, in the order of the season; blank where they agree."""
    return [_reason(planned, uses, r) for r in range(len(planned.by_hand))]


def _reason(planned: PlannedSeason, uses: list[LimitUse], r: int) -> str:
    rule, plan = planned.by_hand[r], planned.plan
    to_fill, by_hand = plan.to_fill[r], rule.to_fill
    if planned.case.season.preserves[r].target is not None and to_fill != by_hand:
        return f"target: you asked for {planned.case.season.preserves[r].target}"
    if abs(to_fill - by_hand) <= max(1.0, NEAR * by_hand):
        return ""
    return _more(planned, r) if to_fill > by_hand else _fewer(planned, uses, r)


def _more(planned: PlannedSeason, r: int) -> str:
    case, plan = planned.case, planned.plan
    ends = int(case.demand.cover_until[case.arrays.food_of_preserve[r]])
    left = plan.shelf[r, ends - 1] if ends else 0.0
    if left >= 0.5 * (plan.to_fill[r] - planned.by_hand[r].to_fill):
        return "bad year: some are kept in hand for it"
    return "eating is not level, or it stands in for another that falls short"


def _fewer(planned: PlannedSeason, uses: list[LimitUse], r: int) -> str:
    case, plan, arrays = planned.case, planned.plan, planned.case.arrays
    preserve = case.season.preserves[r]
    makes = np.flatnonzero(plan.harvest_kg[arrays.fresh_kg[r] > 0].min(axis=0) > 1e-6)
    crops = np.flatnonzero(arrays.fresh_kg[r])
    if not len(makes):
        return f"harvest: no {' or '.join(preserve.crops)} is to come"
    for c in crops:
        harvest = plan.harvest_kg[c].sum()
        if plan.spare_kg[c].sum() <= USED_UP * harvest:
            return f"harvest: all {harvest:.0f} kg of {arrays.crops[c]} are used"
    names = {
        "jars": f"jars: {preserve.jar}",
        "lids": f"lids: {preserve.jar}",
        "room": preserve.place,
        "freezing": f"freezing in {preserve.place}",
        "hours": "kitchen hours",
    }
    for word, name in names.items():
        use = next((use for use in uses if use.limit == name), None)
        if use is not None and use.tight[makes].mean() >= 0.5:
            return f"{word}: {name} is used up in the weeks of {arrays.crops[crops[0]]}"
    return _not_wanted(planned, uses, r, makes)


def _not_wanted(planned: PlannedSeason, uses: list[LimitUse], r: int, makes: np.ndarray) -> str:
    """Give the reason when harvest, jars and room would allow more."""
    case, plan, rule = planned.case, planned.plan, planned.by_hand[r]
    preserve = case.season.preserves[r]
    if preserve.keeps_weeks < rule.weeks_without_fresh:
        weeks = f"{preserve.keeps_weeks} of the {rule.weeks_without_fresh} weeks"
        return f"keeping: it keeps {weeks} without fresh"
    food = case.arrays.food_of_preserve[r]
    met = np.minimum(plan.met[food], plan.wanted[food]).sum()
    if met >= RUNS_SHORT * plan.wanted[food].sum():
        return "enough: the rest of this food is covered otherwise"
    if use_is_tight(uses, "kitchen hours", makes):
        return "hours: the kitchen has no more in some of those weeks"
    return "worth: its work is worth more in another preserve"


def use_is_tight(uses: list[LimitUse], name: str, weeks: np.ndarray) -> bool:
    """Say whether a limit is used up in any of some weeks."""
    use = next((use for use in uses if use.limit == name), None)
    return bool(use is not None and use.tight[weeks].any())
