from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from model.season.weeks import Weeks, YearDay, a_year_later, monday_of

DAYS = st.dates(date(1990, 1, 1), date(2090, 1, 1))


@given(DAYS, st.integers(1, 120), st.integers(-200, 200))
def test_the_monday_of_a_week_is_in_that_week(day: date, count: int, week: int) -> None:
    weeks = Weeks(monday_of(day), count)

    assert weeks.index(weeks.monday(week)) == week
    assert weeks.index(weeks.monday(week) + timedelta(days=6)) == week


@given(DAYS, DAYS, DAYS)
def test_every_day_of_a_stretch_lies_in_exactly_one_week(first: date, a: date, b: date) -> None:
    begins, ends = min(a, b), max(a, b)
    monday = monday_of(min(first, begins))
    weeks = Weeks(monday, (ends - monday).days // 7 + 1)

    assert sum(weeks.days_inside(begins, ends)) == (ends - begins).days + 1


def test_a_week_begins_on_a_monday_or_is_refused() -> None:
    with pytest.raises(ValueError, match="not a Monday"):
        Weeks(date(2027, 3, 2), 4)


def test_the_nearest_new_year_is_the_one_a_day_away() -> None:
    assert YearDay(1, 1).nearest(date(2027, 12, 31)) == date(2028, 1, 1)
    assert YearDay(12, 31).on_or_before(date(2027, 1, 1)) == date(2026, 12, 31)
    assert YearDay(3, 1).on_or_after(date(2027, 3, 2)) == date(2028, 3, 1)


def test_the_29th_of_february_comes_round_as_the_28th() -> None:
    assert a_year_later(date(2028, 2, 29)) == date(2029, 2, 28)
