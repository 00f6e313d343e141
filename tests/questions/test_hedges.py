from dataclasses import replace
from datetime import date

import pytest

import model
from model.outlook.headings import HEADINGS
from model.questions.hedges import hedge_table
from model.season.record import FREEZER_DIED, LOST, Taken
from tests.small_season import TABLES, small_season

TODAY = date(2027, 3, 1)


@pytest.fixture(scope="module")
def planned() -> model.PlannedSeason:
    """Little ground and much appetite, so that every hedge can help."""
    rows = TABLES["preserves.csv"].splitlines()
    season = small_season(
        preserves="\n".join([*rows, "frozen tomatoes,tomatoes,tomato,freeze,,,pack,10"]) + "\n",
        plantings=(
            "season,crop,bed,sown,planted_out,area_m2,plants\n"
            "2027,bush bean,only bed,2027-05-28,,6,\n"
            "2027,runner bean,only bed,2027-05-28,,2,\n"
            "2027,tomato,only bed,2027-03-20,2027-05-28,,9\n"
        ),
        foods=TABLES["foods.csv"].replace("4,bush bean", "4,bush bean;runner bean"),
        stock=None,
    )
    return model.plan_season(season, TODAY, years=20)


def test_every_hedge_stands_beside_the_plan_on_the_same_ground(
    planned: model.PlannedSeason,
) -> None:
    table = hedge_table(planned, "beans", seed=1)
    grown = table[table["area_m2"] > 0]

    assert table.iloc[0]["hedge"] == "as planned"
    assert len(grown) == 3
    assert grown["area_m2"].nunique() == 1
    assert table["hedge"].str.contains("runner bean").any()
    assert table["hedge"].str.contains("bought in at the peak").any()
    assert set(table.columns) <= set(HEADINGS)


def test_more_of_a_crop_and_a_box_for_sure_are_never_worse(planned: model.PlannedSeason) -> None:
    table = hedge_table(planned, "tomatoes", seed=1).set_index("hedge")
    plain = table.loc["as planned"]
    more, box = table.loc["a quarter more tomato"], table.iloc[-1]

    assert more["mean_portions"] >= plain["mean_portions"] - 0.5
    assert box["bad_year_portions"] > plain["bad_year_portions"]
    # the same kilograms, for sure, help a bad year more than the ones that may fail
    assert box["bad_year_portions"] > more["bad_year_portions"]


def test_a_second_method_is_offered_where_the_notes_have_one(
    planned: model.PlannedSeason,
) -> None:
    tomatoes, beans = (
        hedge_table(planned, food, seed=1)["hedge"] for food in ("tomatoes", "beans")
    )

    assert tomatoes.str.startswith("as much frozen tomatoes as").any()
    assert beans.str.startswith("as much dilled beans as frozen beans").any()


def test_nothing_is_offered_for_what_is_in_the_ground(planned: model.PlannedSeason) -> None:
    later = model.plan_season(planned.case.season, date(2027, 7, 5), years=20)

    assert hedge_table(later, "tomatoes", seed=1).empty


def test_no_second_method_is_offered_that_needs_a_freezer_that_died() -> None:
    rows = TABLES["preserves.csv"].splitlines()
    season = small_season(
        preserves="\n".join([*rows, "frozen tomatoes,tomatoes,tomato,freeze,,,pack,10"]) + "\n",
        stock=None,
    )
    died = Taken(TODAY, "frozen beans", 3, LOST, FREEZER_DIED, "")
    record = replace(season.record, taken=(died,))
    after, before = (
        hedge_table(model.plan_season(one, TODAY, years=2), "tomatoes", seed=1)["hedge"]
        for one in (replace(season, record=record), season)
    )

    assert before.str.contains("as much frozen tomatoes").any()
    assert len(after)
    assert not after.str.contains("as much frozen").any()
