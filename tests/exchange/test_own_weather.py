"""A weather file in a household's tables: its days, own odds, and nothing written lost."""

from datetime import date

import pytest

from model.errors import SeasonProblems
from model.exchange.own_weather import with_weather
from model.forecast.own_climate import frost_odds
from model.intake.columns import MOST_ENTRIES
from model.intake.gate import season_from_tables
from tests.exchange.test_round_trip import small
from tests.forecast.test_own_climate import record
from tests.small_season import small_season

YEARS = record([(110 + n, 285 + n) for n in range(0, 12, 2)])
FILE = ("date,min_c,max_c\n" + "".join(f"{d.day},{d.low_c},{d.high_c}\n" for d in YEARS)).encode()


def test_a_file_gives_its_days_and_own_frost_dates_with_their_years() -> None:
    own = with_weather(small(), FILE, "garden.csv")
    season = season_from_tables(own.tables)

    assert season.weather == tuple(YEARS)
    assert season.frosts == frost_odds(YEARS).frosts != small_season().frosts
    assert (own.added, own.kept, own.odds.spring_years, own.odds.autumn_years) == (2190, 0, 6, 6)
    assert own.warmth is not None
    assert own.warmth.years == 6
    assert "own odds over 6 years" in own.tables.tables["frosts.csv"].rows[0][1][-1]


def test_days_in_the_notes_stay_as_they_are_in_their_own_unit() -> None:
    notes = "note,low_f,day,high_f\nporch,50,1961-07-01,86\n"
    own = with_weather(small(weather=notes), FILE, "garden.csv")
    table = own.tables.tables["weather.csv"]

    assert (own.added, own.kept) == (2189, 1)
    assert table.rows[0] == (2, ("porch", "50", "1961-07-01", "86"))
    assert table.rows[1] == (3, ("", "28.4", "1961-01-01", "46.4"))
    season = season_from_tables(own.tables)
    assert {d.day: d.low_c for d in season.weather}[date(1961, 7, 1)] == pytest.approx(10.0)


def test_the_same_file_again_changes_nothing() -> None:
    once = with_weather(small(), FILE, "garden.csv")
    twice = with_weather(once.tables, FILE, "garden.csv")

    assert (twice.added, twice.kept) == (0, 2190)
    assert season_from_tables(twice.tables) == season_from_tables(once.tables)


def test_too_few_years_leave_the_frost_dates_and_say_why() -> None:
    own = with_weather(small(), b"date,min_c,max_c\n2027-05-01,3,17\n", "garden.csv")

    assert own.tables.tables["frosts.csv"] == small().tables["frosts.csv"]
    assert own.odds.why_not == "0 years have enough days in spring, 5 are needed"
    assert season_from_tables(own.tables).frosts == small_season().frosts


def test_more_days_than_the_notes_hold_are_counted_and_the_newest_taken() -> None:
    days = record([(115, 289)] * 56)
    content = "date,min_c,max_c\n" + "".join(f"{d.day},{d.low_c},{d.high_c}\n" for d in days)
    own = with_weather(small(), content.encode(), "garden.csv")

    assert (own.added, own.too_old) == (MOST_ENTRIES, len(days) - MOST_ENTRIES)
    assert season_from_tables(own.tables).weather == tuple(days[-MOST_ENTRIES:])


def test_a_faulty_file_or_faulty_weather_changes_nothing() -> None:
    with pytest.raises(SeasonProblems, match=r"garden\.csv row 2"):
        with_weather(small(), b"date,min_c,max_c\n2027-05-01,3,170\n", "garden.csv")
    with pytest.raises(SeasonProblems, match=r"weather\.csv row 2"):
        with_weather(small(weather="day,high_c,low_c\n2027-05-01,3,17\n"), FILE, "garden.csv")
    with pytest.raises(SeasonProblems, match=r"weather\.csv"):
        with_weather(small(weather="day;high_c\n1;2\n"), FILE, "garden.csv")


def test_missing_frost_dates_are_given_by_the_file() -> None:
    own = with_weather(small(frosts=None), FILE, "garden.csv")

    assert season_from_tables(own.tables).frosts == frost_odds(YEARS).frosts
