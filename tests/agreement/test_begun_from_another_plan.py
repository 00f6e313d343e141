"""A plan found from where another stood is the plan found from nothing."""

from datetime import date

import numpy as np
import pytest

import model
from model import Change
from model.case import make_case
from model.optimization.make_plan import make_plan

TODAY = date(2027, 3, 15)
FIELDS = ("amounts", "put_up", "loads", "opened", "eaten_kg", "on_hand_kg", "spare_kg", "shelf")


def any_change(season: model.Season, number: int) -> Change:
    """Give one of many changes: a loss, a target, or both."""
    generator = np.random.default_rng(number)
    crops = sorted({planting.crop for planting in season.plantings})
    lost = (str(generator.choice(crops)), float(generator.uniform(0.1, 0.9)))
    preserve = str(generator.choice([preserve.name for preserve in season.preserves]))
    wanted = (preserve, int(generator.integers(0, 40)))
    return Change(losses=(lost,) * (number % 3 != 1), targets=(wanted,) * (number % 3 != 0))


@pytest.mark.parametrize("number", range(8))
def test_where_the_search_begins_changes_nothing(
    alder_lane: model.Season, spring_plan: model.PlannedSeason, number: int
) -> None:
    case = make_case(model.changed_season(alder_lane, any_change(alder_lane, number), TODAY), TODAY)
    from_nothing = make_plan(case).plan
    from_another = make_plan(case, start=spring_plan.basis).plan

    assert from_another.report.bound == pytest.approx(from_nothing.report.bound, abs=1e-6)
    for name in FIELDS:
        difference = np.abs(getattr(from_another, name) - getattr(from_nothing, name))
        assert difference.max() < 1e-6, name
