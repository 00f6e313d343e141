"""The one thing because of which more of a pile is not put up."""

from collections.abc import Mapping

import numpy as np

from model.case import Case
from model.outlook.limits import limit_uses
from model.plan import Plan
from model.season.arrays import Bools, Floats

LEAST_KG = 0.05
ALL_USED = "nothing: all of it is used"
ALL_HOURS = "hours: all that there are for it"
MORE_HOURS = "hours: too few are left for the next whole jar or load"
ENOUGH = "enough: what is wanted of it until the new crop is met, or its work is worth less"
NO_LOAD = "loads: what is given away does not fill one"
# With more minutes there may be more to put up.
SHORT_OF_HOURS = (ALL_HOURS, MORE_HOURS, ENOUGH, NO_LOAD)


def limit_of(case: Case, plan: Plan, pile_kg: Mapping[str, float]) -> str:
    """Name the one thing because of which more of the pile is not put up."""
    arrays = case.arrays
    piled = np.array([pile_kg.get(crop, 0.0) > 0 for crop in arrays.crops], dtype=bool)
    over = plan.spare_kg[:, 0] * piled
    if over.sum() <= LEAST_KG:
        return ALL_USED
    made_of: Bools = np.any(arrays.fresh_kg[:, over > LEAST_KG] > 0, axis=1)
    if not made_of.any():
        return "recipes: nothing in the notes is made of what is left"
    for use in limit_uses(case, plan):
        if (
            use.kind != "bed"
            and (use.tight[0] or use.available[0] <= 0)
            and (use.holds_back & made_of).any()
        ):
            mine = use.kind == "kitchen hours"
            return ALL_HOURS if mine else f"{use.limit}: used up this week"
    if _fills_no_load(case, over, made_of):
        return NO_LOAD
    return ENOUGH


def _fills_no_load(case: Case, over_kg: Floats, made_of: Bools) -> bool:
    """Say whether every canned recipe of what is left needs more of it for a whole load."""
    arrays = case.arrays
    canned = np.flatnonzero(made_of & (arrays.units_per_load > 0))
    needed = arrays.fresh_kg[canned] * arrays.units_per_load[canned, None]
    return bool(len(canned) and ((needed > over_kg) & (needed > 0)).any(axis=1).all())
