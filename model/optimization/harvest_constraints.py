"""What is picked is eaten, held, put up or spared; beds hold what fits them."""

import numpy as np

from model.case import Case
from model.forecast.beds import bed_occupancy
from model.optimization.constraints import Constraints
from model.optimization.decisions import held_from_before
from model.optimization.variables import Variables
from model.season.arrays import Floats


def picking_balance(case: Case, variables: Variables) -> Constraints:
    """Share out each crop's kilograms, week by week.

    ``on_hand[c,w] = on_hand[c,w-1] + sum_b kg[b,w] area[b] - eaten[c,w]
    - sum_r fresh_kg[r,c] put_up[r,w] - spare[c,w]``, where ``on_hand[c,-1]`` is what is still
    held from the weeks before.
    """
    arrays, forecast = case.arrays, case.forecast
    on_hand = variables["on_hand"].index
    rows = Constraints("picking balance", "CW", on_hand.shape)
    rows.add(on_hand, 1.0)
    rows.add(on_hand[:, :-1], -1.0, at=rows.index[:, 1:])
    rows.add(variables["eaten"].index, 1.0)
    rows.add(variables["spare"].index, 1.0)
    for c in range(len(arrays.crops)):
        for r in np.flatnonzero(arrays.fresh_kg[:, c]):
            rows.add(variables["put_up"].index[r], arrays.fresh_kg[r, c], at=rows.index[c])
    area = variables["area"].index
    # what is too little for a decision of its own is too little to ask for one
    enough = variables["spare"].index >= 0
    for b, c in enumerate(forecast.crop_of):
        picked = np.where(enough[c], forecast.kg_per_unit[b], 0.0)
        rows.add(np.broadcast_to(area[b], len(arrays.weeks)), -picked, rows.index[c])
    had = np.zeros(rows.shape)
    had[:, 0] = held_from_before(case)[:, 0]
    return rows.equal_to(had)


def held_while_good(case: Case, variables: Variables) -> Constraints:
    """Hold no picking longer than the crop holds.

    ``on_hand[c,w] <= sum of the harvest of the last hold_weeks - 1 weeks``, those before the
    first week included; of what holds only a week, what was picked late in the first.
    """
    arrays, forecast = case.arrays, case.forecast
    on_hand = variables["on_hand"].index
    rows = Constraints("held while good", "CW", on_hand.shape)
    rows.add(on_hand, 1.0)
    area = variables["area"].index
    for b, c in enumerate(forecast.crop_of):
        span = int(arrays.hold_weeks[c]) - 1
        if span > 0:
            window = np.convolve(forecast.kg_per_unit[b], np.ones(span))[: len(arrays.weeks)]
            used = on_hand[c] >= 0
            rows.add(np.broadcast_to(area[b], used.sum()), -window[used], rows.index[c][used])
    return rows.at_most(held_from_before(case)[:, 1:])


def only_sound_waits(sound_kg: Floats, case: Case, variables: Variables) -> Constraints:
    """Let no more of each crop than is sound go to a root store or wait in the first week.

    ``on_hand[c,0] + sum over root-store r of fresh_kg[r,c] put_up[r,0] <= sound_kg[c]``, with
    ``sound_kg`` of shape (C,).
    """
    rows = Constraints("only sound waits", "C", sound_kg.shape)
    rows.add(variables["on_hand"].index[:, 0], 1.0)
    for r, preserve in enumerate(case.season.preserves):
        if preserve.method == "root store":
            put_up = np.broadcast_to(variables["put_up"].index[r, 0], sound_kg.shape)
            rows.add(put_up, case.arrays.fresh_kg[r])
    return rows.at_most(sound_kg)


def beds_hold(case: Case, variables: Variables) -> Constraints:
    """Let the plantings of a bed fit it in every week.

    ``sum_b area_m2_per_unit[b] occupies[b,w] area[b] <= bed area``
    """
    season = case.season
    occupied = bed_occupancy(season, case.forecast)
    distinct = [
        (bed, row)
        for bed in range(len(season.beds))
        for row in np.unique(occupied[bed], axis=0)
        if row.any()
    ]
    rows = Constraints("beds hold", "B", (len(distinct),))
    for number, (_, row) in enumerate(distinct):
        at = np.full(len(row), rows.index[number])
        rows.add(variables["area"].index, row, at)
    return rows.at_most(np.array([season.beds[bed].area_m2 for bed, _ in distinct]))


def choices_shared(case: Case, variables: Variables) -> Constraints:
    """Let the plantings of one choice share its amount: ``least <= sum area <= most``.

    The least gives way by what whole plants and tenths of m2 or metres may take.
    """
    choices, area = case.forecast.choices, variables["area"].index
    rows = Constraints("choices", "B", (len(choices),))
    for number, choice in enumerate(choices):
        members = np.array(choice.members)
        rows.add(area[members], 1.0, np.full(len(members), rows.index[number]))
    least = np.array([choice.least - len(choice.members) for choice in choices])
    return rows.between(least, np.array([choice.most for choice in choices]))
