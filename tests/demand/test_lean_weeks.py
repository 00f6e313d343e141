from datetime import date

import numpy as np
import pytest

from model.case import Case, make_case, wanted_and_fresh
from model.demand.lean_weeks import WHOLE_PLATE, fresh_portions, lean_weeks, stretches
from model.season.arrays import season_arrays
from model.season.season import Season
from model.season.weeks import Weeks


def test_lean_weeks_are_those_in_which_fresh_covers_less_than_half_the_want() -> None:
    wanted = np.array([4.0, 4.0, 4.0, 4.0, 4.0])
    fresh = np.array([0.0, 1.9, 2.0, 4.0, 0.0])

    assert list(lean_weeks(wanted, fresh, 0.5)) == [True, True, False, False, True]


def test_a_week_with_nobody_at_home_does_not_break_a_lean_stretch() -> None:
    wanted = np.array([4.0, 0.0, 4.0, 4.0, 0.0])
    fresh = np.array([0.0, 0.0, 0.0, 4.0, 0.0])

    assert [(s.begins, s.ends) for s in stretches("x", lean_weeks(wanted, fresh, 0.5))] == [(0, 2)]


def test_fresh_food_is_eaten_within_its_holding_time_and_up_to_the_want(tiny_case: Case) -> None:
    arrays = tiny_case.arrays
    harvest = np.zeros((2, len(tiny_case.weeks)))
    harvest[0, 10] = 100.0
    wanted = np.full_like(tiny_case.demand.wanted, 5.0)
    eaten = fresh_portions(arrays, harvest, wanted, np.zeros((len(harvest), 0)))

    held = int(arrays.hold_weeks[0])
    assert list(np.flatnonzero(eaten[0])) == list(range(10, 10 + held))
    assert (eaten[0, 10 : 10 + held] == 5.0).all()
    assert not eaten[1].any()


def test_the_lean_months_of_the_north_hold_february_and_not_august(alder_lane: Season) -> None:
    case = make_case(alder_lane, date(2027, 3, 15))
    plate = [s for s in case.lean if s.food == WHOLE_PLATE]
    lean = {case.weeks.monday(w) for s in plate for w in range(s.begins, s.ends + 1)}

    assert date(2028, 2, 7) in lean
    assert date(2027, 8, 16) not in lean


def test_the_lean_months_of_the_south_are_half_a_year_away(two_rivers: Season) -> None:
    case = make_case(two_rivers, date(2026, 10, 12))
    plate = [s for s in case.lean if s.food == WHOLE_PLATE]
    lean = {case.weeks.monday(w) for s in plate for w in range(s.begins, s.ends + 1)}

    assert date(2027, 8, 2) in lean
    assert date(2027, 2, 15) not in lean


def test_what_was_lifted_before_and_still_holds_was_eaten_fresh(alder_lane: Season) -> None:
    """Weeks looked at alone and as the end of a longer stretch had the same on the table."""

    def fresh(first: date, weeks: int) -> dict[str, float]:
        arrays = season_arrays(alder_lane, Weeks(first, weeks), (), 0.02)
        eaten = wanted_and_fresh(alder_lane, arrays)[1]
        return dict(zip(arrays.foods, eaten[:, -2:].sum(axis=1), strict=True))

    alone, within = fresh(date(2027, 9, 6), 2), fresh(date(2027, 6, 14), 14)
    assert within["roots"] > 1.0
    assert alone == pytest.approx(within, rel=0.05, abs=0.1)
