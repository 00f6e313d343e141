"""Whole loads taken week by week, against the solver's own search for all of them at once."""

from datetime import date
from importlib.resources import files

import model
from model.case import make_case
from model.optimization.make_plan import make_plan
from model.optimization.planning_program import planning_program
from model.optimization.solve import Solver


def test_few_loads_are_chosen_as_well_as_a_long_search_chooses_them() -> None:
    season = model.read_season(str(files("demo_data") / "two_rivers"))
    case = make_case(season, date(2027, 1, 15))
    program = planning_program(case)
    search = Solver(program)
    search.make_whole(program.variables["loads"].columns)

    # the search may fill parts of jars, the plan does not
    assert make_plan(case).plan.report.worth > 0.98 * search.solve().worth
