"""What is free this week, by hand from the book and the notes."""

from dataclasses import replace
from datetime import UTC, date, datetime, timedelta

import pytest

import model
from model.planning import PlannedSeason
from model.season.record import Batch, Record
from tests.small_season import small_season

TODAY = date(2027, 8, 16)


def planned(record: Record) -> PlannedSeason:
    return model.plan_season(replace(small_season(), record=record), TODAY, years=20)


@pytest.fixture(scope="module")
def waiting() -> PlannedSeason:
    """Give the plan of a day after seven quarts whose seals nobody has looked at."""
    day = TODAY - timedelta(days=1)
    ended = datetime(2027, 8, 15, 18, tzinfo=UTC)
    return planned(Record(batches=(Batch("one", day, ended, "whole tomatoes", 7.0, "", ""),)))


def free(plan: PlannedSeason, limit: str) -> float:
    table = model.week_limit_table(plan).set_index("limit")
    return float(table.loc[limit, "free"])


def test_hours_and_room_are_those_of_the_notes_less_what_stands_there(
    waiting: PlannedSeason,
) -> None:
    arrays = waiting.case.arrays
    packs = arrays.opening_units[arrays.preserves.index("frozen beans")]

    assert free(waiting, "kitchen hours") == pytest.approx(6.0)
    capacity = waiting.case.season.places[1].capacity
    assert free(waiting, "freezer") == pytest.approx(capacity - 0.75 * packs)


def test_jars_whose_seals_wait_are_not_free(waiting: PlannedSeason) -> None:
    full = waiting.case.seen_units[waiting.case.arrays.preserves.index("whole tomatoes")]

    assert free(waiting, "quart") == pytest.approx(40 - full - 7)
    assert free(planned(Record()), "quart") == pytest.approx(40 - full)


def test_the_plan_takes_what_its_batches_of_the_week_fill(waiting: PlannedSeason) -> None:
    table = model.week_limit_table(waiting).set_index("limit")
    batches = model.batch_table(waiting)
    this = batches[batches["week"] == TODAY].set_index("preserve")["jars"]

    assert this.sum() > 0
    assert table.loc["quart", "taken_by_plan"] == this.get("whole tomatoes", 0)
    assert table.loc["pint", "taken_by_plan"] == this.get("sauce", 0) + this.get("dilled beans", 0)
    hours = model.week_table(waiting).iloc[0]["hours"]
    assert table.loc["kitchen hours", "taken_by_plan"] == pytest.approx(hours)


def test_sizes_that_nobody_counted_have_no_row(waiting: PlannedSeason) -> None:
    assert "pack" not in set(model.week_limit_table(waiting)["limit"])
