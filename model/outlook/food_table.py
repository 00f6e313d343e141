"""Tables of foods: what is wanted and met, how long it lasts, and the lean weeks."""

import numpy as np
import pandas as pd

from model.outlook.lasting import Lasting, lasting, plate_lasting, present_stretch
from model.planning import PlannedSeason
from model.season.arrays import Ints

COLUMNS = (
    "food",
    "wanted_portions",
    "met_portions",
    "fresh_portions",
    "lasts_low",
    "lasts_until",
    "lasts_high",
    "new_crop",
    "chance_lasts",
    "level_portions",
    "use_up_portions",
    "keeps_until",
    "begins",
    "on_plate",
)


def food_table(planned: PlannedSeason) -> pd.DataFrame:
    """One row a food: portions wanted and met by the plan, and how long it lasts this winter.

    ``lasts_low`` to ``lasts_high`` hold eight in ten of the simulated years, ``chance_lasts`` is
    a share of them.

    >>> foods = model.food_table(planned)
    >>> print(*foods)
    food wanted_portions met_portions fresh_portions lasts_low lasts_until lasts_high new_crop
    chance_lasts level_portions use_up_portions keeps_until begins on_plate
    >>> foods["food"].head(2).tolist()
    ['tomatoes', 'green beans']
    """
    foods = range(len(planned.case.arrays.foods))
    return _table([_row(planned, f, now=False) for f in foods])


def present_food_table(planned: PlannedSeason) -> pd.DataFrame:
    """One row a food that has to last until this season's crop.

    In the columns of ``food_table``.

    >>> model.present_food_table(planned)["begins"].iloc[0]
    datetime.date(2027, 3, 15)
    """
    foods = range(len(planned.case.arrays.foods))
    rows = [_row(planned, f, now=True) for f in foods if present_stretch(planned, f)]
    return _table(rows)


def plate_table(planned: PlannedSeason, *, now: bool = False) -> pd.DataFrame:
    """One row for the whole plate in the columns of ``food_table``; none without a stretch.

    ``now`` asks for the stretch to this season's crop, not for the winter.

    >>> model.plate_table(planned)["food"].tolist()
    ['whole plate']
    """
    lasts = plate_lasting(planned, now=now)
    plate = np.flatnonzero(planned.case.plate)
    return _table([] if lasts is None else [_columns(planned, lasts, plate)])


def _table(rows: list[dict[str, object]]) -> pd.DataFrame:
    return pd.DataFrame(rows, columns=list(COLUMNS))


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
        "new_crop": lasts.new_crop,
        "chance_lasts": lasts.chance,
        "level_portions": lasts.level_portions,
        "use_up_portions": lasts.use_up_portions,
        "keeps_until": lasts.keeps_until,
        "begins": lasts.begins,
        "on_plate": bool(case.plate[foods].all()),
    }


def lean_table(planned: PlannedSeason) -> pd.DataFrame:
    """One row a lean stretch of a food or of the whole plate.

    ``begins`` and ``ends`` are the Mondays of its first and last week.

    >>> print(*model.lean_table(planned))
    food begins ends
    """
    weeks = planned.case.weeks
    rows = [
        {"food": s.food, "begins": weeks.monday(s.begins), "ends": weeks.monday(s.ends)}
        for s in planned.case.lean
    ]
    return pd.DataFrame(rows, columns=["food", "begins", "ends"])
