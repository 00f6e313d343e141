"""A tiny household's plan against every plan there is, each priced by SciPy's own solver."""

from datetime import date
from itertools import product

import numpy as np
import pytest
from scipy.optimize import Bounds, LinearConstraint, milp

from model.case import Case, make_case
from model.optimization.make_plan import make_plan
from model.optimization.planning_program import planning_program
from model.optimization.program import LinearProgram
from model.optimization.solve import Solver
from tests.by_scipy import relaxation
from tests.small_season import TABLES, small_season

TODAY = date(2027, 8, 30)


def late_case() -> Case:
    """Late in the season: few weeks of tomatoes left, one preserve canned in loads."""
    preserves = "\n".join(TABLES["preserves.csv"].splitlines()[:2]) + "\n"
    season = small_season(
        preserves=preserves,
        stock=None,
        plantings=TABLES["plantings.csv"].replace(",12\n", ",6\n"),
        kitchen_hours="begins,ends,hours_a_week\n,,3\n",
    )
    return make_case(season, TODAY)


@pytest.fixture(scope="module")
def program() -> LinearProgram:
    return planning_program(late_case())


def best_by_scipy(program: LinearProgram, loads: np.ndarray, fixed: np.ndarray) -> float | None:
    """Give the best worth with the loads fixed and whole jars, by SciPy's solver."""
    lower, upper = program.lower.copy(), program.upper.copy()
    lower[loads] = upper[loads] = fixed
    whole = np.zeros(len(lower))
    whole[program.whole] = 1
    found = milp(
        -program.worth,
        integrality=whole,
        bounds=Bounds(lower, upper),
        constraints=LinearConstraint(program.matrix, program.row_lower, program.row_upper),
        options={"mip_rel_gap": 0.0},
    )
    return -found.fun if found.status == 0 else None


def test_the_whole_number_program_finds_the_best_of_all_plans(program: LinearProgram) -> None:
    loads = program.variables["loads"].columns
    assert 3 <= len(loads) <= 8
    # three hours a week hold one load at the most (104 min and the hand work)
    plans = list(product((0, 1), repeat=len(loads)))
    worths = [best_by_scipy(program, loads, np.array(plan)) for plan in plans]
    best = max(worth for worth in worths if worth is not None)
    solver = Solver(program)
    solver.make_whole(program.whole)

    # the solver stops within half a per cent of the bound it has proven
    found = solver.solve()
    assert found.worth <= best * (1 + 1e-9)
    assert found.worth >= best * (1 - 0.005)


def test_the_relaxation_agrees_with_scipy(program: LinearProgram) -> None:
    reference, equal = relaxation(program)

    assert np.isneginf(program.row_lower[~equal]).all()
    assert Solver(program).solve().worth == pytest.approx(-reference.fun, rel=1e-7)


def test_the_plan_lies_between_the_best_of_all_and_its_stated_gap() -> None:
    case = late_case()
    program, report = planning_program(case), make_plan(case).plan.report
    loads = program.variables["loads"].columns
    worths = [
        best_by_scipy(program, loads, np.array(plan)) for plan in product((0, 1), repeat=len(loads))
    ]
    best = max(worth for worth in worths if worth is not None)

    assert report.worth <= best * (1 + 1e-6) <= report.bound * (1 + 1e-6)
    assert report.worth >= best - report.relative_gap * report.bound - 1e-6
