"""The hours of seals. Sources stand beside each check."""

from collections.abc import Callable
from datetime import UTC, date, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest

from model.reference.read import table
from model.safety.seals import seal_hours, seal_times, seals_to_look_at, ways_for_unsealed
from model.season.record import WENT, SealCheck
from model.season.season import Season
from tests.recorded import PACKS, batch, recorded

LONDON = ZoneInfo("Europe/London")
DAY = date(2027, 8, 16)


def finished(hour: int, minute: int = 0) -> datetime:
    return datetime(2027, 8, 16, hour, minute, tzinfo=LONDON)


def season_with_jars(finished_at: datetime | None) -> Season:
    return recorded(batches=(batch("A", DAY, 7, finished=finished_at),))


def went(season: Season, now: datetime) -> list[str]:
    ways = ways_for_unsealed(season, season.record.batches[0], now, LONDON)
    return [way.step.went for way in ways]


CHANGES = pytest.mark.parametrize(
    ("zone", "ended", "looked", "limit"),
    [
        # no change of the clock: 12 and 24 hours later
        ("Europe/London", "2027-08-16T19:40+01:00", "2027-08-17 07:40", "2027-08-17 19:40"),
        # the clocks go back at 02:00 on 31 October 2027: an hour earlier on the clock
        ("Europe/London", "2027-10-30T19:40+01:00", "2027-10-31 06:40", "2027-10-31 18:40"),
        # and forward on 28 March 2027: an hour later on the clock
        ("Europe/London", "2027-03-27T19:40+00:00", "2027-03-28 08:40", "2027-03-28 20:40"),
        # 7 November and 14 March 2027 in New York
        ("America/New_York", "2027-11-06T20:00-04:00", "2027-11-07 07:00", "2027-11-07 19:00"),
        ("America/New_York", "2027-03-13T20:00-05:00", "2027-03-14 09:00", "2027-03-14 21:00"),
        # 4 April and 3 October 2027 in Sydney
        ("Australia/Sydney", "2027-04-03T18:00+11:00", "2027-04-04 05:00", "2027-04-04 17:00"),
        ("Australia/Sydney", "2027-10-02T18:00+10:00", "2027-10-03 07:00", "2027-10-03 19:00"),
    ],
)


@CHANGES
def test_hours_pass_whatever_the_clock_is_put_to(
    zone: str, ended: str, looked: str, limit: str
) -> None:
    moment = datetime.fromisoformat(ended)
    times = seal_times(batch("A", moment.date(), 7, finished=moment), ZoneInfo(zone))

    assert f"{times.look_from:%Y-%m-%d %H:%M}" == looked
    assert f"{times.limit:%Y-%m-%d %H:%M}" == limit
    assert (times.limit.astimezone(UTC) - moment.astimezone(UTC)) == timedelta(hours=24)
    assert times.known


@CHANGES
@pytest.mark.parametrize("told", [True, False])
def test_hours_pass_on_the_clock_of_the_machine_as_well(
    machine_in: Callable[[str], None], zone: str, ended: str, looked: str, limit: str, *, told: bool
) -> None:
    """Without a time zone of the household; ``told``: with its offset, or as a clock shows it."""
    machine_in(zone)
    moment = datetime.fromisoformat(ended)
    times = seal_hours(moment if told else moment.replace(tzinfo=None), None)

    assert f"{times.look_from:%Y-%m-%d %H:%M}" == looked
    assert f"{times.limit:%Y-%m-%d %H:%M}" == limit
    assert times.limit - moment == timedelta(hours=24)


@pytest.mark.parametrize(("day", "limit"), [("2027-10-31", "23:00"), ("2027-03-28", "01:00")])
def test_a_day_of_twenty_five_hours_is_no_day_more_for_a_jar(
    machine_in: Callable[[str], None], day: str, limit: str
) -> None:
    # counted from midnight: on the day of 25 hours the 24 end at 23:00, on that of 23 at 01:00
    machine_in("Europe/London")
    unknown = batch("A", date.fromisoformat(day), 7)

    for zone in (LONDON, None):
        assert f"{seal_times(unknown, zone).limit:%H:%M}" == limit


