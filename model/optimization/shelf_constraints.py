"""Jars balance from week to week, stand where they fit and are eaten before they are past it."""

import numpy as np

from model.case import Case
from model.optimization.constraints import Constraints
from model.optimization.variables import Variables


def shelf_balance(case: Case, variables: Variables) -> Constraints:
    """Carry each preserve's units from one week's end to the next.

    ``shelf[r,w] = (1 - loss[r]) shelf[r,w-1] + sealed[r] put_up[r,w] - opened[r,w]
    - past[r,w] - given[r,w]``, where ``shelf[r,-1]`` is the opening stock.
    """
    arrays = case.arrays
    shelf = variables["shelf"].index
    rows = Constraints("shelf balance", "RW", shelf.shape)
    kept = (1.0 - arrays.loss_per_week)[:, None]
    rows.add(shelf, 1.0)
    # after the last week that counts nothing is asked of what still stands there
    carried = np.where(shelf[:, 1:] >= 0, shelf[:, :-1], -1)
    rows.add(carried, -kept, at=rows.index[:, 1:])
    rows.add(variables["put_up"].index, -arrays.sealed_share[:, None])
    for name in ("opened", "past", "given"):
        rows.add(variables[name].index, 1.0)
    carried_in = np.zeros(shelf.shape)
    begins = shelf[:, 0] >= 0
    carried_in[begins, 0] = (arrays.opening_units * (1.0 - arrays.loss_per_week))[begins]
    return rows.equal_to(carried_in)


def eaten_while_good(case: Case, variables: Variables) -> Constraints:
    """Keep nothing past its keeping life, oldest eaten first.

    ``shelf[r,w] <= what was put up in the last keeps_weeks weeks + opening stock still good``
    """
    arrays = case.arrays
    weeks = len(case.weeks)
    shelf, put_up = variables["shelf"].index, variables["put_up"].index
    rows = Constraints("eaten while good", "RW", shelf.shape)
    right = np.full(shelf.shape, np.inf)
    for r in range(len(arrays.preserves)):
        makes = np.flatnonzero(put_up[r] >= 0)
        life = int(arrays.keeps_weeks[r])
        first_past = makes[0] + life if len(makes) else weeks
        stays = arrays.opening_units[r] * (1 - arrays.loss_per_week[r]) ** (np.arange(weeks) + 1)
        ageing = arrays.opening_left[r] < stays - 1e-9
        bound = np.flatnonzero((shelf[r] >= 0) & (ageing | (np.arange(weeks) >= first_past)))
        age = bound[:, None] - makes[None, :]
        good = (age >= 0) & (age < life)
        left = arrays.sealed_share[r] * (1 - arrays.loss_per_week[r]) ** age[good]
        rows.add(shelf[r, bound], 1.0, rows.index[r, bound])
        rows.add(
            np.broadcast_to(put_up[r, makes], good.shape)[good],
            -left,
            np.broadcast_to(rows.index[r, bound][:, None], good.shape)[good],
        )
        right[r, bound] = arrays.opening_left[r, bound]
    return rows.at_most(right)


def ready_to_eat(case: Case, variables: Variables) -> Constraints:
    """Leave what still ferments in the crock: ``shelf[r,w] >= put up in the last weeks``."""
    arrays = case.arrays
    shelf, put_up = variables["shelf"].index, variables["put_up"].index
    waiting = np.flatnonzero(arrays.ready_after_weeks)
    rows = Constraints("ready to eat", "RW", (len(waiting), len(case.weeks)))
    rows.add(shelf[waiting], 1.0)
    for row, r in enumerate(waiting):
        for back in range(int(arrays.ready_after_weeks[r])):
            later = rows.index[row, back:]
            rows.add(put_up[r, : len(later)], -arrays.sealed_share[r], later)
    return rows.at_least(np.where(shelf[waiting] >= 0, 0.0, -np.inf))


def places_hold(case: Case, variables: Variables) -> Constraints:
    """Fill no shelf, freezer, root store or crock beyond its room."""
    arrays = case.arrays
    rows = Constraints("places", "PW", (len(arrays.places), len(case.weeks)))
    for r, place in enumerate(arrays.place_of):
        rows.add(variables["shelf"].index[r], arrays.space_per_unit[r], rows.index[place])
    return rows.at_most(arrays.place_capacity[:, None])
