from datetime import date

import numpy as np
import pytest
from scipy.stats import norm

import model
from model.case import make_case
from model.cover import cover_windows
from model.planting.value import planting_value
from model.planting.ways import (
    AS_WRITTEN,
    MANY_YEARS,
    MEAN_YEAR,
    TUNED,
    WayScore,
    bad_year_difference,
    mean_difference,
    score_ways,
)


@pytest.fixture(scope="module")
def ways(two_rivers: model.Season) -> dict[str, WayScore]:
    case = make_case(two_rivers, date(2026, 8, 10))
    return {score.way: score for score in score_ways(case, cover_windows(case), 400, seed=1)}


def test_the_margin_ships_because_it_is_as_good_as_choosing_for_many_years(
    ways: dict[str, WayScore],
) -> None:
    for ours, theirs in ((ways[TUNED], ways[MANY_YEARS]), (ways[MANY_YEARS], ways[TUNED])):
        found = mean_difference(ours.met, theirs.met)

        assert abs(found.value) <= 0.005 * theirs.met.mean()


def test_planning_meets_more_than_the_notes_the_hand_rule_and_the_mean_year(
    ways: dict[str, WayScore],
) -> None:
    others = [way for way in ways if way.startswith("by hand")]
    assert len(others) == 4
    for other in (*others, AS_WRITTEN, MEAN_YEAR):
        assert mean_difference(ways[TUNED].met, ways[other].met).low > 0
        assert ways[TUNED].bad_year > ways[other].bad_year


def test_an_interval_of_the_mean_is_the_textbook_s() -> None:
    ours = np.array([3.0, 5.0, 4.0, 8.0])
    theirs = np.array([1.0, 2.0, 4.0, 5.0])
    found = mean_difference(ours, theirs)

    # differences 2, 3, 0, 3: mean 2, standard deviation sqrt(2), standard error sqrt(2) / 2
    assert found.value == 2
    assert found.high - found.value == pytest.approx(norm.ppf(0.975) * 2**0.5 / 2, rel=1e-3)


def test_the_bad_year_s_interval_holds_a_known_shift() -> None:
    generator = np.random.default_rng(2)
    theirs = generator.normal(1000, 100, 500)
    found = bad_year_difference(theirs + 25, theirs, generator)

    assert found.value == pytest.approx(25)
    assert found.low <= 25 <= found.high


def test_knowing_the_year_beforehand_is_never_worth_less_than_nothing(
    two_rivers: model.Season,
) -> None:
    case = make_case(two_rivers, date(2026, 8, 10))
    found = planting_value(case, 1, years=20)

    assert found.perfect.value >= 0
    assert found.gap.value == pytest.approx(found.in_sample - found.out_of_sample.value)
    # no more years are needed: the gap lies within its interval
    assert found.gap.low <= 0
    assert found.out_of_sample.low < found.out_of_sample.value < found.out_of_sample.high
