from dataclasses import replace
from datetime import date

import numpy as np
import pytest

from model import FirstAnswers, YearDay, first_notes, plan_season, season_from_tables
from model.case import Case, make_case
from model.optimization.ground import with_amounts
from model.optimization.make_plan import relaxed_plan
from model.plan import Plan
from model.planting.fresh_years import lived, met_portions
from model.planting.margin import MARGINS, tuned_margin, with_margin
from tests.small_season import TABLES, small_season

TODAY = date(2027, 3, 1)
SMALL = FirstAnswers(
    household="Small garden",
    adults=2,
    children_ages=(),
    bed_area_m2=30.0,
    altitude="640 m",
    units="metric",
    country="US",
    last_spring_frost=YearDay(5, 10),
    first_autumn_frost=YearDay(10, 5),
    canner="",
    freezer_l=150.0,
    shelf_m2=2.0,
    root_store_kg=100.0,
    kitchen_hours_a_week=6.0,
    time_zone="Europe/Vienna",
)


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


@pytest.mark.parametrize(("adults", "bed_area_m2"), [(1, 10.0), (2, 30.0)])
def test_a_canner_makes_the_first_plan_of_a_small_garden_no_worse(
    adults: int, bed_area_m2: float
) -> None:
    def first(canner: str) -> Plan:
        answers = replace(SMALL, adults=adults, bed_area_m2=bed_area_m2, canner=canner)
        season = season_from_tables(first_notes(answers, TODAY))
        return plan_season(season, TODAY, years=5).plan

    canned, bare = first("boiling-water canner"), first("")

    assert np.minimum(canned.met, canned.wanted).sum() > np.minimum(bare.met, bare.wanted).sum()
    assert canned.report.relative_gap < 0.02
