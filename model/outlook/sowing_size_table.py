"""How large each sowing is best: ripe together for whole loads, or spread over the weeks."""

from datetime import date, timedelta

import numpy as np
import pandas as pd

from model.forecast.sowing import can_be_dated, chance_of_picking
from model.planning import PlannedSeason
from model.season.garden import Crop

TOGETHER, SPREAD, ONE_SOWING = "together", "spread", "one sowing"
# Judgement: more sowings of one crop than this nobody makes in a season.
MOST_SOWINGS = 4
LEAST_KG, LEAST_DAYS, LIKELY = 0.05, 7, 0.9
# A week that gives a twentieth more than is used needs no second sowing.
NEAR = 0.05
# What waits so long needs no second sowing, nor what is picked for so long from one.
WAITS_DAYS, LONG_DAYS = 21.0, 40.0
COLUMNS = (
    *("crop", "bed", "amount", "per", "sow_as", "preserve", "at_once_kg", "load_kg"),
    *("load_amount", "heaviest_kg", "used_week_kg", "sowings", "days_apart"),
)


def sowing_size_table(planned: PlannedSeason) -> pd.DataFrame:
    """One row a sowing that is still to come: whether it should ripen together or be spread.

    ``together``: most of the crop goes into a preserve that is made in loads. ``at_once_kg`` is
    what an ordinary year gives of this sowing within the weeks that a picking holds,
    ``load_kg`` what a full load takes, and ``load_amount`` how much to sow for one.
    ``spread``: its ``heaviest_kg`` week is more than the most that the plan eats and puts up in
    one, ``used_week_kg``; in so many ``sowings``, ``days_apart``, no week is, as far as four
    sowings do that and the last is still picked with a chance of nine in ten. Else ``one
    sowing`` does. What goes to the root store, and what stands over winter, has no row.

    >>> print(*model.sowing_size_table(planned))
    crop bed amount per sow_as preserve at_once_kg load_kg load_amount heaviest_kg used_week_kg
    sowings days_apart
    """
    every = range(len(planned.case.forecast.plantings))
    rows = [row for b in every if (row := _row(planned, b, planned.case.today)) is not None]
    return pd.DataFrame(rows, columns=list(COLUMNS))


def _row(planned: PlannedSeason, b: int, today: date) -> dict[str, object] | None:
    case = planned.case
    arrays, planting, c = case.arrays, case.forecast.plantings[b], int(case.forecast.crop_of[b])
    crop, amount = case.season.crop(planting.crop), float(planned.plan.amounts[b])
    comes_kg = case.forecast.kg_per_unit[b] * amount
    if not can_be_dated(crop) or comes_kg.sum() <= LEAST_KG:
        return None
    if planting.started is None or planting.started <= today:
        return None
    r = _main_preserve(planned, c)
    if r is not None and case.season.preserves[r].method == "root store":
        return None
    held = np.ones(int(arrays.hold_weeks[c]))
    at_once_kg = float(np.convolve(comes_kg, held).max())
    row: dict[str, object] = {
        "crop": crop.name,
        "bed": planting.bed,
        "amount": amount,
        "per": planting.per,
        "preserve": "" if r is None else arrays.preserves[r],
        "at_once_kg": at_once_kg,
        "heaviest_kg": float(comes_kg.max()),
        "sowings": 1,
    }
    if r is not None and arrays.units_per_load[r]:
        load_kg = float(arrays.units_per_load[r] * arrays.fresh_kg[r, c])
        load_amount = amount * load_kg / at_once_kg
        return {**row, "sow_as": TOGETHER, "load_kg": load_kg, "load_amount": load_amount}
    used_kg = planned.plan.eaten_kg[c] + arrays.fresh_kg[:, c] @ planned.plan.put_up
    row["used_week_kg"] = float(used_kg.max())
    apart = timedelta(days=max(LEAST_DAYS, round(crop.picking_days_high)))
    # What nobody uses is not used up in parts either.
    heaviest = comes_kg.max() / used_kg.max() if used_kg.max() > LEAST_KG else 0.0
    sowings = _sowings(planned, crop, planting.started, apart, heaviest)
    if sowings == 1:
        return {**row, "sow_as": ONE_SOWING}
    return {**row, "sow_as": SPREAD, "sowings": sowings, "days_apart": apart.days}


def _sowings(
    planned: PlannedSeason, crop: Crop, started: date, apart: timedelta, heaviest: float
) -> int:
    """Give in how many sowings no week gives more than is used in one; ``heaviest`` is its part.

    What waits, and what is picked for many weeks from one sowing, spreads by itself.
    """
    if crop.hold_days >= WAITS_DAYS or crop.picking_days_low >= LONG_DAYS:
        return 1
    sowings, last = 1, started
    while (
        heaviest > sowings * (1 + NEAR)
        and sowings < MOST_SOWINGS
        and chance_of_picking(planned.case.season, crop, last + apart) >= LIKELY
    ):
        sowings, last = sowings + 1, last + apart
    return sowings


def _main_preserve(planned: PlannedSeason, c: int) -> int | None:
    """Give the preserve that takes most of a crop in the plan; None where it is eaten fresh."""
    kg = planned.case.arrays.fresh_kg[:, c] * planned.plan.put_up.sum(axis=1)
    if kg.max(initial=0.0) <= max(LEAST_KG, float(planned.plan.eaten_kg[c].sum())):
        return None
    return int(kg.argmax())
