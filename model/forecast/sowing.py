"""Until when a crop can be started so that it is still picked, as a date with its chance.

A tender crop is picked if its first picking comes before the first autumn frost, and no spring
frost came after it was started. A hardy one goes on growing for a while after that frost: the
published days hold for spring and summer, not for the short days of autumn and winter.
"""

from dataclasses import replace
from datetime import date, timedelta
from math import floor, hypot
from statistics import NormalDist

from model.forecast.growth import (
    OVER_WINTER_DAYS,
    SEASON_OVER_DAYS,
    PickingDates,
    autumn_slowness,
    picking_dates,
)
from model.season.garden import Crop, Planting
from model.season.season import Season

# The slow growth of autumn, and of a tender crop the spring's frosts, shift the last day by no
# more than the season they come in.
MOST_DAYS_BACK = 90
ROUNDING = 1e-9
# Common practice, no source: their bulbs form by the length of the day, whatever day they were
# sown on, so that a late one is picked, but small.
BY_DAY_LENGTH = frozenset({"onion"})


def can_be_dated(crop: Crop) -> bool:
    """Say whether a crop is picked, in its size, so long after any start in one growing season."""
    if crop.name in BY_DAY_LENGTH:
        return False
    return crop.days_high is not None and crop.days_high < OVER_WINTER_DAYS


def chance_of_picking(season: Season, crop: Crop, day: date) -> float:
    """Give the chance that a crop started in the open on a day is picked that season.

    Raises ValueError for a crop that stands over winter.
    """
    dates = _dates(season, crop, day)
    frosts = season.frosts
    autumn = frosts.first_autumn.median.on_or_after(day - timedelta(days=SEASON_OVER_DAYS))
    days_left = (autumn + _goes_on(season, crop) - dates.first).days
    reached = NormalDist(0.0, _spread(season, dates)).cdf(days_left)
    return reached * (frosts.last_spring.chance_by(day) if crop.tender else 1.0)


def earliest_start(season: Season, crop: Crop, near: date) -> date:
    """Give the first day to start a crop in the open in the growing season that is on or next.

    A tender one once its frosts are past in nine years of ten, a hardy one some weeks before
    the last frost of an ordinary year.
    """
    frosts = season.frosts
    autumn = frosts.first_autumn.median.on_or_after(near)
    if crop.tender:
        return frosts.last_spring.late.on_or_before(autumn)
    weeks = season.settings.hardy_weeks_before_frost
    return frosts.last_spring.median.on_or_before(autumn) - timedelta(weeks=weeks)


def latest_start(season: Season, crop: Crop, chance: float, today: date) -> date | None:
    """Give the last day on which it can be started to be picked before frost with a chance.

    It is that of the first autumn frost on or after today; None where the time between the
    frosts is too short for that chance. Raises ValueError for a crop that stands over winter.
    """
    dates = _dates(season, crop, today)
    autumn = season.frosts.first_autumn.median.on_or_after(today)
    spare = NormalDist(0.0, _spread(season, dates)).inv_cdf(chance)
    takes = dates.first - today - timedelta(days=round(autumn_slowness(season, crop, today)))
    last = autumn + _goes_on(season, crop) - takes + timedelta(days=floor(-spare))
    for earlier in range(MOST_DAYS_BACK):
        day = last - timedelta(days=earlier)
        if chance_of_picking(season, crop, day) >= chance - ROUNDING:
            return day
    return None


def _spread(season: Season, dates: PickingDates) -> float:
    return hypot(dates.sd_days, season.frosts.first_autumn.sd_days)


def _goes_on(season: Season, crop: Crop) -> timedelta:
    """Give the days for which it grows on after the first frost."""
    return timedelta(days=0 if crop.frost == "kills" else season.settings.light_frost_days)


def _dates(season: Season, crop: Crop, day: date) -> PickingDates:
    if not can_be_dated(crop):
        raise ValueError(f"{crop.name} is not started and picked within one growing season")
    started = Planting(
        season="",
        crop=crop.name,
        bed="",
        form="",
        sown=day,
        planted_out=day,
        first_picking=None,
        per="m2 of bed",
        amount=0.0,
        least=0.0,
        most=0.0,
        kg_per_unit=0.0,
        area_m2_per_unit=1.0,
        choice="",
    )
    return picking_dates(replace(season, crops=(crop,)), started, day)
