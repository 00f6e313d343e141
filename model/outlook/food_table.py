"""Tables of foods: what is wanted and met, how long it lasts, and the lean weeks."""

import numpy as np
import pandas as pd

from model.outlook.lasting import lasting, present_stretch
from model.planning import PlannedSeason


def food_table(planned: PlannedSeason) -> pd.DataFrame:
    """One row a food: portions wanted and met by the plan, and how long it lasts this winter."""
    return pd.DataFrame(
        [_row(planned, f, now=False) for f in range(len(planned.case.arrays.foods))]
    )


def present_food_table(planned: PlannedSeason) -> pd.DataFrame:
    """One row a food that has to last until this season's crop."""
    foods = range(len(planned.case.arrays.foods))
    rows = [_row(planned, f, now=True) for f in foods if present_stretch(planned, f)]
    return pd.DataFrame(rows, columns=list(_row(planned, 0, now=False)))


def _row(planned: PlannedSeason, f: int, *, now: bool) -> dict[str, object]:
    plan, case = planned.plan, planned.case
    lasts = lasting(planned, f, now=now)
    met = np.minimum(plan.met[f], plan.wanted[f]).sum()
    return {
        "food": case.arrays.foods[f],
        "wanted_portions": float(plan.wanted[f].sum()),
        "met_portions": float(met),
        "fresh_portions": float(np.minimum(plan.fresh[f], plan.wanted[f]).sum()),
        "lasts_low": lasts.low,
        "lasts_until": lasts.until,
        "lasts_high": lasts.high,
        "new_crop": lasts.ends,
        "chance_lasts": lasts.chance,
        "level_portions": lasts.level_portions,
        "begins": lasts.begins,
        "on_plate": bool(case.plate[f]),
    }


def lean_table(planned: PlannedSeason) -> pd.DataFrame:
    """One row a lean stretch of a food or of the whole plate."""
    weeks = planned.case.weeks
    rows = [
        {"food": s.food, "begins": weeks.monday(s.begins), "ends": weeks.monday(s.ends)}
        for s in planned.case.lean
    ]
    return pd.DataFrame(rows, columns=["food", "begins", "ends"])
