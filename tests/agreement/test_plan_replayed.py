"""The simulation, which knows nothing of the optimiser, lives the expected year as planned."""

from datetime import date

import numpy as np
import pytest

from model.case import Case, make_case
from model.optimization.make_plan import make_plan
from model.plan import Plan
from model.season.season import Season
from model.simulation.lived_years import Follower, LivedYears, live_through
from model.simulation.luck import ordinary_luck

# Single precision over eighty weeks.
JARS = 2e-3


def replayed(case: Case, plan: Plan) -> LivedYears:
    follower = Follower(plan, case.arrays, case.demand.cover_until, as_wanted=False)
    luck = ordinary_luck(1, case.arrays.sealed_share, len(case.weeks), len(case.arrays.foods))
    return live_through(follower, plan.harvest_kg[None].astype(np.float32), luck)


def covered(case: Case) -> np.ndarray:
    until = case.demand.cover_until[case.arrays.food_of_preserve]
    return np.arange(len(case.weeks)) < until[:, None]


@pytest.mark.parametrize("today", [date(2027, 3, 15), date(2027, 8, 16), date(2028, 1, 10)])
def test_the_expected_year_reproduces_the_plans_own_shelf(alder_lane: Season, today: date) -> None:
    case = make_case(alder_lane, today)
    plan = make_plan(case).plan
    lived = replayed(case, plan)

    difference = np.abs(lived.shelf[0] - plan.shelf) * covered(case)
    assert difference.max() < JARS
    assert np.abs(lived.met[0] - plan.met).max() < 2e-2
    assert lived.filled[0] == pytest.approx(plan.put_up.sum(axis=1), abs=JARS)


def test_the_same_holds_for_a_household_with_a_pressure_canner(two_rivers: Season) -> None:
    case = make_case(two_rivers, date(2026, 10, 12))
    plan = make_plan(case).plan
    lived = replayed(case, plan)

    assert (np.abs(lived.shelf[0] - plan.shelf) * covered(case)).max() < JARS
    assert lived.filled[0] == pytest.approx(plan.put_up.sum(axis=1), abs=JARS)


def test_the_kitchen_work_of_the_expected_year_is_the_plans(alder_lane: Season) -> None:
    case = make_case(alder_lane, date(2027, 3, 15))
    plan = make_plan(case).plan
    arrays = case.arrays
    planned = arrays.minutes_per_load @ plan.loads + arrays.minutes_per_unit @ plan.put_up

    # a load the plan has room for but does not fill is not run in the replay
    assert (replayed(case, plan).minutes[0] <= planned + 0.5).all()
