"""How large each sowing is best: ripe together for a full load, or spread over the weeks."""

from datetime import date

import pandas as pd
import pytest

import model
from model.outlook.headings import HEADINGS
from model.outlook.sowing_size_table import MOST_SOWINGS, sowing_size_table
from model.planning import PlannedSeason
from model.season.season import Season
from tests.small_season import small_season

MARCH, JUNE = date(2027, 3, 1), date(2027, 6, 20)
# A pea is picked for two weeks and does not wait; nothing of it goes into a canner here.
PEAS = {
    "foods": (
        "food,group,portions_a_week,most_a_week,liking,crops\n"
        "peas,vegetable,2,3,4,pea\ntomatoes,vegetable,4,9,5,tomato\n"
    ),
    "plantings": (
        "season,crop,bed,sown,planted_out,area_m2,plants\n"
        "2027,pea,only bed,2027-04-01,,16,\n"
        "2027,tomato,only bed,2027-03-20,2027-05-28,,12\n"
    ),
    "preserves": (
        "preserve,food,crop,method,product,pack,jar,share_percent\n"
        "whole tomatoes,tomatoes,tomato,boiling water,"
        '"Tomatoes, whole or halved, in water",hot,quart,100\n'
    ),
    "stock": None,
}


def sizes(season: Season, today: date = MARCH) -> pd.DataFrame:
    return sowing_size_table(planned(season, today)).set_index("crop")


def planned(season: Season, today: date) -> PlannedSeason:
    return model.plan_season(season, today, years=2)


@pytest.fixture(scope="module")
def found() -> pd.DataFrame:
    return sizes(small_season(**PEAS))


def test_what_goes_into_the_canner_is_sized_by_a_full_load(found: pd.DataFrame) -> None:
    row = found.loc["tomato"]

    # USDA Complete Guide to Home Canning (2015), guide 3: "An average of 21 pounds is needed
    # per canner load of 7 quarts" of whole tomatoes packed in water; 0.45359237 kg a pound.
    assert row["load_kg"] == pytest.approx(21 * 0.45359237, rel=0.02)
    assert row["load_amount"] / row["amount"] == pytest.approx(row["load_kg"] / row["at_once_kg"])
    assert set(found.columns) <= set(HEADINGS)


def test_a_load_s_worth_of_sowing_is_ripe_for_just_one_load(found: pd.DataFrame) -> None:
    row = found.loc["tomato"]
    plants = f"2027,tomato,only bed,2027-03-20,2027-05-28,,{row['load_amount']:.0f}\n"
    whole = PEAS["plantings"].replace("2027,tomato,only bed,2027-03-20,2027-05-28,,12\n", plants)
    again = sizes(small_season(**{**PEAS, "plantings": whole})).loc["tomato"]

    share = round(row["load_amount"]) / row["load_amount"]
    assert again["at_once_kg"] == pytest.approx(share * row["load_kg"], rel=1e-6)


def test_what_comes_faster_than_it_is_eaten_is_sown_in_parts(found: pd.DataFrame) -> None:
    row = found.loc["pea"]

    assert row["sow_as"] == "spread"
    assert row["days_apart"] >= 7
    parts = row["heaviest_kg"] / row["sowings"]
    assert parts <= 1.06 * row["used_week_kg"] or row["sowings"] == MOST_SOWINGS
    assert row["heaviest_kg"] > row["used_week_kg"] * (row["sowings"] - 1)


def test_so_few_that_all_is_eaten_are_sown_once() -> None:
    few = PEAS["plantings"].replace(
        "2027,pea,only bed,2027-04-01,,16,", "2027,pea,only bed,2027-04-01,,0.5,"
    )
    row = sizes(small_season(**{**PEAS, "plantings": few})).loc["pea"]

    assert (row["sow_as"], row["sowings"]) == ("one sowing", 1)
    assert pd.isna(row["days_apart"])


def test_what_nobody_eats_is_sown_once_for_parts_would_not_use_it_up() -> None:
    foods = PEAS["foods"].replace("peas,vegetable,2,3,4,pea\n", "")
    row = sizes(small_season(**{**PEAS, "foods": foods})).loc["pea"]

    assert (row["used_week_kg"], row["sowings"]) == (0, 1)


def test_no_part_is_sown_so_late_that_frost_takes_it() -> None:
    # two weeks on, seven years in ten still pick it: nine are asked
    late = PEAS["plantings"].replace("2027-04-01", "2027-08-10")
    row = sizes(small_season(**{**PEAS, "plantings": late})).loc["pea"]

    assert row["sowings"] == 1


def test_what_is_in_the_ground_is_not_sized_again() -> None:
    season = small_season(**PEAS)

    assert sizes(season, JUNE).empty
