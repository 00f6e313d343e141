"""A plan that is stopped half-way leaves everything as it was."""

from datetime import date

import numpy as np
import pytest

from model.planning import plan_season
from model.season.season import Season

MARCH = date(2027, 3, 1)


class Stopped(Exception):
    """What a person's click on stop raises."""


def stop_at(step: int) -> tuple[list[str], object]:
    """Give the words told so far, and what stops the plan at a step of its progress."""
    told: list[str] = []

    def progress(words: str, part: float) -> None:
        told.append(words)
        if len(told) > step:
            raise Stopped

    return told, progress


def test_a_plan_stopped_at_any_step_changes_nothing_and_is_made_anew_the_same(
    tiny: Season,
) -> None:
    whole = plan_season(tiny, MARCH, years=5)
    told, steps = [], 0
    while True:
        told, progress = stop_at(steps)
        try:
            plan_season(tiny, MARCH, years=5, before=whole, progress=progress)
        except Stopped:
            steps += 1
            continue
        break

    again = plan_season(tiny, MARCH, years=5)
    assert steps >= 4
    assert {"Reading the season", "Living through simulated years"} <= set(told)
    for name in ("put_up", "opened", "shelf", "loads"):
        assert np.array_equal(getattr(whole.plan, name), getattr(again.plan, name)), name
        assert not getattr(whole.plan, name).flags.writeable


def test_a_stop_is_not_swallowed(tiny: Season) -> None:
    with pytest.raises(Stopped):
        plan_season(tiny, MARCH, years=5, progress=stop_at(0)[1])
