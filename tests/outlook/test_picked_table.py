"""What each crop should have given by each day of its season, against what the log holds."""

from dataclasses import replace
from datetime import date

import pandas as pd
import pytest

import model
from model.season.garden import Picking, Setback
from model.season.season import Season

SUMMER = date(2027, 8, 18)
PICKED = (
    Picking(date(2027, 8, 2), "bush bean", 1.5),
    Picking(date(2027, 8, 16), "bush bean", 2.0),
    Picking(SUMMER, "bush bean", 0.5),
    Picking(date(2027, 8, 25), "bush bean", 9.0),
)


def beans(season: Season) -> pd.DataFrame:
    plan = model.plan_season(season, SUMMER, years=2)
    table = model.picked_table(plan, 1)
    return table[table["crop"] == "bush bean"].set_index("day")


@pytest.fixture(scope="module")
def ours(tiny: Season) -> pd.DataFrame:
    return beans(replace(tiny, pickings=PICKED))


def test_the_log_is_summed_day_by_day_and_ends_with_today(ours: pd.DataFrame) -> None:
    picked = ours["picked_kg"]

    assert picked[date(2027, 8, 2)] == 0.0
    assert picked[date(2027, 8, 9)] == 1.5
    assert picked[date(2027, 8, 16)] == 1.5
    assert picked[SUMMER] == 4.0
    assert picked[ours.index > SUMMER].isna().all()


def test_what_is_expected_by_today_is_what_the_progress_says(tiny: Season) -> None:
    season = replace(tiny, pickings=PICKED)
    plan = model.plan_season(season, SUMMER, years=2)
    progress = model.progress_table(plan).set_index("crop")["expected_so_far_kg"]

    assert beans(season).loc[SUMMER, "expected_kg"] == pytest.approx(progress["bush bean"])


def test_nothing_shrinks_and_the_range_lies_round_the_expected_crop(ours: pd.DataFrame) -> None:
    sums = ours[["expected_kg", "low_kg", "high_kg"]]

    assert (sums.diff().dropna() >= -1e-9).all().all()
    assert (ours["low_kg"] <= ours["high_kg"]).all()
    last = ours.iloc[-1]
    assert last["low_kg"] < last["expected_kg"] < last["high_kg"]


def test_a_setback_cuts_what_is_expected_and_its_range_alike(
    tiny: Season, ours: pd.DataFrame
) -> None:
    hail = Setback(date(2027, 7, 1), "bush bean", 0.5)
    hurt = beans(replace(tiny, pickings=PICKED, setbacks=(hail,)))

    for name in ("expected_kg", "low_kg", "high_kg"):
        assert hurt.iloc[-1][name] == pytest.approx(0.5 * ours.iloc[-1][name])
