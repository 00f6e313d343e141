"""Daily files in every form that is published, and what is refused of them."""

from datetime import date

import pytest

from model.errors import Problem, SeasonProblems
from model.intake.weather_file import WeatherFile, read_weather
from model.season.garden import Temperatures
from tests.published.test_weather_published import rows

STATION = "USC00072730"
DAYS = (
    Temperatures(date(2019, 5, 1), 21.1, 4.4),
    Temperatures(date(2019, 5, 2), 19.4, -0.6),
)
ACCESS = (
    '"STATION","DATE","LATITUDE","LONGITUDE","ELEVATION","NAME","PRCP","PRCP_ATTRIBUTES",'
    '"TMAX","TMAX_ATTRIBUTES","TMIN","TMIN_ATTRIBUTES"\n'
    f'"{STATION}","2019-05-01","39.2","-75.5","9.1","DOVER, DE US","  0","T,,7,0700",'
    '"  211",",,7","   44",",,7"\n'
    f'"{STATION}","2019-05-02","39.2","-75.5","9.1","DOVER, DE US",,,"  194",",,7","   -6",",,7"\n'
)
LONG = (
    f"{STATION},20190501,TMAX,211,,,7,0700\n"
    f"{STATION},20190501,TMIN,44,,,7,0700\n"
    f"{STATION},20190501,PRCP,0,T,,7,0700\n"
    f"{STATION},20190502,TMAX,194,,,7,0700\n"
    f"{STATION},20190502,TMIN,-6,,,7,0700\n"
)
OWN_C = "date,min_c,max_c,note\n2019-05-02,-0.6,19.4,hoar\n2019-05-01,4.4,21.1,\n"
OWN_F = "date,max_f,min_f\n2019-05-01,69.98,39.92\n2019-05-02,66.92,30.92\n"
LONG_HEADINGS = "ID,DATE,ELEMENT,DATA_VALUE,M_FLAG,Q_FLAG,S_FLAG,OBS_TIME\n"


def read(text: str) -> WeatherFile:
    return read_weather(text.encode(), "station.csv")


def faults(text: str) -> tuple[Problem, ...]:
    with pytest.raises(SeasonProblems) as caught:
        read(text)
    return caught.value.problems


@pytest.mark.parametrize(
    ("text", "station"),
    [
        (ACCESS, STATION),
        (LONG, STATION),
        (LONG_HEADINGS + LONG, STATION),
        (OWN_C, ""),
        (OWN_F, ""),
        ("\ufeff" + OWN_C, ""),
    ],
    ids=["by station", "one a row", "with headings", "own C", "own F", "with a mark"],
)
def test_the_same_days_come_from_every_published_form(text: str, station: str) -> None:
    """The forms as the readme of GHCN-Daily and of its by-station files describe them."""
    assert read(text) == WeatherFile(station, DAYS, 0, 0)


def test_a_published_season_is_read_day_by_day() -> None:
    """Kelowna, April to October 2007 (Environment and Climate Change Canada)."""
    published = rows("daily_temperatures.csv")
    text = "date,min_c,max_c\n" + "".join(
        f"{row['date']},{row['t_min_c']},{row['t_max_c']}\n" for row in published
    )

    assert [(d.day.isoformat(), d.high_c, d.low_c) for d in read(text).days] == [
        (row["date"], float(row["t_max_c"]), float(row["t_min_c"])) for row in published
    ]


def test_flagged_and_missing_values_are_left_out_and_counted() -> None:
    long = LONG.replace("TMIN,-6,,,7", "TMIN,-6,,I,7") + f"{STATION},20190503,TMAX,-9999,,,7,\n"
    access = ACCESS.replace('"   -6",",,7"', '"   -6",",I,7"')

    assert read(long) == read(access) == WeatherFile(STATION, DAYS[:1], 1, 1)


def test_several_stations_in_one_file_are_one_fault() -> None:
    (problem,) = faults(LONG + LONG.replace(STATION, "USW00013707"))

    assert "2 stations" in problem.found
    assert "nearest to the garden" in problem.wanted


@pytest.mark.parametrize("values", [("70", "40"), ("21", "4"), ("95.5", "71.2")])
def test_a_download_that_does_not_say_its_unit_is_refused(values: tuple[str, str]) -> None:
    high, low = values
    (problem,) = faults(f"STATION,NAME,DATE,TMAX,TMIN\n{STATION},X,2019-05-01,{high},{low}\n")

    assert "nothing says in which unit" in problem.found
    assert "min_f" in problem.wanted


def test_degrees_with_a_point_are_degrees_c() -> None:
    text = f"STATION,DATE,TMAX,TMIN\n{STATION},2019-05-01,21.1,4.4\n"

    assert read(text).days == DAYS[:1]


def test_every_fault_is_told_with_its_row() -> None:
    told = faults(
        "date,min_c,max_c\n2019-05-01,4,99\n03/04/2019,1,2\n18/04/2019,1,2\n2019-05-02,x,12\n"
        "2019-05-03,1,12\n2019-05-03,1,12\n2019-05-04,12,1\n"
    )

    assert [(p.row, p.found) for p in told] == [
        (0, "on 2019-05-04 the lowest, 12.0 C, is above the highest"),
        (2, "a temperature is '99'"),
        (3, "the date is '03/04/2019', which can be read as 2019-04-03 or as 2019-03-04"),
        (4, "the date is '18/04/2019'"),
        (5, "a temperature is 'x'"),
        (7, "2019-05-03 stands there twice"),
    ]


def test_days_before_the_notes_begin_are_passed_over() -> None:
    assert read(LONG + LONG.replace("2019", "1889")).days == DAYS


@pytest.mark.parametrize(
    "text", ["", "a,b\n1,2\n", "date,min,max\n2019-05-01,1,2\n", "day;min_c;max_c\n", LONG[:40]]
)
def test_a_file_of_no_known_form_or_without_days_is_one_fault(text: str) -> None:
    (problem,) = faults(text)

    assert "GHCN-Daily" in problem.wanted


def test_a_file_that_is_too_large_is_not_read() -> None:
    with pytest.raises(SeasonProblems, match="too large"):
        read_weather(bytes(10_000_001), "station.csv")
