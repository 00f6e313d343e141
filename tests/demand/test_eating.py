from datetime import date

import numpy as np
import pytest

from model.case import Case, make_case
from model.season.season import Season
from tests.small_season import TABLES, small_season

TODAY = date(2027, 3, 1)


def case_with(**changes: str) -> Case:
    return make_case(small_season(**changes), TODAY)


def test_wants_are_portions_times_adults_times_habit(tiny_case: Case) -> None:
    season = tiny_case.season
    adults = sum(eater.vegetable_scale for eater in season.eaters)
    habit = next(habit for habit in season.habits if habit.name == "with the season")
    expected = 4 * adults * habit.factor(tiny_case.weeks.monday(10))

    assert tiny_case.demand.wanted[1, 10] == pytest.approx(expected)
    assert adults == pytest.approx(0.833 + 1.167)


def test_a_summer_absence_takes_nothing_from_winter(tiny_case: Case) -> None:
    away = case_with(away="who,begins,ends\neveryone,2027-07-12,2027-07-25\n")
    here, gone = tiny_case.demand.wanted, away.demand.wanted
    weeks = [tiny_case.weeks.index(date(2027, 7, day)) for day in (12, 19)]

    assert (gone[:, weeks] == 0).all()
    others = np.setdiff1d(np.arange(here.shape[1]), weeks)
    assert (gone[:, others] == here[:, others]).all()


def test_one_eater_away_for_half_a_week_takes_half_of_that_eaters_week(tiny_case: Case) -> None:
    away = case_with(away="who,begins,ends\nBen,2027-07-12,2027-07-15\n")
    week = tiny_case.weeks.index(date(2027, 7, 12))
    share = 1.167 / 2.0 * 4 / 7

    assert away.demand.wanted[0, week] == pytest.approx(
        tiny_case.demand.wanted[0, week] * (1 - share)
    )


def test_guests_change_only_the_weeks_they_touch(tiny_case: Case) -> None:
    full = case_with(guests="adults,begins,ends\n2,2027-12-20,2027-12-26\n")
    week = tiny_case.weeks.index(date(2027, 12, 20))
    changed = np.flatnonzero((full.demand.wanted != tiny_case.demand.wanted).any(axis=0))

    assert list(changed) == [week]
    assert full.demand.wanted[0, week] == pytest.approx(2 * tiny_case.demand.wanted[0, week])


def test_habits_of_the_households_own_set_the_pace() -> None:
    season = case_with(
        habits="habit,from_month_day,factor\njars,01-10,1.3\njars,06-15,0.6\n",
        foods=TABLES["foods.csv"]
        .replace("liking,crops\n", "liking,habit,crops\n")
        .replace("4,bush bean", "4,,bush bean")
        .replace("5,tomato", "5,jars,tomato"),
    )
    wanted = season.demand.wanted[1]
    july, february = (season.weeks.index(day) for day in (date(2027, 7, 5), date(2028, 2, 7)))

    assert wanted[february] / wanted[july] == pytest.approx(1.3 / 0.6)


def test_eating_rises_after_midwinter_without_any_habit_written_down(tiny_case: Case) -> None:
    wanted = tiny_case.demand.wanted[1]
    autumn, spring = (tiny_case.weeks.index(day) for day in (date(2027, 11, 1), date(2028, 3, 6)))

    assert wanted[spring] > wanted[autumn]


def test_nothing_is_wanted_of_the_plan_from_the_new_crop_on(tiny_case: Case) -> None:
    cover = tiny_case.demand.cover_until

    for f, week in enumerate(cover):
        assert tiny_case.demand.wanted[f, week - 1] > 0
        assert (tiny_case.demand.wanted[f, week:] == 0).all()


def test_the_same_holds_in_the_southern_half_of_the_world(two_rivers: Season) -> None:
    case = make_case(two_rivers, date(2026, 10, 12))
    beans = case.arrays.foods.index("snap beans")
    winter, summer = (case.weeks.index(day) for day in (date(2027, 8, 2), date(2027, 2, 1)))

    assert case.demand.wanted[beans, winter] > case.demand.wanted[beans, summer]
