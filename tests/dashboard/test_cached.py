"""Plans that several windows ask for at once are made once."""

import gc
import threading
import weakref
from concurrent.futures import ThreadPoolExecutor
from dataclasses import replace
from datetime import date

import numpy as np
import pytest

import model
from dashboard.cached import PlanShelf, content_of, known_plan, planned, settle
from model.season.record import Container, Meant, Verdict
from model.season.season import Season
from tests.recorded import JARS, count, recorded

SUMMER = date(2027, 8, 16)


def with_record(**changes: object) -> Season:
    season = recorded()
    return replace(season, record=replace(season.record, **changes))


PLANS_NOTHING = {
    "a verdict": with_record(verdicts=(Verdict("2027", JARS, "not again"),)),
    "a plan kept to compare with": with_record(meant=(Meant(date(2027, 4, 1), JARS, 40.0),)),
    "a container weighed": with_record(containers=(Container("trug", "", 4.0),)),
    "pounds and American words": replace(recorded(), units="US", date_form="MDY", tongue="US"),
}


@pytest.mark.parametrize("changed", PLANS_NOTHING.values(), ids=PLANS_NOTHING)
def test_what_plans_nothing_makes_no_other_plan(changed: Season) -> None:
    season = recorded()
    first, second = (model.plan_season(one, SUMMER, years=2) for one in (season, changed))

    assert np.array_equal(first.plan.put_up, second.plan.put_up)
    assert np.array_equal(first.plan.amounts, second.plan.amounts)
    assert np.array_equal(first.filled, second.filled)
    assert content_of(season).planned == content_of(changed).planned
    assert content_of(season).shown != content_of(changed).shown


def test_after_a_verdict_the_plan_stands_and_knows_of_it() -> None:
    made = planned([recorded()], SUMMER)
    changed = PLANS_NOTHING["a verdict"]
    found = known_plan([changed], SUMMER)

    assert found is not None
    assert found.plan is made.plan
    assert found.case.season is changed
    assert known_plan([recorded()], SUMMER) is made


def test_a_count_is_planned_anew() -> None:
    counted = replace(recorded(), counts=(count(date(2027, 8, 15), 5.0),))

    assert content_of(counted).planned != content_of(recorded()).planned
    planned([recorded()], SUMMER)
    assert known_plan([counted], SUMMER) is None


def test_of_windows_that_ask_for_one_plan_at_once_one_makes_it_and_the_others_are_told() -> None:
    shelf, made, told = PlanShelf(), list[str](), list[str]()
    inside, go_on = threading.Event(), threading.Event()

    def ask(name: str) -> None:
        with shelf.turn("plan", lambda: (told.append(name), go_on.set())):
            if not made:
                inside.set()
                assert go_on.wait(20)
                made.append(name)

    with ThreadPoolExecutor(3) as windows:
        first = windows.submit(ask, "first")
        assert inside.wait(20)
        others = [windows.submit(ask, name) for name in ("second", "third")]
        for window in (first, *others):
            window.result(timeout=30)

    assert made == ["first"]
    assert told


def test_a_window_that_stops_leaves_its_turn_to_the_next() -> None:
    shelf = PlanShelf()
    with pytest.raises(KeyboardInterrupt), shelf.turn("plan", lambda: None):
        raise KeyboardInterrupt
    with shelf.turn("plan", lambda: pytest.fail("it is nobody's turn")):
        pass


def test_other_plans_do_not_wait() -> None:
    shelf = PlanShelf()
    with (
        shelf.turn("one", lambda: None),
        shelf.turn("other", lambda: pytest.fail("waits for another plan")),
    ):
        pass


class Ring:
    """Something that only a sweep takes away."""

    def __init__(self) -> None:
        self.own = self


def test_what_is_settled_is_not_swept_again_until_all_of_it_is() -> None:
    plan, gone = [{"week": week} for week in range(1000)], Ring()
    left, later = weakref.ref(Ring()), weakref.ref(gone)
    settle(whole=True)

    assert left() is None
    assert not {id(one) for one in plan} & {id(one) for one in gc.get_objects()}
    del gone
    settle(whole=False)
    assert later() is not None
    settle(whole=True)
    assert later() is None
    gc.unfreeze()