def test_the_hour_that_comes_twice_is_told_apart_by_its_offset() -> None:
    first = datetime.fromisoformat("2027-10-31T01:30+01:00")
    second = datetime.fromisoformat("2027-10-31T01:30+00:00")
    limits = [
        seal_times(batch("A", first.date(), 7, finished=moment), LONDON).limit
        for moment in (first, second)
    ]

    assert limits[1] - limits[0] == timedelta(hours=1)


def test_processing_again_is_offered_up_to_the_minute_and_withdrawn_after_it() -> None:
    """Iowa State University Extension: within 24 hours; after that it is thrown away."""
    season = season_with_jars(finished(19, 40))
    limit = finished(19, 40) + timedelta(hours=24)

    assert went(season, limit - timedelta(minutes=1)) == ["refrigerated", "frozen", "reprocessed"]
    assert went(season, limit) == ["thrown away"]
    ways = ways_for_unsealed(season, season.record.batches[0], finished(20), LONDON)
    assert {way.until for way in ways} == {limit}
    assert all(way.step.went in WENT for way in ways)


def test_a_batch_without_a_moment_counts_from_the_first_of_its_day() -> None:
    season = season_with_jars(None)
    times = seal_times(season.record.batches[0], LONDON)

    assert not times.known
    assert times.limit == datetime(2027, 8, 17, 0, 0, tzinfo=LONDON)
    assert times.look_from == datetime(2027, 8, 17, 12, 0, tzinfo=LONDON)
    assert "reprocessed" in went(season, finished(23, 59))
    assert went(season, datetime(2027, 8, 17, 0, 0, tzinfo=LONDON)) == ["thrown away"]


def test_without_a_tested_hot_pack_nothing_is_processed_again() -> None:
    """Kansas State University Extension: no tested hot pack, no processing again."""
    raw = recorded(batches=(batch("A", DAY, 7, preserve="dilled beans", finished=finished(19)),))

    assert went(raw, finished(20)) == ["refrigerated", "frozen"]


def test_seals_are_asked_for_from_twelve_hours_on_until_somebody_looked() -> None:
    season = season_with_jars(finished(19, 40))
    due = finished(19, 40) + timedelta(hours=12)

    assert seals_to_look_at(season, due - timedelta(minutes=1), LONDON) == ()
    assert [b.code for b in seals_to_look_at(season, due, LONDON)] == ["A"]
    looked = recorded(
        batches=season.record.batches,
        checks=(SealCheck("A", date(2027, 8, 17), 6, "refrigerated"),),
    )
    assert seals_to_look_at(looked, due + timedelta(hours=10), LONDON) == ()


def test_packs_have_no_seals_to_look_at() -> None:
    packs = recorded(batches=(batch("F", DAY, 5, preserve=PACKS, finished=finished(12)),))

    assert seals_to_look_at(packs, finished(12) + timedelta(days=1), LONDON) == ()


def test_a_time_without_a_zone_is_refused() -> None:
    season = season_with_jars(finished(19))
    bare = datetime.fromisoformat("2027-08-16T20:00")

    with pytest.raises(ValueError, match="names no moment"):
        seals_to_look_at(season, bare, LONDON)
    with pytest.raises(ValueError, match="names no moment"):
        ways_for_unsealed(season, season.record.batches[0], bare, LONDON)


def test_no_step_with_a_number_rests_on_memory() -> None:
    for row in table("incidents"):
        if any(letter.isdigit() for letter in row["step"]):
            assert row["status"] == "published", row["step"]


def test_a_second_process_begins_within_the_24_hours_or_comes_too_late() -> None:
    """Iowa State University Extension: processed again within 24 hours; 50 minutes of the table."""
    times = seal_hours(finished(19, 40), LONDON)
    limit = finished(19, 40) + timedelta(hours=24)

    assert not times.too_late_again(limit + timedelta(minutes=50), 50)
    assert times.too_late_again(limit + timedelta(minutes=51), 50)
    with pytest.raises(ValueError, match="names no moment"):
        times.too_late_again(datetime.fromisoformat("2027-08-17T20:00"), 50)
