"""What is set out, and the checklist: amounts as published, points that belong, ticks that hold."""

from dataclasses import replace
from datetime import date, timedelta
from fractions import Fraction

import pytest

from model.outlook.checklist import checklist
from model.outlook.day_product import DayProduct, Wanted, day_products
from model.outlook.set_out import SetOut, recipe_adds, set_out
from model.safety.process_times import process_time
from model.season.record import Record, Tick
from model.season.season import Season
from tests.small_season import TABLES, small_season

DAY = date(2027, 8, 16)
DIAL = small_season(
    equipment=TABLES["equipment.csv"] + 'canner,"pressure canner, dial gauge",pint,9\n'
)
BEANS = Wanted(
    "Beans, snap (green, wax, Italian), pieces", 9, "pressure, dial gauge", "raw", "pint"
)


def made(season: Season, *wanted: Wanted) -> tuple[DayProduct, ...]:
    products, refused = day_products(season, wanted)
    assert refused == ()
    return products


def things(season: Season, *wanted: Wanted) -> dict[str, SetOut]:
    return {one.what: one for one in set_out(season, made(season, *wanted))}


@pytest.mark.parametrize(
    ("preserve", "jars", "juice_ml", "citric_tsp"),
    [("whole tomatoes", 7, 7 * 30, 7 / 2), ("sauce", 9, 9 * 15, 9 / 4)],
)
def test_the_acid_of_all_jars_is_as_published(
    preserve: str, jars: int, juice_ml: float, citric_tsp: float
) -> None:
    """MSU 01600830 (USDA AIB 539): 2 tbsp bottled juice or 1/2 tsp citric acid a quart, half a
    pint; a tablespoon is 15 ml."""
    found = things(small_season(), Wanted(preserve, jars))

    juice = found[f"({juice_ml:.0f} ml) bottled lemon juice"]
    assert (juice.amount, juice.unit) == (juice_ml / 15, "tbsp")
    assert found["citric acid, instead"].amount == citric_tsp


def test_jars_and_lids_are_counted_by_size_and_missing_lids_told() -> None:
    few = small_season(
        jars="jar,volume_ml,owned,lids\nquart,946,40,60\npint,473,30,12\npack,750,,\n"
    )
    found = things(few, Wanted("sauce", 9), Wanted("dilled beans", 9), Wanted("frozen beans", 4))

    assert (found["pint"].amount, found["new lids for pint"].amount) == (18, 18)
    assert found["new lids for pint"].note == "the notes hold only 12"
    assert found["pack"].amount == 4
    assert "new lids for pack" not in found


def test_what_only_the_recipe_says_gets_no_number() -> None:
    found = things(small_season(), Wanted("dilled beans", 9))

    assert found["vinegar of at least 5 %, salt, sugar and spices"].amount is None
    assert "tested recipe" in found["vinegar of at least 5 %, salt, sugar and spices"].note


@pytest.mark.parametrize(
    ("product", "pack"), [("Tomato ketchup", "hot"), ("Salsa, hot tomato-pepper", "hot")]
)
def test_acid_that_is_cooked_in_is_set_out_too(product: str, pack: str) -> None:
    """Their acid is the recipe's vinegar: USDA guide 3, Oregon State University (reference)."""
    known = process_time(product, "boiling water", pack, "pint", Fraction(2100))

    assert "vinegar" in recipe_adds("can", known)


def test_produce_is_that_of_the_recipes_together() -> None:
    season = small_season()
    kg = sum(
        units * season.preserve(name).ingredients[0].kg
        for name, units in (("whole tomatoes", 7), ("sauce", 9))
    )

    found = things(season, Wanted("whole tomatoes", 7), Wanted("sauce", 9))
    assert found["tomato"].amount == pytest.approx(kg)


def items(season: Season, *wanted: Wanted, today: date = DAY) -> dict[str, date | None]:
    return {p.item: p.ticked_on for p in checklist(season, made(season, *wanted), today)}


def test_the_checklist_holds_what_belongs_to_the_day_s_products() -> None:
    freezing = items(DIAL, Wanted("frozen beans", 4))
    pressure = items(DIAL, BEANS)

    assert set(freezing) == {"recipe", "freezer"}
    assert {"gauge", "vent", "rack", "lids", "headspace"} <= set(pressure)
    assert not {"acid", "vinegar"} & set(pressure)
    assert "acid" in items(DIAL, Wanted("whole tomatoes", 7))
    assert "vinegar" in items(DIAL, Wanted("dilled beans", 9))
    assert "gauge" not in items(DIAL, Wanted("dilled beans", 9))


def ticked(*ticks: Tick) -> Season:
    return replace(DIAL, record=Record(ticks=ticks))


def test_a_tick_holds_for_its_day_and_the_gauge_s_for_a_year() -> None:
    """PNW 421: have the dial gauge checked each year before use."""
    year_ago = DAY - timedelta(days=364)
    season = ticked(
        Tick(DAY, "lids"), Tick(DAY - timedelta(days=1), "rack"), Tick(year_ago, "gauge")
    )
    found = items(season, BEANS)

    assert (found["lids"], found["rack"], found["gauge"]) == (DAY, None, year_ago)
    assert items(season, BEANS, today=DAY + timedelta(days=1))["gauge"] is None


def test_a_tick_of_a_day_to_come_does_not_count() -> None:
    assert items(ticked(Tick(DAY + timedelta(days=1), "lids")), BEANS)["lids"] is None
