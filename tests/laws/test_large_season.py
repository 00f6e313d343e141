"""A household ten times as large is planned; one that is too large is told so."""

from datetime import date

import pytest

from model.errors import SeasonProblems
from model.planning import plan_season
from tests.large_season import times
from tests.many_foods import demo_texts, season_of
from tests.plan_check import broken_rules


def test_a_season_of_ten_times_the_size_is_planned_and_keeps_every_rule() -> None:
    season = season_of(times(demo_texts("two_rivers"), 10))
    planned = plan_season(season, date(2027, 1, 10), years=20)

    assert len(season.preserves) == 160
    assert planned.plan.put_up.sum() > 100
    assert broken_rules(planned.case, planned.plan) == []


def test_a_season_that_is_too_large_is_refused_with_the_limit() -> None:
    with pytest.raises(SeasonProblems) as caught:
        season_of(times(demo_texts("alder_lane"), 20))

    (fault,) = [p for p in caught.value.problems if p.where == "preserves.csv"]
    assert "more than 500 rows" in fault.found
    assert "500" in fault.wanted
