"""A plan found from where another stood is the plan found from nothing."""

from datetime import date

import numpy as np
import pytest

import model
from model import Change
from model.case import make_case
from model.optimization.make_plan import make_plan

TODAY = date(2027, 3, 15)
CHANGES = {
    "a loss": Change(losses=(("paste tomato", 0.5),)),
    "a small loss": Change(losses=(("onion", 0.1),)),
    "a target": Change(targets=(("strawberry jam", 2),)),
}


@pytest.mark.parametrize("change", CHANGES.values(), ids=CHANGES)
def test_where_the_search_begins_changes_nothing(
    alder_lane: model.Season, spring_plan: model.PlannedSeason, change: Change
) -> None:
    case = make_case(model.changed_season(alder_lane, change, TODAY), TODAY)
    from_nothing = make_plan(case).plan
    from_another = make_plan(case, start=spring_plan.basis).plan

    assert from_another.report.bound == pytest.approx(from_nothing.report.bound, abs=1e-6)
    for name in ("amounts", "put_up", "loads", "opened", "eaten_kg", "shelf"):
        difference = np.abs(getattr(from_another, name) - getattr(from_nothing, name))
        assert difference.max() < 1e-6, name
