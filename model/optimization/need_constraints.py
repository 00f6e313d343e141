"""Fresh and opened portions meet the wants; shares, reserves and wishes have their limits."""

import numpy as np

from model.case import Case
from model.optimization.constraints import Constraints
from model.optimization.variables import Variables


def needs_met(case: Case, variables: Variables) -> Constraints:
    """Count every portion eaten as one that meets a want, the most wanted first.

    ``sum_c portions_per_kg[c] eaten[c,w] + sum_r portions[r] opened[r,w] = sum_k met[f,w,k]``
    """
    arrays = case.arrays
    met = variables["met"].index
    rows = Constraints("needs met", "FW", met.shape[:2])
    for c, f in enumerate(arrays.food_of_crop):
        if f >= 0:
            rows.add(variables["eaten"].index[c], arrays.portions_per_kg[c], rows.index[f])
    for r, f in enumerate(arrays.food_of_preserve):
        rows.add(variables["opened"].index[r], arrays.portions[r], rows.index[f])
    for step in range(met.shape[2]):
        rows.add(met[:, :, step], -1.0)
    return rows.equal_to(0.0)


def fresh_first(case: Case, variables: Variables) -> Constraints:
    """Credit wanted portions that are eaten fresh: ``fresh[f,w] <= portions eaten fresh``."""
    arrays = case.arrays
    fresh = variables["fresh"].index
    rows = Constraints("fresh first", "FW", fresh.shape)
    rows.add(fresh, 1.0)
    for c, f in enumerate(arrays.food_of_crop):
        if f >= 0:
            rows.add(variables["eaten"].index[c], -arrays.portions_per_kg[c], rows.index[f])
    return rows.at_most(0.0)


def shares_kept(case: Case, variables: Variables) -> Constraints:
    """Count portions of a preserve beyond its share of what is to be kept of its food.

    ``sum_w portions[r] opened[r,w] - beyond[r] <= share[r] kept_want[food]``
    """
    arrays = case.arrays
    beyond = variables["beyond"].index
    rows = Constraints("shares kept", "R", beyond.shape)
    opened = variables["opened"].index
    at = np.broadcast_to(rows.index[:, None], opened.shape)
    rows.add(opened, arrays.portions[:, None], at)
    rows.add(beyond, -1.0)
    return rows.at_most(arrays.share_of_food * case.kept_want[arrays.food_of_preserve])


def reserve_in_hand(case: Case, variables: Variables) -> Constraints:
    """Count as reserve only what stands there at the new crop: ``reserve[r] <= shelf[r,end]``."""
    arrays = case.arrays
    reserve, shelf = variables["reserve"].index, variables["shelf"].index
    rows = Constraints("reserve in hand", "R", reserve.shape)
    rows.add(reserve, 1.0)
    last = case.demand.cover_until[arrays.food_of_preserve] - 1
    for r, week in enumerate(last):
        if week >= 0:
            rows.add(shelf[r, week : week + 1], -1.0, rows.index[r : r + 1])
    return rows.at_most(0.0)


def wishes(case: Case, variables: Variables) -> Constraints:
    """Credit sealed jars up to a target: ``wished[r] <= sum_w sealed[r] put_up[r,w]``."""
    arrays = case.arrays
    wished = variables["wished"].index
    rows = Constraints("wishes", "R", wished.shape)
    rows.add(wished, 1.0)
    put_up = variables["put_up"].index
    at = np.broadcast_to(rows.index[:, None], put_up.shape)
    rows.add(put_up, np.where(wished >= 0, -arrays.sealed_share, 0.0)[:, None], at)
    return rows.at_most(0.0)


def no_more_than_wished(case: Case, variables: Variables) -> Constraints:
    """Stop at the target: ``sum_w sealed[r] put_up[r,w] <= target[r]`` (rounded up to a jar)."""
    arrays = case.arrays
    put_up = variables["put_up"].index
    rows = Constraints("enough", "R", (len(arrays.preserves),))
    targeted = ~np.isnan(arrays.target)
    at = np.broadcast_to(rows.index[:, None], put_up.shape)
    rows.add(put_up, np.where(targeted, arrays.sealed_share, 0.0)[:, None], at)
    limit = np.where(targeted, np.nan_to_num(arrays.target) + 1.0 - 1e-6, np.inf)
    return rows.at_most(np.where(np.nan_to_num(arrays.target, nan=1.0) == 0, 0.0, limit))
