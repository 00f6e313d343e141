"""Curing jobs: from the day of lifting, for the published days, before the store."""

from datetime import date, timedelta

import pandas as pd
import pytest

import model
from model.outlook.headings import HEADINGS
from tests.conftest import GLUT
from tests.small_season import TABLES, small_season

TODAY = date(2027, 9, 6)
ROOTS = {
    "places": TABLES["places.csv"] + "cellar,root store,,,,300\n",
    "plantings": TABLES["plantings.csv"]
    + "2027,potato,only bed,,2027-05-05,4,\n2027,onion,only bed,2027-04-20,,3,\n",
    "foods": TABLES["foods.csv"]
    + "potatoes,vegetable,4,8,3,potato\nonions,vegetable,3,8,3,onion\n",
    "preserves": TABLES["preserves.csv"]
    + "stored potatoes,potatoes,potato,root store,,,,100\n"
    + "stored onions,onions,onion,root store,,,,100\n",
}
LOG = "picked_on,crop,picked_kg\n2027-08-30,onion,9\n2027-08-10,onion,4\n2027-08-30,tomato,5\n"


def planned(today: date = TODAY, **more: str) -> model.PlannedSeason:
    return model.plan_season(small_season(stock=None, **ROOTS, **more), today, years=2)


def by_day(table: pd.DataFrame, crop: str) -> pd.DataFrame:
    return table[table["crop"] == crop].set_index("cure_from")


def test_a_lifting_that_was_written_down_is_cured_from_its_day() -> None:
    """University of Saskatchewan: onions about a week; three is common practice, no source."""
    onions = by_day(model.curing_table(planned(harvest_log=LOG)), "onion")

    assert onions.index[0] == date(2027, 8, 30)
    assert onions.iloc[0]["lifted_kg"] == 9
    assert onions.iloc[0]["cure_until_low"] == date(2027, 9, 6)
    assert onions.iloc[0]["cure_until_high"] == date(2027, 9, 20)
    # that of 10 August has been over for days
    assert date(2027, 8, 10) not in onions.index


def test_what_went_to_the_store_since_is_cured() -> None:
    batches = "batch,put_up_on,finished_at,preserve,filled\nO1,2027-09-05,,stored onions,9\n"
    onions = by_day(model.curing_table(planned(harvest_log=LOG, batches=batches)), "onion")

    assert date(2027, 8, 30) not in onions.index


def test_what_is_to_be_lifted_is_cured_as_published() -> None:
    """USDA Agriculture Handbook 66: potatoes 10-14 days at 50-60 F and 90-95 % humidity."""
    spring = planned(date(2027, 6, 7))
    potatoes = by_day(model.curing_table(spring), "potato")
    harvest = model.harvest_table(spring)
    lifted = harvest[(harvest["crop"] == "potato") & (harvest["expected_kg"] >= 0.5)]

    assert list(potatoes.index) == list(lifted["week"])
    assert potatoes["lifted_kg"].sum() == pytest.approx(lifted["expected_kg"].sum())
    row = potatoes.iloc[0]
    assert row["cure_until_low"] - potatoes.index[0] == timedelta(days=10)
    assert row["cure_until_high"] - potatoes.index[0] == timedelta(days=14)
    fahrenheit = [row[f"cure_c_{end}"] * 1.8 + 32 for end in ("low", "high")]
    assert fahrenheit == pytest.approx([50, 60], abs=0.2)
    assert (row["cure_percent_low"], row["cure_percent_high"]) == (90, 95)


def test_only_what_is_stored_is_cured_and_every_column_is_known() -> None:
    table = model.curing_table(planned(harvest_log=LOG))

    assert set(table["crop"]) <= {"onion", "potato"}
    assert set(table.columns) <= set(HEADINGS)
    unstored = model.plan_season(small_season(stock=None), TODAY, years=2)
    assert model.curing_table(unstored).empty


def test_curing_and_putting_away_stand_among_the_tasks() -> None:
    spring = planned(date(2027, 6, 7))
    tasks, cures = model.task_table(spring), model.curing_table(spring)

    for task, column in (("cure", "cure_from"), ("put away", "cure_until_low")):
        assert sorted(tasks.loc[tasks["task"] == task, "day"]) == sorted(cures[column])
    assert tasks.loc[tasks["task"] == "cure", "what"].str.contains("days, ").all()
    assert b"Cure: potato" in model.tasks_calendar(spring)


def test_what_is_lifted_is_put_in_the_store_on_the_day_its_curing_may_be_over(
    alder_lane: model.Season,
) -> None:
    """A week for onions, as above."""
    glut = model.plan_season(alder_lane, GLUT, years=2)
    batches = model.batch_table(glut)
    onions = batches[batches["preserve"] == "onions on strings"].iloc[0]
    tasks = model.task_table(glut)
    stored = tasks[(tasks["task"] == "put up") & (tasks["what"] == "onions on strings")]

    assert onions["week"] == GLUT
    assert onions["cure_until_low"] == GLUT + timedelta(weeks=1) == stored["day"].min()
    assert batches.loc[batches["unit"] != "kg", "cure_until_low"].isna().all()
