"""Boiling points, degree-days and frost odds against published tables."""

import csv
from datetime import date, timedelta
from pathlib import Path

import numpy as np
import pytest

from model.forecast.degree_days import clip_then_mean, day_reached
from model.safety.altitude import FOOT_M, boiling_point_c
from model.season.frosts import Frost
from model.season.weeks import YearDay

HERE = Path(__file__).parent

# Feet and degrees F. Table credited to NOAA and NASA; USDA leaflet values.
BOILING_F = [
    (0, 212.0),
    (500, 211.1),
    (1000, 210.2),
    (2000, 208.4),
    (5000, 203.0),
    (6000, 201.1),
    (8000, 197.4),
    (10000, 193.6),
]


def rows(name: str) -> list[dict[str, str]]:
    with (HERE / name).open(encoding="utf-8", newline="") as stream:
        return list(csv.DictReader(stream))


@pytest.mark.parametrize(("feet", "boils_f"), BOILING_F)
def test_water_boils_where_the_published_table_says(feet: int, boils_f: float) -> None:
    celsius = boiling_point_c(float(feet * FOOT_M))

    assert celsius == pytest.approx((boils_f - 32) / 1.8, abs=0.12)


@pytest.mark.parametrize("row", rows("degree_days.csv"), ids=lambda row: row["check_id"])
def test_degree_days_of_one_day_are_the_published_ones(row: dict[str, str]) -> None:
    """County extension column of 2018, Iowa State University, and hand-worked days."""
    high, low = np.array([float(row["t_max"])]), np.array([float(row["t_min"])])
    base = float(row["base"])
    warmth = clip_then_mean(high, low, base, float(row["upper"]))

    assert warmth[0] == pytest.approx(float(row["expected_gdd"]), abs=5e-4)


def test_a_season_of_degree_days_sums_as_worked_out() -> None:
    """Kelowna, 1 April to 31 October 2007 (Environment and Climate Change Canada).

    Worked out from the daily records before this code was written.
    """
    days = rows("daily_temperatures.csv")
    high = np.array([float(day["t_max_c"]) for day in days])
    low = np.array([float(day["t_min_c"]) for day in days])

    assert clip_then_mean(high, low, 10.0, 30.0).sum() == pytest.approx(1268.15, abs=0.01)


def test_sweet_corn_in_that_season_is_ready_on_30_august() -> None:
    """Jubilee needs 855 C-days at 10/30 C from 20 May (Oregon State University Extension)."""
    days = [day for day in rows("daily_temperatures.csv") if day["date"] >= "2007-05-20"]
    high = np.array([float(day["t_max_c"]) for day in days])
    low = np.array([float(day["t_min_c"]) for day in days])
    warmth = clip_then_mean(high, low, 10.0, 30.0)

    assert day_reached(warmth.tolist(), date(2007, 5, 20), 855.0) == date(2007, 8, 30)


def test_frost_odds_give_back_the_published_table() -> None:
    """Delaware freeze table of Moyer 1970: thirty dates, each to within 0.6 day."""
    table = rows("frost_dates.csv")
    groups: dict[tuple[str, str], list[dict[str, str]]] = {}
    for row in table:
        groups.setdefault((row["season"], row["threshold_f"]), []).append(row)
    for (season, _), group in groups.items():
        by_chance = {row["probability"]: row["date_mm_dd"] for row in group}
        first, last = ("0.9", "0.1") if season == "spring" else ("0.1", "0.9")
        frost = Frost(_day(by_chance[first]), _day(by_chance["0.5"]), _day(by_chance[last]))
        for row in group:
            chance_after = float(row["probability"])
            if season != "spring":
                chance_after = 1.0 - chance_after
            expected = _day(row["date_mm_dd"]).in_year(2001)
            found = frost.date_with_chance_after(chance_after, 2001)
            # the model gives a date, the table a date: one day of rounding between them
            assert abs((found - expected).days) <= 1, row


def _day(text: str) -> YearDay:
    month, day = text.split("-")
    return YearDay(int(month), int(day))


def test_waiting_past_the_mean_frost_buys_nine_years_in_ten() -> None:
    """Kelowna 1991-2020: mean day 133.67, s 10.19; nine years in ten are safe on 27 May."""
    new_year = date(2001, 1, 1)
    days = [new_year + timedelta(days=round(133.67 + z * 10.19) - 1) for z in (-1.2816, 0, 1.2816)]
    frost = Frost(*(YearDay(day.month, day.day) for day in days))

    assert frost.date_with_chance_after(0.1, 2001) == date(2001, 5, 27)
