from datetime import date

import numpy as np
import pytest

import model
from model.case import make_case
from model.errors import SeasonProblems
from model.forecast.harvest import forecast_harvest
from model.forecast.rotation import grown_before
from model.optimization.make_plan import make_plan
from model.season.season import Season
from tests.small_season import small_season

TODAY = date(2027, 3, 1)
BEDS = "bed,area_m2\nsouth,14\nnorth,14\n"
HEADING = "season,crop,bed,sown,planted_out,area_m2,plants,least_percent,most_percent,choice\n"
LAST_YEAR = "2026,runner bean,south,2026-05-28,,5,,,,\n2026,potato,north,,2026-04-20,5,,,,\n"
BEANS = (
    "2027,bush bean,south,2027-05-28,,8,,50,150,beans\n"
    "2027,bush bean,north,2027-05-28,,8,,50,150,beans\n"
)
TOMATOES = (
    "2027,tomato,south,2027-03-20,2027-05-28,,12,50,150,tomatoes\n"
    "2027,tomato,north,2027-03-20,2027-05-28,,12,50,150,tomatoes\n"
)


def two_beds(plantings: str) -> Season:
    return small_season(
        beds=BEDS,
        seasons="season,begins,ends\n2026,2026-01-01,2026-12-31\n2027,2027-01-01,2027-12-31\n",
        plantings=HEADING + plantings,
        stock=None,
    )


def test_a_choice_shares_one_amount_between_its_beds() -> None:
    season = two_beds(BEANS + TOMATOES)
    plan = make_plan(make_case(season, TODAY)).plan

    # 50 to 150 per cent of 8 m2, and of 12 plants
    assert 4 - 0.2 <= plan.amounts[:2].sum() <= 12 + 1e-6
    assert 6 - 2 <= plan.amounts[2:].sum() <= 18 + 1e-6
    assert [planting.amount for planting in season.plantings] == [8, 0, 12, 0]


def test_a_family_goes_where_it_has_not_stood_last_year() -> None:
    season = two_beds(LAST_YEAR + BEANS + TOMATOES)
    forecast = forecast_harvest(season, TODAY)
    plan = make_plan(make_case(season, TODAY)).plan
    beans_south, beans_north, _, tomatoes_north = forecast.plantings

    assert grown_before(season, beans_south, forecast.year) == "2026"
    assert grown_before(season, beans_north, forecast.year) is None
    assert grown_before(season, tomatoes_north, forecast.year) == "2026"
    assert plan.amounts[0] == 0
    assert plan.amounts[1] > 0
    assert plan.amounts[2] > 0
    assert plan.amounts[3] == 0


def test_where_no_bed_has_rested_the_choice_stays_open() -> None:
    both = LAST_YEAR + "2026,bush bean,north,2026-05-28,,2,,,,\n"
    forecast = forecast_harvest(two_beds(both + BEANS), TODAY)

    assert forecast.most == pytest.approx([12, 12])


def test_a_bed_without_a_choice_is_left_to_the_household() -> None:
    row = "2027,bush bean,south,2027-05-28,,8,,,,\n"
    forecast = forecast_harvest(two_beds(LAST_YEAR + row), TODAY)

    assert forecast.most == pytest.approx([8])
    assert grown_before(two_beds(LAST_YEAR + row), forecast.plantings[0], forecast.year) == "2026"


def test_what_has_been_sown_of_a_choice_is_fixed() -> None:
    forecast = forecast_harvest(two_beds(BEANS), date(2027, 6, 7))

    assert (forecast.least == forecast.most).all()
    assert forecast.choices == ()


def test_another_sowing_day_is_a_choice_too() -> None:
    days = BEANS.replace("north,2027-05-28", "south,2027-06-25")
    plan = make_plan(make_case(two_beds(days), TODAY)).plan

    assert plan.amounts.sum() <= 12 + 1e-6
    assert np.flatnonzero(plan.harvest_kg.sum(axis=0)).size > 3


def test_the_rows_of_a_choice_agree_on_crop_and_amount() -> None:
    with pytest.raises(SeasonProblems, match="first row of choice 'beans'"):
        two_beds(BEANS.replace("north,2027-05-28,,8", "north,2027-05-28,,9"))


def test_only_the_bed_that_is_taken_is_listed() -> None:
    planned = model.plan_season(two_beds(LAST_YEAR + BEANS + TOMATOES), TODAY, years=5)
    table = model.planting_table(planned)

    assert list(zip(table["crop"], table["bed"], strict=True)) == [
        ("bush bean", "north"),
        ("tomato", "south"),
    ]
    assert list(table["family_before"]) == ["", ""]
