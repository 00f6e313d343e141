"""Why the plan fills more or fewer jars of a preserve than the rule of thumb asks for."""

import numpy as np

from model.outlook.limits import LimitUse
from model.planning import PlannedSeason
from model.season.arrays import Ints

NEAR = 0.1
USED_UP = 0.04
RUNS_SHORT = 0.85
HALF = 0.5
LEAST_KG = 1e-6


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
    short = [
        case.arrays.preserves[other]
        for other in np.flatnonzero(case.arrays.food_of_preserve == case.arrays.food_of_preserve[r])
        if plan.to_fill[other] < planned.by_hand[other].to_fill - 1
    ]
    if short:
        return f"stands in: it is put up for {_listed(short[:2])}"
    return "lean weeks: those without fresh want more than the rule's even share"


def _fewer(planned: PlannedSeason, uses: list[LimitUse], r: int) -> str:
    plan, arrays = planned.plan, planned.case.arrays
    crops = np.flatnonzero(arrays.fresh_kg[r])
    to_hand = plan.harvest_kg + np.column_stack(
        [plan.before_kg.sum(axis=1), plan.on_hand_kg[:, :-1]]
    )
    makes = np.flatnonzero((to_hand[crops] > LEAST_KG).all(axis=0))
    if not arrays.kitchen_minutes.any():
        return "no hours: the notes give none for the kitchen"
    missing = [arrays.crops[c] for c in crops if to_hand[c].max() <= LEAST_KG]
    if missing:
        return f"harvest: no {_listed(missing)} is to come"
    if not len(makes):
        return f"harvest: {_listed([arrays.crops[c] for c in crops])} are never ripe together"
    for c in crops:
        whole = plan.harvest_kg[c].sum() + plan.before_kg[c].sum()
        if plan.spare_kg[c].sum() <= USED_UP * whole:
            return _all_used(planned, r, int(c))
    for use in sorted(uses, key=lambda use: use.kind == "kitchen hours"):
        if use.holds_back[r] and use.tight[makes].mean() >= HALF:
            return f"{use.limit}: used up while there is {arrays.crops[crops[0]]}"
    return _not_wanted(planned, uses, r, makes)


def _all_used(planned: PlannedSeason, r: int, c: int) -> str:
    """Say that a crop is used up; where a preserve gets none of it, what it is used for."""
    plan, arrays = planned.plan, planned.case.arrays
    if plan.to_fill[r]:
        return f"harvest: all of the {arrays.crops[c]} is used"
    put_up_kg = arrays.fresh_kg[:, c] * plan.put_up.sum(axis=1)
    most = int(put_up_kg.argmax())
    if put_up_kg[most] > LEAST_KG:
        return f"for {arrays.preserves[most]}: the {arrays.crops[c]} not eaten fresh goes there"
    return f"eaten fresh: all of the {arrays.crops[c]} is"


def _listed(names: list[str]) -> str:
    """Join names as in a sentence."""
    return " and ".join(names)


def _not_wanted(planned: PlannedSeason, uses: list[LimitUse], r: int, makes: Ints) -> str:
    """Give the reason when harvest, jars and room would allow more."""
    case, plan, rule = planned.case, planned.plan, planned.by_hand[r]
    preserve = case.season.preserves[r]
    if preserve.keeps_weeks < rule.weeks_without_fresh:
        weeks = f"{preserve.keeps_weeks} of the {rule.weeks_without_fresh} weeks"
        return f"keeps too short: {weeks} without fresh"
    food = case.arrays.food_of_preserve[r]
    # What is put up cannot fill the weeks before it.
    wanted = plan.wanted[food, makes[0] :]
    met = np.minimum(plan.met[food, makes[0] :], wanted).sum()
    if met >= RUNS_SHORT * wanted.sum():
        return "covered otherwise: the rest of this food comes from elsewhere"
    if any(use.kind == "kitchen hours" and use.tight[makes].any() for use in uses):
        return "hours: the kitchen has no more in some of those weeks"
    fills = _spare_fills(planned, r)
    if preserve.units_per_load and fills < HALF * preserve.units_per_load:
        crop = case.arrays.crops[int(np.flatnonzero(case.arrays.fresh_kg[r])[0])]
        best = f"{fills or 'none'} of the {preserve.units_per_load} {preserve.unit}s of a load"
        return f"small load: the {crop} that is over fills {best} in its best week"
    return "less worth it: its work brings more in another preserve"


def _spare_fills(planned: PlannedSeason, r: int) -> int:
    """Give how many units of a preserve the harvest that is over fills in its best week."""
    needs = planned.case.arrays.fresh_kg[r]
    crops = needs > 0
    return int((planned.plan.spare_kg[crops] / needs[crops, None]).min(axis=0).max())
