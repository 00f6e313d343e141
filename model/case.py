"""One planning case: a season on a day, with its numbers, harvest forecast and demand."""

from dataclasses import dataclass
from datetime import date, timedelta

import numpy as np

from model.demand.eating import Demand, demand
from model.demand.lean_weeks import LeanStretch, fresh_portions, lean_stretches
from model.forecast.beds import check_beds_hold
from model.forecast.harvest import HarvestForecast, forecast_harvest
from model.season.arrays import Bools, Floats, SeasonArrays, season_arrays
from model.season.season import Season
from model.season.weeks import Weeks


@dataclass(frozen=True, eq=False)
class Case:
    """Everything that the plan and the simulated years are computed from.

    Parameters
    ----------
    fresh : shape (F, W), portions that the expected harvest of the amounts written down
        lets be eaten fresh, up to the want.
    kept_want : shape (F,), portions wanted over the weeks to cover that fresh food leaves.
    plate : shape (F,), the foods that make up the plate.
    """

    season: Season
    today: date
    arrays: SeasonArrays
    forecast: HarvestForecast
    demand: Demand
    fresh: Floats
    kept_want: Floats
    plate: Bools
    lean: tuple[LeanStretch, ...]

    @property
    def weeks(self) -> Weeks:
        """Give the weeks of the case."""
        return self.arrays.weeks


def make_case(season: Season, today: date) -> Case:
    """Work out the case of a season on a day; raises SeasonProblems for contradictions."""
    forecast = forecast_harvest(season, today)
    check_beds_hold(season, forecast)
    arrays = season_arrays(season, forecast.weeks, today)
    last = forecast.weeks.monday(len(forecast.weeks)) + timedelta(days=-1)
    cover = np.array(
        [
            max(0, min(len(forecast.weeks), forecast.weeks.index(forecast.new_crop.get(f, last))))
            for f in arrays.foods
        ],
        dtype=int,
    )
    needs = demand(season, forecast.weeks, cover)
    harvest = forecast.kg_by_crop(forecast.amounts, len(arrays.crops))
    fresh = fresh_portions(arrays, harvest, needs.wanted)
    plate = np.array([food.plate for food in season.foods], dtype=bool)
    lean = lean_stretches(arrays, needs, fresh, plate, season.settings.lean_share)
    return Case(
        season=season,
        today=today,
        arrays=arrays,
        forecast=forecast,
        demand=needs,
        fresh=fresh,
        kept_want=(needs.wanted - fresh).sum(axis=1),
        plate=plate,
        lean=tuple(lean),
    )
