"""A preserving day that is under way: what is done, what is left, and when it is over then."""

from dataclasses import replace
from datetime import UTC, date, timedelta

import pytest

from model.outlook.day_product import Wanted, put_up_on
from tests.day_kitchen import DAY, sheet
from tests.recorded import batch, recorded
from tests.small_season import small_season


def test_loads_are_done_by_what_was_put_up_today() -> None:
    season = recorded(batches=(batch("A", DAY, 7), batch("B", date(2027, 8, 9), 7)))
    wanted = Wanted("whole tomatoes", 14)

    assert put_up_on(season, DAY) == {"whole tomatoes": 7}
    assert sheet(season, wanted, put_up=put_up_on(season, DAY)).done == {1}
    assert sheet(season, wanted).done == frozenset()
    assert sheet(season, wanted, put_up={"whole tomatoes": 20}).done == {1, 2}


def test_what_was_put_up_already_is_never_work_again() -> None:
    season = small_season()
    found = sheet(
        season,
        Wanted("frozen beans", 6),
        Wanted("whole tomatoes", 12),
        put_up={"frozen beans": 5, "whole tomatoes": 5},
    )

    units = [(load.product.name, load.units, load.number in found.done) for load in found.loads]
    assert sorted(units) == [
        ("frozen beans", 1, False),
        ("frozen beans", 5, True),
        ("whole tomatoes", 5, True),
        ("whole tomatoes", 7, False),
    ]


@pytest.mark.parametrize("late_minutes", [45, -30, 0])
def test_the_rest_of_the_day_moves_with_the_load_that_is_written_down(late_minutes: int) -> None:
    wanted = Wanted("whole tomatoes", 14)
    said = sheet(recorded(), wanted)
    first, second = said.loads
    late = timedelta(minutes=late_minutes)
    ended = (first.process.ends + late).replace(tzinfo=UTC)
    season = replace(recorded(batches=(batch("A", DAY, 7, finished=ended),)), time_zone="UTC")
    found = sheet(season, wanted, put_up={"whole tomatoes": 7})

    assert found.done == {1}
    # nothing begins before the day does
    moved = max(late, said.begins - second.begins)
    assert found.loads[1].begins == second.begins + moved
    assert (found.finish, found.all_done) == (second.ends + moved, second.ends + moved)
    assert [(one.name, one.units) for one in found.to_make] == [("whole tomatoes", 7)]
