from datetime import date

import pytest

import model
from model.outlook.limits import limit_uses
from tests.small_season import TABLES, small_season

TODAY = date(2027, 3, 1)


@pytest.fixture(scope="module")
def short_of_jars() -> model.PlannedSeason:
    season = small_season(
        jars="jar,volume_ml,owned,lids\nquart,946,6,60\npint,473,4,40\npack,750,,\n", stock=None
    )
    return model.plan_season(season, TODAY, years=50)


def test_only_limits_that_are_used_up_are_asked_about(short_of_jars: model.PlannedSeason) -> None:
    table = model.one_more_table(short_of_jars)
    uses = limit_uses(short_of_jars.case, short_of_jars.plan)

    assert set(table["limit"]) == {use.limit for use in uses if use.tight.any()}
    assert {"jars: quart", "jars: pint"} <= set(table["limit"])


def test_a_jar_more_where_jars_are_short_is_a_jar_more_on_the_shelf(
    short_of_jars: model.PlannedSeason,
) -> None:
    table = model.one_more_table(short_of_jars).set_index("limit")

    assert table.loc["jars: pint", "steps"] >= 1
    assert table.loc["jars: pint", "jars"] > 0
    assert table["portions"].is_monotonic_decreasing


def test_in_spring_more_ground_is_held_against_the_same_years() -> None:
    heading, *rows = TABLES["plantings.csv"].splitlines()
    free = [f"{heading},least_percent,most_percent", *(f"{row},50,120" for row in rows)]
    season = small_season(
        plantings="\n".join(free) + "\n",
        beds="bed,area_m2\nonly bed,14\n",
        foods=TABLES["foods.csv"].replace("tomatoes,vegetable,4,9", "tomatoes,vegetable,14,20"),
    )
    planned = model.plan_season(season, TODAY, years=50)
    table = model.one_more_table(planned)
    ground = table[table["limit"].str.startswith(("only bed", "tomato in only bed"))]

    assert (ground["portions"] > 0).any()
    assert model.one_more_table(planned).equals(table)
