"""Loads are whole, hours and lids run out, jars come back empty, freezers freeze so fast."""

import numpy as np

from model.case import Case
from model.optimization.constraints import Constraints
from model.optimization.variables import Variables


def loads_hold(case: Case, variables: Variables) -> Constraints:
    """Put no more jars up than the loads hold: ``put_up[r,w] <= units_per_load[r] loads[r,w]``."""
    loads = variables["loads"].index
    rows = Constraints("loads hold", "RW", loads.shape)
    in_loads = loads >= 0
    rows.add(np.where(in_loads, variables["put_up"].index, -1), 1.0)
    rows.add(loads, -case.arrays.units_per_load[:, None].astype(float))
    return rows.at_most(0.0)


def loads_half_full(case: Case, variables: Variables) -> Constraints:
    """Heat no canner for a few jars: all loads of a week are full, but for one half full.

    ``units_per_load[r] loads[r,w] - put_up[r,w] <= units_per_load[r] - half of it, rounded down``.
    Common practice, no source: a load is worth its time from about half full on.
    """
    loads, size = variables["loads"].index, case.arrays.units_per_load[:, None]
    rows = Constraints("loads half full", "RW", loads.shape)
    rows.add(loads, size.astype(float))
    rows.add(np.where(loads >= 0, variables["put_up"].index, -1), -1.0)
    return rows.at_most((size - size // 2).astype(float))


def kitchen_time(case: Case, variables: Variables) -> Constraints:
    """Stay within the free minutes of each week.

    ``sum_r minutes_per_load[r] loads[r,w] + minutes_per_unit[r] put_up[r,w] <= minutes[w]``
    """
    arrays = case.arrays
    rows = Constraints("kitchen hours", "W", (len(case.weeks),))
    at = np.broadcast_to(rows.index, variables["loads"].index.shape)
    rows.add(variables["loads"].index, arrays.minutes_per_load[:, None], at)
    rows.add(variables["put_up"].index, arrays.minutes_per_unit[:, None], at)
    return rows.at_most(arrays.kitchen_minutes)


def jars_return(case: Case, variables: Variables) -> Constraints:
    """Fill only jars that are empty; a jar opened this week is empty next week.

    ``sum_r (shelf + opened + past + unsealed)[r,w] + given so far <= owned[z]``
    """
    arrays = case.arrays
    rows = Constraints("jars", "ZW", (len(arrays.jars), len(case.weeks)))
    for r in np.flatnonzero(arrays.canned & (arrays.jar_of >= 0)):
        z = arrays.jar_of[r]
        if not np.isfinite(arrays.owned_jars[z]):
            continue
        at = rows.index[z]
        for name in ("shelf", "opened", "past"):
            rows.add(variables[name].index[r], 1.0, at)
        rows.add(variables["put_up"].index[r], 1.0 - arrays.sealed_share[r], at)
        given = variables["given"].index[r]
        for week in np.flatnonzero(given >= 0):
            rows.add(np.full(len(at) - week, given[week]), 1.0, at[week:])
    return rows.at_most(arrays.owned_jars[:, None])


def lids_last(case: Case, variables: Variables) -> Constraints:
    """Use a new lid for every jar filled: ``sum put_up <= lids[z]``."""
    arrays = case.arrays
    rows = Constraints("lids", "Z", (len(arrays.jars),))
    for r in np.flatnonzero(arrays.canned & (arrays.jar_of >= 0)):
        put_up = variables["put_up"].index[r]
        rows.add(put_up, 1.0, np.full(len(put_up), rows.index[arrays.jar_of[r]]))
    return rows.at_most(arrays.lids)


def freezing_rate(case: Case, variables: Variables) -> Constraints:
    """Freeze no more prepared kilograms in a week than the freezer takes."""
    arrays = case.arrays
    rows = Constraints("freezing rate", "PW", (len(arrays.places), len(case.weeks)))
    for r, place in enumerate(arrays.place_of):
        if arrays.freezes(place):
            rows.add(variables["put_up"].index[r], arrays.prepared_kg[r], rows.index[place])
    return rows.at_most(arrays.freezer_kg_a_week)


def drying_rate(case: Case, variables: Variables) -> Constraints:
    """Dry no more fresh kilograms in a week than the dryers take."""
    arrays = case.arrays
    rows = Constraints("dryer", "W", (len(case.weeks),))
    fresh = arrays.fresh_kg.sum(axis=1)
    for r in np.flatnonzero(arrays.dried):
        rows.add(variables["put_up"].index[r], fresh[r], rows.index)
    return rows.at_most(arrays.dryer_kg_a_week)
