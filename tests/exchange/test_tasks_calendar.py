"""The tasks' calendar, read by another general-purpose parser and by the rules of RFC 5545."""

from dataclasses import replace
from datetime import UTC, date, datetime, timedelta

import pytest
import vobject

import model
from model.planning import PlannedSeason
from tests.outlook.test_task_table import BATCHES, STOCK, TODAY
from tests.small_season import TABLES, small_season


@pytest.fixture(scope="module")
def planned() -> PlannedSeason:
    household = TABLES["household.csv"].replace(
        "Tiny", '"Tiny, by the weir (north), \u05d2\u05df \U0001f345"'
    )
    season = small_season(household=household, batches=BATCHES, stock=STOCK)
    return model.plan_season(season, TODAY, years=50)


def events(content: bytes) -> list[vobject.base.Component]:
    calendar = vobject.readOne(content.decode())
    assert calendar.validate(raiseException=True)
    return list(calendar.vevent_list)


def test_another_parser_reads_every_task_on_its_day(planned: PlannedSeason) -> None:
    table = model.task_table(planned)
    read = events(model.tasks_calendar(planned))

    assert len(read) == len(table) > 20
    for event, row in zip(read, table.to_dict("records"), strict=True):
        begins = row["begins_at"] or row["day"]
        assert event.dtstart.value == begins
        assert event.dtend.value == (row["ends_at"] or row["day"] + timedelta(days=1))
        assert event.summary.value.startswith(f"{row['task'].capitalize()}: {row['what']}")


def test_seals_have_clock_times_in_utc_and_all_else_is_of_whole_days(
    planned: PlannedSeason,
) -> None:
    timed = [
        e for e in events(model.tasks_calendar(planned)) if isinstance(e.dtstart.value, datetime)
    ]

    (seals,) = timed
    assert seals.summary.value == "Check seals: sauce, batch A7, 7 jars"
    assert seals.dtstart.value == datetime(2027, 3, 1, 16, 40, tzinfo=UTC)
    assert b"DTSTART:20270301T164000Z" in model.tasks_calendar(planned)


def test_the_file_keeps_the_rules_of_rfc_5545(planned: PlannedSeason) -> None:
    """Sections 3.1 (lines), 3.6 and 3.6.1 (what a calendar and an event must have), 3.8.4.7."""
    content = model.tasks_calendar(planned)
    lines = content.split(b"\r\n")
    unfolded = content.replace(b"\r\n ", b"").split(b"\r\n")
    uids = [line for line in unfolded if line.startswith(b"UID:")]

    assert b"\n" not in content.replace(b"\r\n", b"")
    assert max(map(len, lines)) <= 75
    assert (lines[0], lines[-2:]) == (b"BEGIN:VCALENDAR", [b"END:VCALENDAR", b""])
    assert {b"VERSION:2.0"} <= set(unfolded)
    assert sum(line.startswith(b"PRODID:") for line in unfolded) == 1
    assert len(uids) == len(set(uids)) == content.count(b"BEGIN:VEVENT")
    assert content.count(b"\r\nDTSTAMP:20270301T000000Z") == len(uids)
    assert all(e.dtstart.value < e.dtend.value for e in events(content))


def test_the_same_plan_gives_the_same_bytes_and_a_new_one_moves_its_tasks(
    planned: PlannedSeason,
) -> None:
    season = planned.case.season
    later = tuple(
        replace(p, sown=p.sown + timedelta(days=3)) if p.crop == "tomato" and p.sown else p
        for p in season.plantings
    )
    moved = model.plan_season(replace(season, plantings=later), TODAY, years=50)

    def sowing(content: bytes) -> vobject.base.Component:
        return next(e for e in events(content) if e.summary.value.startswith("Sow: tomato"))

    assert model.tasks_calendar(planned) == model.tasks_calendar(planned)
    before, after = (sowing(model.tasks_calendar(plan)) for plan in (planned, moved))
    assert (before.uid.value, after.dtstart.value) == (after.uid.value, date(2027, 3, 23))


def test_a_household_of_us_units_is_told_pounds() -> None:
    household = (
        TABLES["household.csv"]
        .replace("notes_date", "notes_date,units")
        .replace("2027-03-01", "2027-03-01,US")
    )
    content = model.tasks_calendar(
        model.plan_season(small_season(household=household), TODAY, years=20)
    )
    picks = [e.summary.value for e in events(content) if e.summary.value.startswith("Pick")]

    assert picks
    assert all(words.endswith(" lb") for words in picks)
