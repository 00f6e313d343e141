"""The years lived all at once are the years lived one number at a time in plain Python."""

import numpy as np
import pytest

from model.forecast.years import sampled_harvest
from model.learning.use_rate import AppetiteCv
from model.planning import PlannedSeason
from model.simulation.lived_years import Follower, live_through
from model.simulation.luck import draw_kitchen_luck
from tests.plain_years import Year, unsealed_of

YEARS = 3


@pytest.mark.parametrize("as_wanted", [True, False])
@pytest.mark.parametrize("plan_of", ["spring_plan", "sunday_plan", "southern_plan", "tiny_plan"])
def test_lived_years_agree_with_plain_python(
    plan_of: str, request: pytest.FixtureRequest, *, as_wanted: bool
) -> None:
    planned: PlannedSeason = request.getfixturevalue(plan_of)
    case, plan, arrays = planned.case, planned.plan, planned.case.arrays
    generator = np.random.default_rng(7)
    harvest = sampled_harvest(case.season, case.forecast, plan.amounts, YEARS, generator)
    cv = AppetiteCv(0.12, np.linspace(0.0, 0.3, len(arrays.foods)))
    luck = draw_kitchen_luck(generator, YEARS, arrays.sealed_share, len(case.weeks), cv)
    lived = live_through(Follower(plan, arrays, case.demand.cover_until, as_wanted), harvest, luck)

    for y in range(YEARS):
        year = Year(
            plan,
            arrays,
            case.demand.cover_until.tolist(),
            harvest[y].tolist(),
            unsealed_of(luck, y).tolist(),
            luck.appetite[:, y].tolist(),
            as_wanted,
        ).live()
        assert np.abs(np.array(year.shelf).T - lived.shelf[y]).max() < 0.02
        assert np.abs(np.array(year.met).T - lived.met[y]).max() < 0.05
