"""Plans that several windows ask for at once are made once."""

import gc
import threading
import weakref
from concurrent.futures import ThreadPoolExecutor

import pytest

from dashboard.cached import PlanShelf, settle


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
