"""The day sheet: published times, no two loads in one canner, no jar lost, never a time made up."""

import csv
import re
from collections import defaultdict
from dataclasses import replace
from datetime import UTC, date, datetime, time, timedelta
from fractions import Fraction
from importlib.resources import files
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from model.outlook.day_product import Wanted, day_products
from model.outlook.day_sheet import HANDS, PROCESS, day_sheet
from model.outlook.day_table import day_table
from model.season.season import Season
from tests.day_kitchen import DAY, KITCHEN, NINE, PRESSURE, SNAP_BEANS, minutes, sheet
from tests.small_season import small_season


@pytest.mark.parametrize(("jar", "cool"), [("pint", 30), ("quart", 45)])
def test_a_pressure_load_vents_and_cools_as_long_as_is_published(jar: str, cool: int) -> None:
    """PNW 421: vent 10 minutes; cool 30 with pints, 45 with quarts; wait 2 before opening.

    MSU 01600948 (USDA AIB 539): the pressure is reached within 3 to 5 minutes after the vent
    is closed.
    """
    load = sheet(KITCHEN, Wanted(SNAP_BEANS, 7, PRESSURE[0], "raw", jar)).loads[0]
    took = minutes(load)

    assert took["vent"] == 10
    assert took["come up to pressure"] == 5
    assert took["cool to no pressure"] == cool
    assert took["wait before the lid is opened"] == 2
    assert list(took)[2:] == [
        "heat until steam streams",
        "vent",
        "come up to pressure",
        "process",
        "cool to no pressure",
        "wait before the lid is opened",
    ]


def test_a_load_of_quarts_takes_the_hour_and_three_quarters_of_the_hand_method() -> None:
    """Heat, vent 10, up 5, 25 minutes of snap beans in quarts, cool 45: common practice has 1 3/4
    to 2 h with the jars in the canner, no source."""
    load = sheet(KITCHEN, Wanted(SNAP_BEANS, 7, PRESSURE[1], "raw", "quart")).loads[0]
    inside = (
        sum(m for phase, m in minutes(load).items() if "fill" not in phase)
        - minutes(load)["prepare"]
    )

    assert minutes(load)[PROCESS] == 25
    assert 100 <= inside <= 120


def table_rows() -> list[dict[str, str]]:
    text = (files("model.reference") / "process_times.csv").read_text("utf-8")
    return [row for row in csv.DictReader(text.splitlines()) if row["line"] == "1"]


@pytest.mark.parametrize("edge", ["from_ft", "to_ft"])
def test_the_process_is_the_looked_up_one_in_every_band_of_every_table(edge: str) -> None:
    """Read here from the table itself, row by row, and not through the look-up."""
    for row in table_rows():
        high = replace(KITCHEN, altitude_ft=Fraction(row[edge]))
        wanted = Wanted(row["product"], 3, row["method"], row["pack"], row["jar"])
        found = sheet(high, wanted, late=True)
        [load] = found.loads

        assert minutes(load)[PROCESS] == int(row["process_minutes"]), row
        assert load.product.card is not None
        psi = load.product.card.process.pressure_psi
        assert (f"{psi}" if psi else "") == row["pressure_psi"], row


def everything(units: list[int]) -> list[Wanted]:
    return [
        Wanted("whole tomatoes", units[0]),
        Wanted("sauce", units[1]),
        Wanted("frozen beans", units[2]),
        Wanted("dilled beans", units[3]),
        Wanted(SNAP_BEANS, units[4], PRESSURE[0], "raw", "quart"),
        Wanted("Carrots, sliced or diced", units[5], PRESSURE[1], "hot", "pint"),
    ]


@settings(max_examples=40, deadline=None)
@given(
    units=st.lists(st.integers(0, 40), min_size=6, max_size=6),
    hour=st.integers(0, 23),
    late=st.booleans(),
)
def test_no_two_loads_share_a_canner_or_the_hands_and_every_jar_is_somewhere(
    units: list[int], hour: int, late: bool
) -> None:
    wanted = everything(units)
    found = sheet(KITCHEN, *wanted, late=late, begins=datetime.combine(NINE, time(hour)))
    busy = defaultdict(list)
    for load in found.loads:
        for before, after in pairwise(load.steps):
            assert before.ends <= after.begins
        for step in load.steps:
            busy[step.equipment].append((step.begins, step.ends))
        if load.canner is not None:
            assert load.units <= (load.canner.load_of(load.product.jar.name) or 0)
            assert minutes(load)[PROCESS] == load.product.card.process.minutes
            inside = [step for step in load.steps if step.equipment != HANDS]
            assert all(a.ends == b.begins for a, b in pairwise(inside))
            assert load.steps[1].ends == inside[0].begins
        assert late or load.ends <= found.bedtime
    for taken in busy.values():
        for before, after in pairwise(sorted(taken)):
            assert before[1] <= after[0]
    somewhere = defaultdict(int)
    for part in (*found.loads, *found.waiting):
        somewhere[part.product.name] += part.units
    assert sorted(somewhere.values()) == sorted(n for n in units if n)
    assert found.all_done >= found.finish


def test_a_canner_never_waits_for_what_could_be_done_before() -> None:
    """Two pans and one cook: the second load is prepared while the first boils."""
    first, second = sheet(KITCHEN, Wanted("whole tomatoes", 14)).loads

    assert {first.canner.name, second.canner.name} == {"pan", "second pan"}
    assert second.begins == first.steps[1].ends


