from datetime import date

import numpy as np
import pytest

from model.case import Case, make_case
from model.optimization.ground import with_amounts
from model.optimization.make_plan import make_plan
from model.optimization.marginal import Widening
from model.optimization.planning_program import planning_program
from model.plan import Plan
from tests.by_scipy import relaxation
from tests.small_season import TABLES, small_season

TODAY = date(2027, 3, 1)


@pytest.fixture(scope="module")
def cold_case() -> Case:
    """Beans for a freezer that is too small for them."""
    rows = TABLES["preserves.csv"].splitlines()
    small = TABLES["places.csv"].replace("150", "12")
    return make_case(
        small_season(preserves="\n".join([rows[0], rows[3]]) + "\n", places=small, stock=None),
        TODAY,
    )


def dual_of_room(case: Case, plan: Plan) -> float:
    """Give SciPy's marginal value of a litre in every week of the program."""
    program = planning_program(with_amounts(case, plan.amounts))
    found, equal = relaxation(program)
    values = np.zeros(len(equal))
    values[~equal] = -found.ineqlin.marginals
    rows = program.families["places"][case.arrays.places.index("freezer")]
    return float(values[rows[rows >= 0]].sum())


def test_a_litre_is_worth_what_another_solver_s_marginal_value_says(cold_case: Case) -> None:
    plan = make_plan(cold_case).plan
    widening = Widening(cold_case, plan)
    rows = widening.rows("places", cold_case.arrays.places.index("freezer"), None)
    found = widening.gain(rows, 0.5)

    assert found is not None
    assert found.worth / (0.5 * found.steps) == pytest.approx(
        dual_of_room(cold_case, plan), rel=0.02
    )
    assert found.portions > 0
    assert found.units > 0


def test_twice_the_step_brings_no_more_than_twice_the_worth(cold_case: Case) -> None:
    widening = Widening(cold_case, make_plan(cold_case).plan)
    rows = widening.rows("places", cold_case.arrays.places.index("freezer"), None)
    one, two = widening.gain(rows, 4.0), widening.gain(rows, 8.0)

    assert one is not None
    assert two is not None
    assert one.worth <= two.worth <= 2 * one.worth + 1e-6


def test_nothing_comes_of_more_hours_until_a_load_fits() -> None:
    rows = TABLES["preserves.csv"].splitlines()
    case = make_case(
        small_season(
            preserves="\n".join(rows[:2]) + "\n",
            kitchen_hours="begins,ends,hours_a_week\n,,1\n",
            stock=None,
        ),
        TODAY,
    )
    plan = make_plan(case).plan
    widening = Widening(case, plan)
    week = int(plan.harvest_kg[case.arrays.crops.index("tomato")].argmax())
    found = widening.gain(widening.rows("kitchen hours", None, week), 15.0)
    load, jar = case.arrays.minutes_per_load[0], case.arrays.minutes_per_unit[0]

    assert plan.loads.sum() == 0
    assert found is not None
    # the first of 15, 30, 60, 120 minutes more with which half a load of seven fits
    assert 60 + 15 * found.steps >= load + 3 * jar > 60 + 15 * found.steps / 2


def test_what_there_is_plenty_of_brings_nothing(tiny_case: Case) -> None:
    widening = Widening(tiny_case, make_plan(tiny_case).plan)
    lids = widening.rows("lids", tiny_case.arrays.jars.index("pint"), None)

    assert widening.gain(lids, 1.0) is None
