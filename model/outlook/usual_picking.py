"""What a crop should give in a whole season and when, to hold one picking against."""

from dataclasses import dataclass, replace
from datetime import date, timedelta

from model.forecast.harvest import forecast_harvest
from model.season.season import Season


@dataclass(frozen=True, slots=True)
class UsualPicking:
    """One crop in one garden year: all that an ordinary year gives, and its usual picking days.

    ``repeated``: it is picked again and again, so that no one picking is near the whole.
    """

    whole_kg: float
    first: date
    last: date
    repeated: bool


def usual_picking(season: Season, crop: str, day: date) -> UsualPicking | None:
    """Give what a crop should give in the garden year that holds a day, without setbacks.

    None where no planting of it is written down for that year.

    >>> usual = model.usual_picking(season, "tomato", date(2027, 8, 16))
    >>> usual.repeated, 50 < usual.whole_kg < 100, f"{usual.first:%b} to {usual.last:%b}"
    (True, True, 'Aug to Oct')
    >>> model.usual_picking(season, "tomato", date(2035, 8, 16)) is None
    True
    """
    years = {year.name for year in season.garden_seasons if year.begins <= day <= year.ends}
    if not any(p.crop == crop and p.season in years for p in season.plantings):
        return None
    forecast = forecast_harvest(season, day)
    planted = zip(forecast.plantings, forecast.dates, strict=True)
    own = [dates for planting, dates in planted if planting.crop == crop]
    all_picked = max(dates.ends for dates in own) + timedelta(weeks=1)
    whole = forecast.picked_so_far(replace(season, setbacks=()), all_picked)
    return UsualPicking(
        whole_kg=whole[crop],
        first=min(dates.first for dates in own),
        last=max(dates.ends for dates in own),
        repeated=any(dates.shape == "repeated" for dates in own),
    )
