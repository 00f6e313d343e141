from dataclasses import replace
from datetime import date

import numpy as np
import pytest

from model.case import Case, make_case
from model.optimization.ground import with_amounts
from model.optimization.make_plan import relaxed_plan
from model.planting.fresh_years import lived, met_portions
from model.planting.margin import MARGINS, tuned_margin, with_margin
from tests.small_season import TABLES, small_season

TODAY = date(2027, 3, 1)


@pytest.fixture(scope="module")
def free_case() -> Case:
    heading, *rows = TABLES["plantings.csv"].splitlines()
    table = [f"{heading},least_percent,most_percent", *(f"{row},20,300" for row in rows)]
    return make_case(small_season(plantings="\n".join(table) + "\n"), TODAY)


def test_a_larger_margin_plants_no_less_of_anything(free_case: Case) -> None:
    amounts = [with_margin(free_case, margin)[0] for margin in (0.0, 0.5, 1.0)]

    assert (amounts[1] >= amounts[0] - 0.11).all()
    assert amounts[2].sum() > amounts[0].sum()


def test_the_margin_taken_meets_most_in_the_years_it_was_tuned_on(free_case: Case) -> None:
    found = tuned_margin(free_case, np.random.default_rng(3), years=100)
    worths = dict(found.tried)

    assert tuple(worths) == MARGINS
    assert worths[found.margin] >= (1 - 1e-3) * max(worths.values())
    assert all(worths[m] < (1 - 1e-3) * max(worths.values()) for m in MARGINS if m < found.margin)


def test_a_household_that_weighs_the_bad_year_plants_no_smaller_margin(free_case: Case) -> None:
    def chosen(plan_for: str) -> float:
        case = replace(free_case, season=replace(free_case.season, plan_for=plan_for))
        return tuned_margin(case, np.random.default_rng(3), years=200).margin

    assert chosen("the bad year too") >= chosen("an ordinary year")


def test_the_same_draws_give_the_same_choice(free_case: Case) -> None:
    one, two = (tuned_margin(free_case, np.random.default_rng(5), years=50) for _ in range(2))

    assert (one.amounts == two.amounts).all()
    assert one.tried == two.tried


def test_what_is_fixed_is_not_chosen(tiny_case: Case) -> None:
    found = tuned_margin(tiny_case, np.random.default_rng(1), years=50)

    assert found.amounts == pytest.approx(tiny_case.forecast.amounts)
    assert found.tried == ()


def test_every_way_meets_the_same_years(free_case: Case) -> None:
    plan = relaxed_plan(with_amounts(free_case, free_case.forecast.amounts)).plan
    one, two = (met_portions(free_case, lived(free_case, plan, 40, 7)) for _ in range(2))

    assert (one == two).all()
    assert (one <= free_case.demand.wanted + 1e-3).all()
