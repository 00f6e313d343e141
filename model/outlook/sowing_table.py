"""The last days to sow with their chances, and quick crops for beds that are free."""

import numpy as np
import pandas as pd

from model.forecast.beds import bed_occupancy
from model.forecast.setbacks import has_failed
from model.forecast.sowing import (
    can_be_dated,
    chance_of_picking,
    earliest_start,
    latest_start,
)
from model.outlook.own_units import in_own
from model.planning import PlannedSeason
from model.reference.lookup import crop as reference_crop
from model.reference.read import table
from model.season.arrays import Floats
from model.season.garden import Crop

CHANCES = {"latest_nine": 0.9, "latest_five": 0.5, "latest_two": 0.2}
# A catch crop is one that the tables say is picked within about nine weeks, even late.
QUICK_DAYS = 65.0
LIKELY = 0.5
# Less is told as hardly ever, which before its time is too early.
HARDLY = 0.005
LEAST_M2 = 1.0
COLUMNS = (
    *("crop", "food", "start_by", "start_from", *CHANCES, "chance_today", "catch_crop"),
    *("free_beds", "beds_free", "free_bed", "free_m2"),
)


def sowing_table(planned: PlannedSeason) -> pd.DataFrame:
    """One row a crop: the last days to start it, with 9, 5 and 2 chances in 10 of being picked.

    They are blank where the time between the frosts is too short for that chance.
    ``chance_today`` is that of a start in the open today, no number where that is too early: for
    a hardy crop before its first day, for a tender one while frosts leave it hardly any chance.
    ``start_from`` is the first day for it. ``free_beds`` names the ``beds_free`` beds with room
    for it until it is picked, ``free_bed`` and ``free_m2`` the one with the most; the bed of a
    planting that failed counts as free. Behind the garden's own crops stand the quick ones of
    the tables that likely make it and have room. Crops that stand over winter have no row.

    >>> print(*model.sowing_table(planned))
    crop food start_by start_from latest_nine latest_five latest_two chance_today catch_crop
    free_beds beds_free free_bed free_m2
    """
    season, today = planned.case.season, planned.case.today
    own = [crop for crop in season.crops if can_be_dated(crop)]
    names = {crop.name for crop in season.crops}
    known = (reference_crop(row["crop"]) for row in table("crops"))
    quick = [
        crop
        for crop in known
        if crop.name not in names
        and (crop.days_high or np.inf) <= QUICK_DAYS
        and today >= earliest_start(season, crop, today)
        and chance_of_picking(season, crop, today) >= LIKELY
    ]
    stands = [not has_failed(season, p, today) for p in planned.case.forecast.plantings]
    taken = bed_occupancy(season, planned.case.forecast) @ (planned.plan.amounts * stands)
    rows = [_row(planned, crop, taken, catch_crop=False) for crop in own]
    caught = [_row(planned, crop, taken, catch_crop=True) for crop in quick]
    caught.sort(key=lambda row: (-float(str(row["chance_today"])), str(row["crop"])))
    rows += [row for row in caught if row["free_beds"]]
    return pd.DataFrame(rows, columns=list(COLUMNS))


def _row(
    planned: PlannedSeason, crop: Crop, taken: Floats, *, catch_crop: bool
) -> dict[str, object]:
    season, today = planned.case.season, planned.case.today
    free = _free_beds(planned, crop, taken)
    food = season.food_of_crop(crop.name)
    start_from = earliest_start(season, crop, today)
    # frosts that may still come are in the chance of a tender crop, as long as it has one
    now = chance_of_picking(season, crop, today)
    too_early = today < start_from and (not crop.tender or now < HARDLY)
    return {
        "crop": crop.name,
        "food": food.name if food else "",
        "start_by": "sow" if crop.counted_from == "sown" else "plant out",
        "start_from": start_from,
        **{name: latest_start(season, crop, part, today) for name, part in CHANCES.items()},
        "chance_today": np.nan if too_early else now,
        "catch_crop": catch_crop,
        "free_beds": ", ".join(_room(name, area, season.units) for name, area in free.items()),
        "beds_free": len(free),
        "free_bed": max(free, key=lambda name: free[name], default=""),
        "free_m2": max(free.values(), default=0.0),
    }


def _room(bed: str, area_m2: float, units: str) -> str:
    ground, unit = in_own(area_m2, "m2", units)
    return f"{bed} {ground:.1f} {unit}"


def _free_beds(planned: PlannedSeason, crop: Crop, taken: Floats) -> dict[str, float]:
    """Give the beds with room from today until a crop is picked, and how much, in m2.

    Parameters
    ----------
    taken : shape (beds, W), m2.
    """
    days = (crop.days_high or 0.0) + crop.picking_days_low
    weeks = taken[:, : max(1, round(days / 7))]
    # trees take no ground of the plan, but what stands under them is not free
    trees = {p.bed for p in planned.case.forecast.plantings if not p.area_m2_per_unit}
    free = {
        bed.name: bed.area_m2 - float(used.max())
        for bed, used in zip(planned.case.season.beds, weeks, strict=True)
        if bed.name not in trees
    }
    return {name: area for name, area in free.items() if area >= LEAST_M2}
