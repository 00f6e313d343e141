"""Fixtures: the two invented households and a plan of each, made once."""

import time
from collections.abc import Callable, Iterator
from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest
from hypothesis import settings

import model
from model.case import Case, make_case
from model.planning import PlannedSeason
from model.season.garden import Picking
from tests.needs import not_shown
from tests.small_season import small_season

# A busy machine is no fault of what is tested.
settings.register_profile("shared", deadline=None)
settings.load_profile("shared")
PASSED: set[str] = set()
DEMOS = Path(__file__).parent.parent / "demo_data"
SPRING, GLUT, MIDWINTER = date(2027, 3, 15), date(2027, 8, 16), date(2028, 1, 10)


@pytest.fixture(scope="session")
def alder_lane() -> model.Season:
    return model.read_season(DEMOS / "alder_lane")


@pytest.fixture(scope="session")
def two_rivers() -> model.Season:
    return model.read_season(DEMOS / "two_rivers")


@pytest.fixture(scope="session")
def spring_plan(alder_lane: model.Season) -> PlannedSeason:
    return model.plan_season(alder_lane, SPRING, years=200)


@pytest.fixture(scope="session")
def sunday_plan(alder_lane: model.Season) -> PlannedSeason:
    """Give the plan of a Sunday with a heap of tomatoes that still are good on Monday."""
    sunday = date(2027, 8, 22)
    heap = (*alder_lane.pickings, Picking(sunday, "tomato", 30.0))
    return model.plan_season(replace(alder_lane, pickings=heap), sunday, years=10)


@pytest.fixture(scope="session")
def southern_plan(two_rivers: model.Season) -> PlannedSeason:
    return model.plan_season(two_rivers, date(2026, 10, 12), years=200)


@pytest.fixture(scope="session")
def southern_february(two_rivers: model.Season) -> PlannedSeason:
    """Give the plan as the last of the summer is picked: pumpkins come in April."""
    return model.plan_season(two_rivers, date(2027, 2, 15), years=200)


@pytest.fixture(scope="session")
def midwinter_plan(alder_lane: model.Season) -> PlannedSeason:
    return model.plan_season(alder_lane, MIDWINTER, years=200)


@pytest.fixture(scope="session")
def tiny() -> model.Season:
    return small_season()


@pytest.fixture(scope="session")
def tiny_case(tiny: model.Season) -> Case:
    return make_case(tiny, date(2027, 3, 1))


@pytest.fixture(scope="session")
def tiny_plan(tiny: model.Season) -> PlannedSeason:
    return model.plan_season(tiny, date(2027, 3, 1), years=100)


@pytest.fixture
def machine_in(monkeypatch: pytest.MonkeyPatch) -> Iterator[Callable[[str], None]]:
    """Set the clock of the machine to the rules of a time zone, for one test."""
    if not hasattr(time, "tzset"):
        pytest.skip("the rules of this machine's clock cannot be set")

    def set_to(zone: str) -> None:
        monkeypatch.setenv("TZ", zone)
        time.tzset()

    yield set_to
    monkeypatch.undo()
    time.tzset()


def pytest_runtest_logreport(report: pytest.TestReport) -> None:
    if report.when == "call" and report.passed:
        PASSED.add(report.nodeid.partition("[")[0])


def pytest_sessionfinish(session: pytest.Session) -> None:
    """Let a run of the whole suite fail where the test of a need did not run."""
    config = session.config
    whole = config.args == config.getini("testpaths") and not config.option.keyword
    is_worker = hasattr(config, "workerinput")
    if whole and not is_worker and session.exitstatus == pytest.ExitCode.OK:
        missing = not_shown(PASSED)
        if missing:
            print("\nneeds whose test did not pass:", *missing, sep="\n  ")
            session.exitstatus = pytest.ExitCode.TESTS_FAILED
