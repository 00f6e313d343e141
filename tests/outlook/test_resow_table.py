"""A failed sowing: the days that are left, and what can stand on the plate in its place."""

from dataclasses import replace
from datetime import date

import pandas as pd
import pytest

import model
from model.outlook.headings import HEADINGS
from model.outlook.resow_table import resow_table
from model.planning import PlannedSeason
from model.reference.lookup import crop
from model.season.garden import Setback
from tests.small_season import small_season

JULY = date(2027, 7, 5)


def lost(share: float, today: date = JULY) -> PlannedSeason:
    season = small_season(beds="bed,area_m2\nonly bed,14\n")
    setback = Setback(date(2027, 7, 1), "bush bean", share)
    return model.plan_season(replace(season, setbacks=(setback,)), today, years=2)


@pytest.fixture(scope="module")
def failed() -> PlannedSeason:
    return lost(1.0)


def one(planned: PlannedSeason) -> pd.Series:
    (row,) = (row for _, row in resow_table(planned).iterrows())
    return row


def test_a_sowing_that_failed_has_its_last_days_as_the_garden_s_own_table(
    failed: PlannedSeason,
) -> None:
    row = one(failed)
    sowing = model.sowing_table(failed).set_index("crop").loc["bush bean"]

    assert row["crop"] == "bush bean"
    assert (row["latest_nine"], row["chance_today"]) == (
        sowing["latest_nine"],
        sowing["chance_today"],
    )
    assert set(row.index) <= set(HEADINGS)


def test_the_catch_crop_says_what_it_gives_and_what_it_replaces(failed: PlannedSeason) -> None:
    row = one(failed)
    sowing = model.sowing_table(failed).set_index("crop").loc[row["instead"]]

    assert sowing["catch_crop"]
    assert row["replaces"] == "beans"
    assert row["short_portions"] > 0
    # no more than is short, and by the published yield of 80 g a portion no more than it gives
    assert row["instead_portions"] <= row["short_portions"]
    assert row["instead_m2"] <= sowing["free_m2"]
    most = {y.per: y.kg_typical for y in crop(row["instead"]).yields}["m2 of bed"]
    assert row["instead_kg"] == pytest.approx(sowing["chance_today"] * most * row["instead_m2"])
    assert row["instead_portions"] <= row["instead_kg"] * 1000 / 80


def test_the_bed_of_a_failed_sowing_is_free_again(failed: PlannedSeason) -> None:
    whole = model.sowing_table(lost(0.5)).query("catch_crop")

    assert whole.empty
    assert model.sowing_table(failed).query("catch_crop")["free_m2"].min() >= 7.9


def test_half_a_crop_gone_is_no_failed_sowing() -> None:
    assert resow_table(lost(0.5)).empty


def test_where_nothing_quick_makes_it_any_more_nothing_is_offered() -> None:
    row = one(lost(1.0, date(2027, 9, 20)))

    assert pd.isna(row["instead"])
    assert row["chance_today"] < 0.05
