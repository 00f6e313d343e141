from datetime import date, timedelta

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from model.forecast.growth import (
    expected_week_shares,
    picked_by,
    picking_dates,
    week_shares,
)
from model.season.season import Season
from model.season.weeks import Weeks
from tests.small_season import TABLES, small_season

SHAPES = ("flush", "repeated", "single lift")

TODAY = date(2027, 3, 1)


def planting_of(season: Season, crop: str):
    return next(planting for planting in season.plantings if planting.crop == crop)


@pytest.mark.parametrize("shape", SHAPES)
@given(steps=st.lists(st.floats(-1, 2), min_size=2, max_size=20))
def test_what_is_picked_never_shrinks_and_ends_at_the_whole_crop(
    shape: str, steps: list[float]
) -> None:
    picked = picked_by(shape, np.array(sorted(steps)))

    assert (np.diff(picked) >= -1e-12).all()
    assert picked_by(shape, np.array([0.0]))[0] == 0
    assert picked_by(shape, np.array([1.0]))[0] == pytest.approx(1.0)


@pytest.mark.parametrize("shape", SHAPES)
def test_the_shape_is_even_about_its_middle(shape: str) -> None:
    x = np.linspace(0, 1, 21)

    assert picked_by(shape, x) == pytest.approx(1 - picked_by(shape, 1 - x))


def test_tomatoes_are_picked_60_to_85_days_after_planting_out(tiny: Season) -> None:
    dates = picking_dates(tiny, planting_of(tiny, "tomato"), TODAY)

    assert dates.first == date(2027, 5, 28) + timedelta(days=72)
    # a late year: the frost of one year in ten (26 May) is past, the slow end of the days
    assert dates.late == date(2027, 5, 28) + timedelta(days=85)


def test_a_tender_crop_set_out_early_waits_for_the_late_frost_in_a_late_year() -> None:
    early = TABLES["plantings.csv"].replace("2027-03-20,2027-05-28", "2027-03-20,2027-05-06")
    season = small_season(plantings=early)
    dates = picking_dates(season, planting_of(season, "tomato"), TODAY)

    assert dates.late == date(2027, 5, 26) + timedelta(days=85)
    assert dates.chance_killed_young == pytest.approx(0.333 * 0.71, abs=0.02)


def test_a_date_of_the_households_own_goes_before_the_published_days() -> None:
    own = TABLES["plantings.csv"].replace("sown,planted_out", "sown,planted_out,first_picking")
    own = own.replace("2027-03-20,2027-05-28,", "2027-03-20,2027-05-28,2027-08-20,")
    own = own.replace("2027-05-28,,8", "2027-05-28,,,8")
    season = small_season(plantings=own)

    assert picking_dates(season, planting_of(season, "tomato"), TODAY).first == date(2027, 8, 20)
    later = picking_dates(season, planting_of(season, "tomato"), TODAY, years_later=1)
    assert later.first == date(2028, 8, 20)


def test_a_crop_that_frost_kills_gives_less_when_it_is_late(tiny: Season) -> None:
    weeks = Weeks(date(2027, 3, 1), 60)
    late_tables = TABLES["plantings.csv"].replace("2027-03-20,2027-05-28", "2027-05-20,2027-07-20")
    late = small_season(plantings=late_tables)
    in_time = expected_week_shares(picking_dates(tiny, planting_of(tiny, "tomato"), TODAY), weeks)
    too_late = expected_week_shares(picking_dates(late, planting_of(late, "tomato"), TODAY), weeks)

    assert in_time.sum() > 0.85
    assert too_late.sum() < 0.5


def test_shares_of_a_week_sum_to_the_whole_when_nothing_cuts_them(tiny: Season) -> None:
    dates = picking_dates(tiny, planting_of(tiny, "bush bean"), TODAY)
    weeks = Weeks(date(2027, 3, 1), 60)
    first = np.array([100.0, 130.0])
    shares = week_shares(dates, weeks, first, np.array([14.0, 21.0]), np.array([np.inf, 140.0]))

    assert shares[0].sum() == pytest.approx(1.0)
    assert shares[1].sum() == pytest.approx(picked_by("flush", np.array([10 / 21]))[0])
    assert (shares >= 0).all()


@pytest.mark.parametrize(
    ("sown", "out"),
    [
        ("2027-07-20", "2027-09-01"),
        ("2027-08-10", "2027-09-20"),
        ("2027-09-20", "2027-11-20"),
    ],
)
def test_a_tender_crop_set_out_too_late_is_ended_by_that_autumns_frost_and_gives_nothing(
    sown: str, out: str
) -> None:
    late = TABLES["plantings.csv"].replace("2027-03-20,2027-05-28", f"{sown},{out}")
    season = small_season(plantings=late)
    dates = picking_dates(season, planting_of(season, "tomato"), TODAY)
    weeks = Weeks(date(2027, 3, 1), 60)

    assert expected_week_shares(dates, weeks).sum() < 0.02


def test_a_tender_crop_set_out_months_before_the_last_frost_is_not_covered_so_long() -> None:
    early = TABLES["plantings.csv"].replace("2027-03-20,2027-05-28", "2027-01-20,2027-03-10")
    season = small_season(plantings=early)
    dates = picking_dates(season, planting_of(season, "tomato"), date(2027, 1, 4))

    assert dates.chance_killed_young > 0.99
