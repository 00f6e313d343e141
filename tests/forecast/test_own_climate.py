"""Own frost odds and warmth: against the published freeze table, and years drawn from it."""

from collections.abc import Iterable
from datetime import date, timedelta
from statistics import NormalDist

import numpy as np
import pytest

from model.forecast.own_climate import LEAST_YEARS, frost_odds, own_warmth
from model.season.garden import Temperatures
from model.season.weeks import YearDay
from tests.published.test_weather_published import rows

# Days of the year, Delaware freeze table of Moyer 1970 at 32 F: median and s of both frosts.
SPRING, AUTUMN = NormalDist(115, 11.7), NormalDist(289, 10.92)


def year_of(year: int, last_frost: float, first_frost: float, shift: int = 0) -> list[Temperatures]:
    """Give a year, mild between two days of the year and freezing outside; days may be shifted."""
    begins = date(year, 1, 1)
    days = []
    for n in range(365):
        frost = n + 1 <= round(last_frost) or n + 1 >= round(first_frost)
        warm = 12.0 if 150 < n < 240 else 5.0
        low = -2.0 if frost else warm
        days.append(Temperatures(begins + timedelta(days=n + shift), low + 10.0, low))
    return days


def record(frosts: Iterable[tuple[float, float]], shift: int = 0) -> list[Temperatures]:
    """Give years from 1961 on; in leap years the last day of December is not on record."""
    return [d for n, (a, b) in enumerate(frosts) for d in year_of(1961 + n, a, b, shift)]


def published(season: str, chance: str) -> date:
    (row,) = (
        row
        for row in rows("frost_dates.csv")
        if (row["season"], row["threshold_f"], row["probability"]) == (season, "32", chance)
    )
    return date.fromisoformat(f"2001-{row['date_mm_dd']}")


def test_years_drawn_from_the_published_table_give_it_back() -> None:
    """Forty years at the table's own fortieths, from either end; each date within two days."""
    parts = [(n + 0.5) / 40 for n in range(40)]
    odds = frost_odds(record((SPRING.inv_cdf(p), AUTUMN.inv_cdf(1 - p)) for p in parts))
    assert odds.frosts is not None
    spring, autumn = odds.frosts.last_spring, odds.frosts.first_autumn

    assert (odds.spring_years, odds.autumn_years) == (40, 40)
    for own, table in (
        (spring.early, published("spring", "0.9")),
        (spring.median, published("spring", "0.5")),
        (spring.late, published("spring", "0.1")),
        (autumn.early, published("fall", "0.1")),
        (autumn.median, published("fall", "0.5")),
        (autumn.late, published("fall", "0.9")),
    ):
        assert abs((own.in_year(2001) - table).days) <= 2


def test_eight_years_in_ten_to_come_lie_between_the_tenths_of_ten_years() -> None:
    """Records of ten years, and the chances of a year to come, drawn from the table."""
    chance = np.random.default_rng(20270315)
    inside = 0
    for _ in range(150):
        drawn = chance.normal([SPRING.mean, AUTUMN.mean], [SPRING.stdev, AUTUMN.stdev], (10, 2))
        odds = frost_odds(record(map(tuple, drawn)))
        assert odds.frosts is not None
        frost = odds.frosts.last_spring
        early, late = frost.early.in_year(2001), frost.late.in_year(2001)
        to_come = NormalDist(SPRING.mean, SPRING.stdev)
        new_year = date(2000, 12, 31)
        inside += to_come.cdf((late - new_year).days + 0.5) - to_come.cdf(
            (early - new_year).days - 0.5
        )

    assert 0.75 < inside / 150 < 0.85


def test_the_southern_half_of_the_world_has_its_midsummer_in_january() -> None:
    frosts = [(SPRING.inv_cdf(p), AUTUMN.inv_cdf(p)) for p in (0.1, 0.3, 0.5, 0.7, 0.9, 0.5, 0.5)]
    north, south = frost_odds(record(frosts)), frost_odds(record(frosts, shift=182))
    assert north.frosts is not None
    assert south.frosts is not None

    for of_north, of_south in (
        (north.frosts.last_spring, south.frosts.last_spring),
        (north.frosts.first_autumn, south.frosts.first_autumn),
    ):
        expected = of_north.median.in_year(2001) + timedelta(days=182)
        assert abs((of_south.median.nearest(expected) - expected).days) <= 1


def test_fewer_years_than_needed_give_no_odds_and_say_so() -> None:
    odds = frost_odds(record([(115, 289)] * (LEAST_YEARS - 1)))

    assert odds.frosts is None
    assert odds.why_not == "4 years have enough days in spring, 5 are needed"


def test_a_year_with_a_gap_is_left_out_and_named() -> None:
    days = record([(115, 289)] * 6)
    gap = [d for d in days if not date(1963, 4, 1) <= d.day <= date(1963, 4, 20)]
    odds = frost_odds(gap)

    assert (odds.spring_years, odds.autumn_years) == (5, 6)
    assert odds.with_gaps == ("spring 1963",)


def test_years_without_frost_are_named_and_too_many_of_them_give_no_odds() -> None:
    one = frost_odds(record([(115, 289)] * 11 + [(0, 289)]))
    assert one.frostless == ("spring 1972",)
    assert one.frosts is not None

    many = frost_odds(record([(115, 289)] * 6 + [(0, 289)] * 2))
    assert many.frosts is None
    assert many.why_not == "2 of 8 years had no frost in spring"


def test_nothing_recorded_gives_no_odds() -> None:
    assert frost_odds([]).frosts is None


def test_own_warmth_is_that_of_the_published_method_and_says_its_years() -> None:
    """Kelowna 2007, worked out by hand in tests/published: 1,268.15 C-days to 31 October."""
    days = [
        Temperatures(date.fromisoformat(r["date"]), float(r["t_max_c"]), float(r["t_min_c"]))
        for r in rows("daily_temperatures.csv")
    ]
    odds = frost_odds(record([(91, 305)] * 6))
    assert odds.frosts is not None
    assert odds.frosts.last_spring.median == YearDay(4, 1)
    warmth = own_warmth(days, odds.frosts)
    assert warmth is not None

    # the last warm day counted is the eve of the first frost, 31 October
    assert warmth.years == 1
    assert warmth.mean_c_days == pytest.approx(1268.15, abs=0.01)


def test_a_year_with_half_its_days_counts_for_no_warmth() -> None:
    days = record([(115, 289)] * 6)
    odds = frost_odds(days)
    assert odds.frosts is not None

    assert own_warmth(days[:200], odds.frosts) is None
    assert own_warmth(days, odds.frosts) == own_warmth(days[:-40], odds.frosts)
