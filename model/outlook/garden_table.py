"""Tables of the garden: plantings, harvest by week, and how the season stands."""

import math
from datetime import date

import numpy as np
import pandas as pd

from model.forecast.harvest import this_season
from model.forecast.picked import logged_kg
from model.forecast.rotation import grown_before
from model.planning import PlannedSeason
from model.season.arrays import Floats

AHEAD, BEHIND = 1.25, 0.75
WORTH_JUDGING = 0.15
UNLOGGED = "nothing logged"


def planting_table(planned: PlannedSeason) -> pd.DataFrame:
    """One row a planting: what was written down, what the plan grows, what it should give.

    What a crop gives beyond all use is shared among its plantings by what they give. Of one
    choice only those are listed that are taken.

    >>> print(*model.planting_table(planned))
    crop bed per written amount area_m2 plants done sown start first_picking expected_kg spare_kg
    own_seasons family_before
    """
    case, plan = planned.case, planned.plan
    surplus = dict(zip(case.arrays.crops, _surplus_share(planned), strict=True))
    rows = []
    for b, planting in enumerate(case.forecast.plantings):
        amount = float(plan.amounts[b])
        if planting.choice and not amount:
            continue
        crop = case.season.crop(planting.crop)
        area = amount * planting.area_m2_per_unit
        plants = amount if planting.per == "plant" else (crop.plants_per_m2 or 0.0) * area
        expected = float(case.forecast.kg_per_unit[b].sum() * amount)
        rows.append(
            {
                "crop": planting.crop,
                "bed": planting.bed,
                "per": planting.per,
                "written": planting.amount,
                "amount": amount,
                "area_m2": round(area, 2),
                "plants": math.ceil(plants - 1e-9) if plants else None,
                "done": planting.done,
                "sown": planting.sown,
                "start": planting.started,
                "first_picking": case.forecast.dates[b].first,
                "expected_kg": expected,
                "spare_kg": expected * surplus[planting.crop],
                "own_seasons": case.forecast.own[b].seasons,
                "family_before": grown_before(case.season, planting, case.forecast.year) or "",
            }
        )
    return pd.DataFrame(rows)


def _surplus_share(planned: PlannedSeason) -> Floats:
    """Give the share of each crop's harvest that nobody can use; shape (C,)."""
    whole = planned.plan.harvest_kg.sum(axis=1)
    spare = planned.plan.spare_kg.sum(axis=1)
    share = np.divide(spare, whole, out=np.zeros_like(whole), where=whole > 0)
    shared: Floats = np.minimum(1.0, share)
    return shared


def harvest_table(planned: PlannedSeason) -> pd.DataFrame:
    """One row a crop and week in which something may be picked, with a bad and a good year in ten.

    The range holds the ordinary year too: what is lifted in one week, most years lift in another.

    >>> print(*model.harvest_table(planned))
    crop week expected_kg low_kg high_kg
    """
    plan = planned.plan
    rows = []
    for c, crop in enumerate(planned.case.arrays.crops):
        picked = (plan.harvest_kg[c] > 0.005) | (planned.harvest_high[c] > 0.005)
        rows += [
            {
                "crop": crop,
                "week": planned.case.weeks.monday(int(week)),
                "expected_kg": float(plan.harvest_kg[c, week]),
                "low_kg": float(min(planned.harvest_low[c, week], plan.harvest_kg[c, week])),
                "high_kg": float(max(planned.harvest_high[c, week], plan.harvest_kg[c, week])),
            }
            for week in np.flatnonzero(picked)
        ]
    columns = ["crop", "week", "expected_kg", "low_kg", "high_kg"]
    return pd.DataFrame(rows, columns=columns)


def progress_table(planned: PlannedSeason) -> pd.DataFrame:
    """One row a crop whose picking should have begun: expected and picked so far, and a verdict.

    Under about a sixth of the crop nothing can be said yet, nor where nothing at all was
    logged this season. Of a crop that ripens at once much may be early instead of more:
    what is to come of it is held to a good year's crop. ``judged_from`` is the Monday by which
    enough of it is due in an ordinary year; blank where something can be said already.

    >>> print(*model.progress_table(planned))
    crop expected_so_far_kg picked_kg status to_come_kg judged_from
    """
    case = planned.case
    year = this_season(case.season, case.today)
    picked = logged_kg(case.season, year, case.today)
    crop_shape = {crop.name: crop.shape for crop in case.season.crops}
    so_far = case.forecast.picked_so_far(case.season, case.today)
    to_come = planned.plan.harvest_kg.sum(axis=1)
    rows = []
    for c, crop in enumerate(case.arrays.crops):
        expected, got = so_far.get(crop, 0.0), picked.get(crop, 0.0)
        if expected <= 0.05 and got <= 0:
            continue
        rows.append(
            {
                "crop": crop,
                "expected_so_far_kg": expected,
                "picked_kg": got,
                "status": _verdict(expected, got, expected + float(to_come[c]), crop_shape[crop])
                if picked
                else UNLOGGED,
                "to_come_kg": float(to_come[c]),
                "judged_from": _judged_from(planned, c, expected),
            }
        )
    columns = ["crop", "expected_so_far_kg", "picked_kg", "status", "to_come_kg", "judged_from"]
    return pd.DataFrame(rows, columns=columns)


def _judged_from(planned: PlannedSeason, c: int, expected_kg: float) -> date | None:
    """Give the Monday by which a share of a crop is due that says something of the rest."""
    reached = expected_kg + np.cumsum(planned.plan.harvest_kg[c])
    enough = WORTH_JUDGING * reached[-1]
    if expected_kg >= enough:
        return None
    return planned.case.weeks.monday(int((reached >= enough).argmax()) + 1)


def _verdict(expected: float, got: float, whole: float, shape: str) -> str:
    if expected < WORTH_JUDGING * whole:
        return "too early to say"
    ratio = got / expected
    if ratio >= AHEAD:
        return "ahead" if shape == "repeated" else "ahead or early"
    return "behind" if ratio <= BEHIND else "on track"
