"""Why a preserve is not made at all: where its crop goes, or what a load asks for."""

from dataclasses import replace
from datetime import date

import pytest

import model
from model import PlannedSeason, YearDay
from tests.intake.test_first_notes import NORTH

ANSWERS = replace(
    NORTH,
    children_ages=(),
    bed_area_m2=37.0,
    altitude="2500 ft",
    units="US",
    country="US",
    first_autumn_frost=YearDay(10, 10),
    canner="pressure canner, dial gauge",
    freezer_l=85.0,
    shelf_m2=1.1,
    root_store_kg=68.0,
    time_zone="",
)


@pytest.fixture(scope="module")
def begun() -> PlannedSeason:
    """Give the first plan of a household that was just begun."""
    today = date(2027, 3, 1)
    return model.plan_season(
        model.season_from_tables(model.first_notes(ANSWERS, today)), today, years=5
    )


def reason(plan: PlannedSeason, preserve: str) -> tuple[int, str]:
    row = model.preserve_table(plan).set_index("preserve").loc[preserve]
    return row["to_fill"], row["reason"]


def test_what_gets_none_of_its_crop_says_where_the_crop_goes(begun: PlannedSeason) -> None:
    crop = begun.case.arrays.crops.index("bush bean")

    assert reason(begun, "beans in jars") == (
        0,
        "for frozen beans: the bush bean not eaten fresh goes there",
    )
    assert begun.plan.spare_kg[crop].sum() == pytest.approx(0.0, abs=1e-6)


def test_what_never_fills_half_a_load_at_once_says_so() -> None:
    today = date(2027, 3, 1)
    season = model.season_from_tables(model.first_notes(ANSWERS, today))
    planted_m2 = {"paste tomato": 1.0, "tomato": 3.0}
    plantings = tuple(
        replace(p, amount=fixed, least=fixed, most=fixed)
        if (fixed := planted_m2.get(p.crop))
        else p
        for p in season.plantings
    )
    begun = model.plan_season(replace(season, plantings=plantings), today, years=5)
    own = begun.case.season.preserve("crushed tomatoes")
    crop = begun.case.arrays.crops.index("paste tomato")
    most = int(begun.plan.spare_kg[crop].max() / own.ingredients[0].kg)

    assert most < own.units_per_load / 2
    filled, why = reason(begun, "crushed tomatoes")
    assert filled == 0
    assert why.startswith("small load: the paste tomato that is over fills")
    assert f"{most or 'none'} of the {own.units_per_load} jars of a load" in why
