"""Tables of foods: what is wanted and met, how long it lasts, and the lean weeks."""

import numpy as np
import pandas as pd

from model.outlook.lasting import Lasting, lasting, plate_lasting, present_stretch
from model.planning import PlannedSeason
from model.season.arrays import Ints


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


def plate_table(planned: PlannedSeason, *, now: bool = False) -> pd.DataFrame:
    """One row for the whole plate in the columns of ``food_table``; none without a stretch."""
    lasts = plate_lasting(planned, now=now)
    plate = np.flatnonzero(planned.case.plate)
    columns = list(_row(planned, 0, now=False))
    rows = [] if lasts is None else [_columns(planned, lasts, plate)]
    return pd.DataFrame(rows, columns=columns)


def _row(planned: PlannedSeason, f: int, *, now: bool) -> dict[str, object]:
    return _columns(planned, lasting(planned, f, now=now), np.array([f]))


def _columns(planned: PlannedSeason, lasts: Lasting, foods: Ints) -> dict[str, object]:
    plan, case = planned.plan, planned.case
    wanted = plan.wanted[foods]
    return {
        "food": lasts.food,
        "wanted_portions": float(wanted.sum()),
        "met_portions": float(np.minimum(plan.met[foods], wanted).sum()),
        "fresh_portions": float(np.minimum(plan.fresh[foods], wanted).sum()),
        "lasts_low": lasts.low,
        "lasts_until": lasts.until,
        "lasts_high": lasts.high,
        "new_crop": lasts.ends,
        "chance_lasts": lasts.chance,
        "level_portions": lasts.level_portions,
        "begins": lasts.begins,
        "on_plate": bool(case.plate[foods].all()),
    }


def lean_table(planned: PlannedSeason) -> pd.DataFrame:
    """One row a lean stretch of a food or of the whole plate."""
    weeks = planned.case.weeks
    rows = [
        {"food": s.food, "begins": weeks.monday(s.begins), "ends": weeks.monday(s.ends)}
        for s in planned.case.lean
    ]
    return pd.DataFrame(rows, columns=["food", "begins", "ends"])
