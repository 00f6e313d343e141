"""Tasks stand on their days: from the plan, from the batches, from the last count."""

from dataclasses import replace
from datetime import UTC, date, datetime, timedelta
from itertools import pairwise

import pytest

import model
from model.planning import PlannedSeason
from tests.small_season import TABLES, small_season

TODAY = date(2027, 3, 1)
BATCHES = (
    "batch,put_up_on,finished_at,preserve,filled\n"
    "A7,2027-02-28,2027-02-28T23:40-05:00,sauce,7\n"
    "B2,2027-02-20,2027-02-20T18:00-05:00,whole tomatoes,6\n"
    "C1,2027-02-28,,dilled beans,5\n"
    "D1,2027-02-28,,frozen beans,5\n"
)
STOCK = "counted_on,preserve,jars,put_up_on\n2027-02-17,whole tomatoes,6,2026-09-01\n"


@pytest.fixture(scope="module")
def with_batches() -> PlannedSeason:
    season = small_season(batches=BATCHES, stock=STOCK)
    return model.plan_season(season, TODAY, years=50)


def test_sowing_and_planting_out_stand_on_the_days_of_the_notes(tiny_plan: PlannedSeason) -> None:
    table = model.task_table(tiny_plan)
    garden = table[table["task"].isin(["sow", "plant out"])]
    assert (tiny_plan.plan.amounts > 0).all()
    assert list(zip(garden["day"], garden["task"], garden["what"], strict=True)) == [
        (date(2027, 3, 20), "sow", "tomato in only bed"),
        (date(2027, 5, 28), "sow", "bush bean in only bed"),
        (date(2027, 5, 28), "plant out", "tomato in only bed"),
    ]


def test_what_is_done_in_the_garden_is_neither_a_task_nor_bought(tiny_plan: PlannedSeason) -> None:
    def left(done: str) -> tuple[list[str], int]:
        season = tiny_plan.case.season
        bean, tomato = season.plantings
        noted = replace(season, plantings=(bean, replace(tomato, done=done)))
        plan = model.plan_season(noted, tiny_plan.case.today, years=20)
        tasks, bought = model.task_table(plan), model.buy_list_table(plan)
        own = tasks[tasks["what"].str.startswith("tomato in")]["task"]
        return list(own), int(bought["what"].str.startswith("tomato to").sum())

    assert left("") == (["sow", "plant out"], 1)
    assert left("sown") == (["plant out"], 0)
    assert left("planted out") == ([], 0)


def test_what_is_picked_and_put_up_sums_to_the_plan(tiny_plan: PlannedSeason) -> None:
    table = model.task_table(tiny_plan)
    picked = table.loc[table["task"] == "pick", "number"].sum()
    filled = table.loc[table["task"] == "put up", "number"].sum()

    assert picked == pytest.approx(tiny_plan.plan.harvest_kg.sum(), rel=0.01)
    assert filled == tiny_plan.plan.whole_batches.sum() > 0


def test_seals_are_due_twelve_to_twenty_four_hours_after_the_process(
    with_batches: PlannedSeason,
) -> None:
    table = model.task_table(with_batches)
    seals = table[table["task"] == "check seals"].set_index("what")

    assert set(seals.index) == {
        "sauce, batch A7",
        "whole tomatoes, batch B2",
        "dilled beans, batch C1",
    }
    known = seals.loc["sauce, batch A7"]
    assert known["begins_at"] == datetime(2027, 3, 1, 16, 40, tzinfo=UTC)
    assert known["ends_at"] == datetime(2027, 3, 2, 4, 40, tzinfo=UTC)
    for late_or_unknown in ("whole tomatoes, batch B2", "dilled beans, batch C1"):
        row = seals.loc[late_or_unknown]
        assert (row["day"], row["begins_at"], row["ends_at"]) == (TODAY, None, None)


def test_a_count_is_due_seven_weeks_after_the_last_and_goes_on(with_batches: PlannedSeason) -> None:
    table = model.task_table(with_batches)
    days = list(table.loc[table["task"] == "count", "day"])

    assert days[0] == date(2027, 2, 17) + timedelta(weeks=7)
    assert {after - before for before, after in pairwise(days)} == {timedelta(weeks=7)}


def test_a_count_that_is_overdue_is_due_today() -> None:
    stock = TABLES["stock.csv"].replace("2027-02-27", "2026-11-01")
    planned = model.plan_season(small_season(stock=stock), TODAY, years=20)
    table = model.task_table(planned)

    assert table.loc[table["task"] == "count", "day"].iloc[0] == TODAY


def test_a_count_of_a_part_leaves_the_rest_due_since_it_was_seen() -> None:
    part = f"{STOCK}2027-01-20,dilled beans,3,2026-09-01\n"
    planned = model.plan_season(small_season(stock=part), TODAY, years=20)
    table = model.task_table(planned)

    due = date(2027, 1, 20) + timedelta(weeks=7)
    assert table.loc[table["task"] == "count", "day"].iloc[0] == due


def test_seals_stand_on_the_day_of_the_households_own_clock() -> None:
    evening = "A7,2027-03-01,2027-03-01T20:00+13:00,sauce,7\n"
    season = small_season(batches=BATCHES.splitlines()[0] + "\n" + evening)
    planned = model.plan_season(replace(season, time_zone="Pacific/Auckland"), TODAY, years=20)
    table = model.task_table(planned)

    seals = table[table["task"] == "check seals"].iloc[0]
    assert seals["begins_at"] == datetime(2027, 3, 1, 19, tzinfo=UTC)
    assert seals["day"] == date(2027, 3, 2)


def test_no_task_is_before_today_or_after_the_plan(spring_plan: PlannedSeason) -> None:
    days = model.task_table(spring_plan)["day"]

    assert spring_plan.case.today <= days.min()
    assert days.max() < spring_plan.case.weeks.monday(len(spring_plan.case.weeks))
    assert list(days) == sorted(days)
