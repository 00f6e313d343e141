"""Sowing days whose pickings miss the time when everyone is away."""

from datetime import date

import pandas as pd
import pytest

import model
from model.outlook.headings import HEADINGS
from tests.small_season import TABLES, small_season

TODAY = date(2027, 3, 1)
AWAY = "who,begins,ends\n{},2027-08-01,2027-08-14\n"


def away_table(today: date = TODAY, **more: str) -> tuple[model.PlannedSeason, pd.DataFrame]:
    planned = model.plan_season(small_season(stock=None, **more), today, years=2)
    return planned, model.away_table(planned)


def ripe_in_august(season: model.Season, today: date) -> float:
    """Give the beans that ripen in the two weeks from 2 August, by a plan as written."""
    planned = model.plan_season(season, today, years=2)
    harvest = model.harvest_table(planned).query("crop == 'bush bean'").set_index("week")
    days = (date(2027, 8, 2), date(2027, 8, 9))
    return float(harvest["expected_kg"].reindex(days).fillna(0.0).sum())


def test_the_beans_that_would_ripen_unpicked_are_sown_on_another_day() -> None:
    planned, table = away_table(away=AWAY.format("everyone"))
    row = table.set_index("crop").loc["bush bean"]

    assert set(table.columns) <= set(HEADINGS)
    assert row["start_now"] == date(2027, 5, 28)
    assert abs((row["start_then"] - row["start_now"]).days) <= 42
    assert 0 < row["saved_kg"] <= row["ripens_away_kg"] + 1e-9
    assert row["chance_then"] >= 0.9
    beans = planned.case.arrays.crops.index("bush bean")
    assert row["ripens_away_kg"] <= planned.plan.harvest_kg[beans].sum()


def test_a_plan_with_the_day_that_is_proposed_has_less_ripe_while_everyone_is_away() -> None:
    _, table = away_table(away=AWAY.format("everyone"))
    then = table.set_index("crop").loc["bush bean", "start_then"]
    moved = small_season(
        stock=None,
        plantings=(
            "season,crop,bed,sown,planted_out,area_m2,plants\n"
            f"2027,bush bean,only bed,{then},,8,\n"
            "2027,tomato,only bed,2027-03-20,2027-05-28,,12\n"
        ),
    )

    assert ripe_in_august(moved, TODAY) < 0.8 * ripe_in_august(small_season(stock=None), TODAY)


@pytest.mark.parametrize(
    ("today", "who"),
    [(TODAY, "Ann"), (date(2027, 6, 7), "everyone"), (date(2027, 9, 6), "everyone")],
)
def test_nothing_is_moved_for_one_person_nor_after_the_sowing(today: date, who: str) -> None:
    _, table = away_table(today, away=AWAY.format(who))

    assert "bush bean" not in set(table["crop"])


def test_the_next_crop_in_the_bed_bounds_how_late_it_is_sown() -> None:
    kale = date(2027, 8, 25)
    planned, table = away_table(
        away=AWAY.format("everyone"),
        beds="bed,area_m2\nonly bed,30\nsmall bed,8\n",
        plantings=(
            "season,crop,bed,sown,planted_out,area_m2,plants\n"
            "2027,bush bean,small bed,2027-05-28,,8,\n"
            f"2027,kale,small bed,{kale},,8,\n"
            "2027,tomato,only bed,2027-03-20,2027-05-28,,12\n"
        ),
        foods=TABLES["foods.csv"] + "greens,vegetable,3,8,4,kale\n",
    )
    wide = away_table(away=AWAY.format("everyone"))[1].set_index("crop").loc["bush bean"]
    tight = table.set_index("crop").loc["bush bean"]
    ends = planned.case.forecast.dates[0].ends

    assert ends + (wide["start_then"] - wide["start_now"]) > kale
    assert ends + (tight["start_then"] - tight["start_now"]) < kale
