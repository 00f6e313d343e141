"""The buy list: what the plan uses up against what is there, and the day it is first short."""

from datetime import date, timedelta

import pandas as pd
import pytest

import model
from model.planning import PlannedSeason
from tests.small_season import TABLES, small_season

TODAY = date(2027, 3, 1)


def row(table: pd.DataFrame, what: str) -> pd.Series:
    (found,) = table.index[table["what"] == what]
    return table.loc[found]


def planned(**changes: str) -> PlannedSeason:
    return model.plan_season(small_season(**changes), TODAY, years=20)


@pytest.fixture(scope="module")
def few() -> PlannedSeason:
    """Give a plan whose lids are not counted, and whose packs and quarts are."""
    return planned(jars="jar,volume_ml,owned,lids\nquart,946,40,60\npint,473,,\npack,750,10,\n")


def made(plan: PlannedSeason, *preserves: str) -> list[tuple[date, int]]:
    """Give by hand, from the plan's batches, how many are filled in which week."""
    batches = model.batch_table(plan)
    own = batches[batches["preserve"].isin(preserves) & (batches["jars"] > 0)]
    return sorted(own.groupby("week")["jars"].sum().items())


def test_acid_is_the_published_amount_of_every_jar_by_the_first_week(
    spring_plan: PlannedSeason,
) -> None:
    """MSU 01600830: 2 tbsp (30 ml) of bottled juice or 1/2 tsp of citric acid a quart, half a
    pint; a jar of 850 ml is held to the quart, one of 435 ml to the pint."""
    quarts = made(spring_plan, "crushed tomatoes", "tomatoes in water")
    pints = made(spring_plan, "thin tomato sauce")
    assert quarts
    assert pints
    large, small = (sum(jars for _, jars in own) for own in (quarts, pints))
    table = model.buy_list_table(spring_plan)
    juice = row(table, "bottled lemon juice")

    assert (juice["to_buy"], juice["unit"]) == (30 * large + 15 * small, "ml")
    assert juice["in_house_by"] == min(quarts[0][0], pints[0][0])
    citric = row(table, "or, instead of lemon juice, citric acid")
    assert citric["to_buy"] == pytest.approx(large / 2 + small / 4)


def test_what_only_a_recipe_says_has_no_amount() -> None:
    beans = TABLES["preserves.csv"].replace("pint,20", "pint,60")
    plan = planned(preserves=beans)
    assert made(plan, "dilled beans")
    vinegar = row(model.buy_list_table(plan), "vinegar of at least 5 %, salt, sugar and spices")

    assert (vinegar["needed"], vinegar["to_buy"]) == (None, None)
    assert vinegar["used_for"] == "dilled beans"


def test_packs_beyond_the_empty_ones_are_bought_by_the_week_that_is_short_of_them(
    few: PlannedSeason,
) -> None:
    """Ten packs, less those that stand there full by the book."""
    table = model.buy_list_table(few)
    frozen = made(few, "frozen beans")
    there = 10 - float(
        few.case.arrays.opening_units[few.case.arrays.preserves.index("frozen beans")]
    )
    pack = row(table, "pack")
    short = next(week for week, _ in frozen if sum(n for day, n in frozen if day <= week) > there)

    assert pack["needed"] == sum(jars for _, jars in frozen)
    assert pack["there"] == pytest.approx(there)
    assert pack["to_buy"] == pytest.approx(pack["needed"] - there)
    assert pack["in_house_by"] == short


def test_lids_that_are_there_are_not_bought_and_unknown_ones_all_are(few: PlannedSeason) -> None:
    table = model.buy_list_table(few)

    assert row(table, "new lids for quart")["to_buy"] == 0
    pints = row(table, "new lids for pint")
    filled = sum(jars for _, jars in made(few, "sauce", "dilled beans"))
    assert (pints["there"], pints["to_buy"]) == (None, filled)


def test_jars_that_stand_full_cannot_be_filled(few: PlannedSeason) -> None:
    """Jars of the worst week, against those owned; the plan itself keeps to the owned ones."""
    table = model.buy_list_table(few)
    quart, pint = row(table, "quart"), row(table, "pint")

    assert quart["there"] == 40
    assert quart["needed"] <= 40
    assert quart["to_buy"] == 0
    assert pint["there"] is None
    assert 0 < pint["to_buy"] <= pint["needed"]
    assert "not in the notes" in pint["used_for"]


def test_seed_is_there_by_the_day_of_sowing_and_what_is_started_is_not_bought(
    few: PlannedSeason,
) -> None:
    beans = row(model.buy_list_table(few), "bush bean to sow")

    assert (beans["in_house_by"], beans["unit"]) == (date(2027, 5, 28), "m2 of bed")
    assert beans["to_buy"] == pytest.approx(float(few.plan.amounts[0]))
    assert "tomato to sow" in set(model.buy_list_table(few)["what"])
    (sown,) = (one.sown for one in few.case.season.plantings if one.crop == "tomato")
    later = model.plan_season(few.case.season, sown + timedelta(weeks=3), years=20)
    assert not model.buy_list_table(later)["what"].str.startswith("tomato to").any()


def test_seed_for_what_should_have_been_sown_and_still_can_be_is_bought_today(
    spring_plan: PlannedSeason,
) -> None:
    today, plantings = spring_plan.case.today, model.planting_table(spring_plan)
    late = plantings[
        [s is not None and s < today < p for s, p in plantings[["sown", "start"]].to_numpy()]
    ]
    assert not late.empty
    bought = model.buy_list_table(spring_plan)
    for crop in late["crop"]:
        assert row(bought, f"{crop} to sow now, if that was not done")["in_house_by"] == today


def test_the_list_is_in_the_order_of_its_days_and_none_lies_behind_today(
    spring_plan: PlannedSeason,
) -> None:
    days = list(model.buy_list_table(spring_plan)["in_house_by"])

    assert days == sorted(days)
    assert days[0] >= spring_plan.case.today
    assert days[-1] < spring_plan.case.today + timedelta(days=365)
