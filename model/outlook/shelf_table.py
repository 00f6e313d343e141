"""Tables of the shelf: stock by preserve and by food, week by week, with its spread."""

from datetime import date, timedelta

import numpy as np
import pandas as pd

from model.planning import PlannedSeason


def stock_table(planned: PlannedSeason) -> pd.DataFrame:
    """One row a preserve and day: the plan's units on the shelf, and a low and a high year in ten.

    The days are today and the end of every week. The years are those in which the household
    keeps to the plan's pace.

    ``jars``, ``low`` and ``high`` are in the column ``unit``.

    >>> print(*model.stock_table(planned))
    preserve food unit day jars low high
    """
    case, plan = planned.case, planned.plan
    low, high = planned.shelf_low, planned.shelf_high
    days, opening = _days(planned), case.arrays.opening_units
    rows = []
    for r, preserve in enumerate(case.season.preserves):
        if not plan.shelf[r].any() and not high[r].any():
            continue
        shelf = np.insert(plan.shelf[r], 0, opening[r])
        frame = pd.DataFrame(
            {
                "preserve": preserve.name,
                "food": preserve.food,
                "unit": preserve.unit,
                "day": days,
                "jars": shelf,
                "low": np.minimum(np.insert(low[r], 0, opening[r]), shelf),
                "high": np.maximum(np.insert(high[r], 0, opening[r]), shelf),
            }
        )
        rows.append(frame)
    columns = ["preserve", "food", "unit", "day", "jars", "low", "high"]
    return pd.concat(rows, ignore_index=True) if rows else pd.DataFrame(columns=columns)


def food_stock_table(planned: PlannedSeason) -> pd.DataFrame:
    """One row a food and day: portions on the shelf if everyone eats what they want.

    The days are today and the end of every week until the new crop. Low, middle and high are of
    the simulated years, one in ten below and above.

    >>> print(*model.food_stock_table(planned))
    food day low_portions middle_portions high_portions plan_portions
    """
    case, arrays = planned.case, planned.case.arrays
    columns = ["food", "day", "low_portions", "middle_portions", "high_portions"]
    days = _days(planned)
    rows = [pd.DataFrame(columns=[*columns, "plan_portions"])]
    for f, food in enumerate(arrays.foods):
        kept = np.flatnonzero(arrays.food_of_preserve == f)
        if not len(kept):
            continue
        low, middle, high = np.percentile(planned.years.shelf[:, f], [10, 50, 90], axis=0)
        until = int(case.demand.cover_until[f])
        opening = float(arrays.portions[kept] @ arrays.opening_units[kept])
        planned_portions = arrays.portions[kept] @ planned.plan.shelf[kept]
        rows.append(
            pd.DataFrame(
                {
                    "food": food,
                    "day": days[: until + 1],
                    "low_portions": [opening, *low[:until]],
                    "middle_portions": [opening, *middle[:until]],
                    "high_portions": [opening, *high[:until]],
                    "plan_portions": [opening, *planned_portions[:until]],
                }
            )
        )
    return pd.concat(rows[1:] or rows, ignore_index=True)


def _days(planned: PlannedSeason) -> list[date]:
    """Give today and the day after each week's last, on which its end is seen."""
    return [planned.case.today, *(day + timedelta(weeks=1) for day in planned.case.weeks.mondays)]


def supply_table(planned: PlannedSeason) -> pd.DataFrame:
    """One row a week and source: portions of the plate by where they come from, and the want.

    Sources are fresh food, and kept food by its method; portions beyond the want are left out.

    >>> supply = model.supply_table(planned)
    >>> print(*supply)
    week source portions wanted_portions
    >>> supply["source"].unique().tolist()
    ['new crop', 'fresh', 'jars', 'freezer', 'root store', 'dried or fermented']
    """
    case, plan, arrays = planned.case, planned.plan, planned.case.arrays
    plate = case.plate
    in_plate = plate[arrays.food_of_preserve]
    methods = np.array([preserve.method for preserve in case.season.preserves])
    groups = {
        "jars": ("boiling water", "pressure"),
        "freezer": ("freeze",),
        "root store": ("root store",),
        "dried or fermented": ("dry", "ferment"),
    }
    wanted = case.demand.usual[plate].sum(axis=0)
    new_crop = (case.demand.usual - case.demand.wanted)[plate].sum(axis=0)
    fresh = np.minimum(plan.fresh, plan.wanted)[plate].sum(axis=0)
    opened = plan.opened * arrays.portions[:, None]
    parts = {"new crop": new_crop, "fresh": fresh}
    for name, members in groups.items():
        parts[name] = opened[in_plate & np.isin(methods, members)].sum(axis=0)
    room = np.maximum(wanted - fresh - new_crop, 0)
    kept = sum(parts[name] for name in groups)
    scale = np.minimum(1, np.divide(room, kept, out=np.ones_like(room), where=kept > 0))
    rows = []
    for name, portions in parts.items():
        shown = portions * scale if name in groups else portions
        rows.append(
            pd.DataFrame(
                {
                    "week": case.weeks.mondays,
                    "source": name,
                    "portions": shown,
                    "wanted_portions": wanted,
                }
            )
        )
    return pd.concat(rows, ignore_index=True)
