"""What is free in the present week, before its work is done, and what the plan takes of it."""

from collections.abc import Iterator

import numpy as np
import pandas as pd

from model.outlook.limits import empty_jars, kitchen_minutes
from model.planning import PlannedSeason

COLUMNS = ("limit", "kind", "unit", "free", "taken_by_plan")
ROOM_UNIT = {"shelf": "m2", "root store": "kg"}
CM2_IN_M2 = 1e4

_Row = tuple[str, str, str, float, float]


def week_limit_table(planned: PlannedSeason) -> pd.DataFrame:
    """One row a limit of the present week; ``free`` is what there is before its work is done.

    Kitchen hours, empty jars and packs by size, lids, room by place, and what freezers freeze
    and dryers dry in a week. Sizes and lids that nobody counted have no row.

    >>> print(*model.week_limit_table(planned))
    limit kind unit free taken_by_plan
    """
    rows = [*_work(planned), *_jars(planned), *_places(planned), *_rates(planned)]
    return pd.DataFrame(rows, columns=list(COLUMNS))


def _work(planned: PlannedSeason) -> Iterator[_Row]:
    case, plan = planned.case, planned.plan
    free = float(case.arrays.kitchen_minutes[0]) / 60
    hours = float(kitchen_minutes(case, plan)[0]) / 60
    yield "kitchen hours", "kitchen hours", "h", free, hours


def _jars(planned: PlannedSeason) -> Iterator[_Row]:
    case, now = planned.case, planned.plan.whole_batches[:, 0]
    arrays, empty = case.arrays, empty_jars(planned.case)
    for z, jar in enumerate(case.season.jars):
        own = arrays.jar_of == z
        if jar.name in empty:
            yield jar.name, "jars", "jar", empty[jar.name], float(now[own].sum())
        if jar.lids is not None:
            filled = float(now[own & arrays.canned].sum())
            yield f"lids for {jar.name}", "lids", "lid", float(jar.lids), filled


def _places(planned: PlannedSeason) -> Iterator[_Row]:
    case, now = planned.case, planned.plan.put_up[:, 0]
    arrays = case.arrays
    for p, place in enumerate(case.season.places):
        space = np.where(arrays.place_of == p, arrays.space_per_unit, 0.0)
        each = CM2_IN_M2 if place.kind == "shelf" else 1.0
        full = float(space @ arrays.opening_units)
        unit = ROOM_UNIT.get(place.kind, "l")
        free = max(0.0, place.capacity - full)
        yield place.name, place.kind, unit, free / each, float(space @ now) / each


def _rates(planned: PlannedSeason) -> Iterator[_Row]:
    case, now = planned.case, planned.plan.put_up[:, 0]
    arrays = case.arrays
    for p, place in enumerate(case.season.places):
        if arrays.freezes(p):
            frozen = float(np.where(arrays.place_of == p, arrays.prepared_kg, 0.0) @ now)
            free = float(arrays.freezer_kg_a_week[p, 0])
            yield f"freezing in {place.name}", "freezing", "kg", free, frozen
    if arrays.dried.any():
        fresh = float(arrays.fresh_kg[arrays.dried].sum(axis=1) @ now[arrays.dried])
        yield "dryer", "dryer", "kg", float(arrays.dryer_kg_a_week), fresh
