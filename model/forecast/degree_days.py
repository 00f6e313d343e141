"""Growing degree-days: the warmth a day adds, by the clipped method of extension services.

A requirement in degree-days holds only with the method it was measured with: the clipped
("86/50 F") one. Check values: tests/published/degree_days.csv.
"""

from collections.abc import Sequence
from datetime import date, timedelta

import numpy as np

from model.season.arrays import Floats
from model.season.garden import Planting
from model.season.season import Season

# Sweet corn 'Jubilee' needs 1539 F-days = 855 C-days at 50/86 F, clipped before the mean.
# Source: Oregon State University Extension, scheduling vegetables with degree-day models.
NEEDED_C_DAYS = {"sweet corn": 855.0}
BASE_C, CEILING_C = 10.0, 30.0
LEAST_DAYS = 21
RECENT_DAYS = 14
SPREAD_DAYS = 5.0


def clip_then_mean(high_c: Floats, low_c: Floats, base_c: float, ceiling_c: float) -> Floats:
    """Clip high and low to base and ceiling first, then take the mean above the base."""
    high = np.clip(high_c, base_c, ceiling_c)
    low = np.clip(low_c, base_c, ceiling_c)
    warmth: Floats = (high + low) / 2 - base_c
    return warmth


def day_reached(warmth: Sequence[float], first: date, needed: float) -> date | None:
    """Give the day on whose evening the sum first reaches a need; None when it does not."""
    reached = np.flatnonzero(np.cumsum(np.asarray(warmth, dtype=float)) >= needed)
    return first + timedelta(days=int(reached[0])) if len(reached) else None


def first_picking_from_warmth(season: Season, planting: Planting, today: date) -> date | None:
    """Date a first picking from the household's own thermometer.

    The warmth recorded from sowing to today is summed; what is still missing is expected at
    the rate of the last fortnight. None without a requirement for the crop, or with fewer
    than three weeks of records without a gap.
    """
    needed = NEEDED_C_DAYS.get(planting.crop)
    if needed is None or planting.sown is None:
        return None
    recorded = {record.day: record for record in season.weather}
    days = [planting.sown + timedelta(days=n) for n in range(max(0, (today - planting.sown).days))]
    if len(days) < LEAST_DAYS or any(day not in recorded for day in days):
        return None
    high = np.array([recorded[day].high_c for day in days])
    low = np.array([recorded[day].low_c for day in days])
    warmth = clip_then_mean(high, low, BASE_C, CEILING_C)
    reached = day_reached(warmth.tolist(), days[0], needed)
    if reached is not None:
        return reached
    rate = max(float(warmth[-RECENT_DAYS:].mean()), 1.0)
    missing = needed - float(warmth.sum())
    return days[-1] + timedelta(days=int(np.ceil(missing / rate)))