def test_a_day_that_runs_past_bedtime_says_so_and_leaves_what_does_not_fit() -> None:
    wanted = [Wanted("whole tomatoes", 70), Wanted("dilled beans", 9)]
    found = sheet(small_season(), *wanted)

    assert found.late
    assert found.bedtime == datetime.combine(DAY, time(22))
    assert found.finish <= found.bedtime < found.all_done
    left = {one.product.name: one for one in found.waiting}
    assert 0 < left["whole tomatoes"].units < 70
    assert (
        "tomato: refrigerator, 5 to 8 days from picking, whole and unwashed"
        in left["whole tomatoes"].ways
    )
    on = sheet(small_season(), *wanted, late=True)
    assert on.waiting == ()
    assert on.finish == on.all_done == found.all_done


def test_bedtime_is_a_setting_of_the_household() -> None:
    early = small_season(settings="setting,value\nbedtime_hour,12\n")

    assert sheet(early, Wanted("whole tomatoes", 14)).waiting
    assert not sheet(small_season(), Wanted("whole tomatoes", 14)).waiting


def test_what_is_to_be_pickled_does_not_wait_in_the_refrigerator() -> None:
    """NDSU FN189: pickled within 24 hours of picking."""
    found = sheet(small_season(), Wanted("dilled beans", 200))
    [left] = found.waiting

    assert left.ways == ("pick it later: what is to be pickled is used within 24 hours of picking",)


def test_what_spoils_first_is_done_first() -> None:
    """Holding: tomatoes 5 to 8 days (USDA AH 66), carrots 14 to 21, by reference/crops.csv."""
    found = sheet(
        KITCHEN,
        Wanted("Carrots, sliced or diced", 9, PRESSURE[0], "hot", "pint"),
        Wanted("frozen beans", 2),
        Wanted("whole tomatoes", 7),
    )

    assert [load.product.name.partition(",")[0] for load in found.loads] == [
        "whole tomatoes",
        "frozen beans",
        "Carrots",
    ]


def test_a_freezer_takes_no_more_in_a_day_than_it_freezes() -> None:
    """USDA AIB 410: 2 to 3 lb a cubic foot in 24 hours, 32 to 48 g a litre; 150 l, 80 % filled."""
    found = sheet(small_season(), Wanted("frozen beans", 50))
    kg = sum(
        load.units * part.kg * KITCHEN.crop(part.crop).edible_share
        for load in found.loads
        for part in load.product.ingredients
    )
    place = small_season().places[1]

    assert kg <= place.volume_l * 32 / 1000
    assert kg + 0.5 > place.volume_l * 32 / 1000
    assert found.waiting[0].why == "the freezer freezes no more in a day"
    assert found.loads[0].units + found.waiting[0].units == 50
    assert [made.units for made in found.to_make] == [found.loads[0].units]


def test_nothing_is_laid_into_a_freezer_that_does_not_work_yet() -> None:
    season = small_season()
    places = tuple(replace(p, works_from=date(2027, 12, 1)) for p in season.places)
    found = sheet(replace(season, places=places), Wanted("frozen beans", 4))

    assert found.loads == ()
    assert [(one.units, one.why) for one in found.waiting] == [(4, "freezer does not work yet")]
    assert found.to_make == ()


def test_what_is_to_be_cured_is_laid_out_and_not_stored_fresh(alder_lane: Season) -> None:
    loads = sheet(alder_lane, Wanted("onions on strings", 5), Wanted("carrots in sand", 5)).loads

    assert {load.product.name: load.steps[0].phase for load in loads} == {
        "onions on strings": "lay out to cure; store once cured",
        "carrots in sand": "sort and store",
    }


def test_the_clock_is_plain_local_time() -> None:
    with pytest.raises(ValueError, match="plain local clock time"):
        sheet(KITCHEN, Wanted("whole tomatoes", 7), begins=NINE.replace(tzinfo=UTC))
    spring_forward = sheet(
        replace(KITCHEN, time_zone="Europe/Vienna"),
        Wanted("whole tomatoes", 7),
        begins=datetime.combine(date(2027, 3, 28), time(1)),
    )
    ordinary = sheet(
        KITCHEN, Wanted("whole tomatoes", 7), begins=datetime.combine(date(2027, 3, 27), time(1))
    )
    assert spring_forward.finish - ordinary.finish == timedelta(days=1)


def test_the_table_tells_every_step_by_the_clock() -> None:
    found = sheet(KITCHEN, Wanted("whole tomatoes", 14))
    rows = day_table(found)

    assert len(rows) == sum(len(load.steps) for load in found.loads)
    assert rows["clock_from"].iloc[0] == "09:00"
    assert set(rows["equipment"]) == {HANDS, "pan", "second pan"}
    assert day_table(sheet(KITCHEN)).empty


def phase_of(season: Season, preserve: str) -> str:
    made, refused = day_products(season, [Wanted(preserve, 2)])
    (load,) = day_sheet(season, made, refused, NINE).loads
    return load.steps[0].phase


def test_vegetables_are_blanched_before_they_are_frozen_for_a_published_time_or_none(
    alder_lane: Season,
) -> None:
    """University of Illinois Extension, Preparing vegetables for freezing, table 1: peas 1 1/2
    minutes; of snap beans no time was seen there, so none is given."""
    peas, beans = (phase_of(alder_lane, f"frozen {name}") for name in ("peas", "beans"))

    assert peas == "prepare, blanch 1.5 minutes, shelled, cool, pack and freeze"
    assert beans == "prepare, blanch for the time of a current table, cool, pack and freeze"
    assert not re.search(r"\d", beans)


def test_fruit_is_frozen_without_blanching(alder_lane: Season) -> None:
    assert phase_of(alder_lane, "frozen blackcurrants") == "prepare, pack and freeze"
