"""What was put up is written down with the moment its process ended, or refused."""

from collections.abc import Callable
from datetime import date, datetime, time, timedelta
from pathlib import Path
from zoneinfo import ZoneInfo

import pytest
from streamlit.testing.v1 import AppTest

from dashboard import kept
from dashboard.forms.put_up_form import is_to_come, moment_text
from tests.dashboard.seeding import rows
from tests.dashboard.steps import labelled, look

GLUT, LOG = date(2027, 8, 16), "views/log.py"
LONDON = ZoneInfo("Europe/London")


@pytest.mark.parametrize(
    ("day", "moment"),
    [
        # the evenings before and after the clocks go back on 31 October 2027 and forward on
        # 28 March: the offset is that of the evening, whenever it is written down
        (date(2027, 10, 30), "2027-10-30T19:40+01:00"),
        (date(2027, 10, 31), "2027-10-31T19:40+00:00"),
        (date(2027, 3, 27), "2027-03-27T19:40+00:00"),
        (date(2027, 3, 28), "2027-03-28T19:40+01:00"),
    ],
)
@pytest.mark.parametrize("zone", [LONDON, None])
def test_a_clock_time_is_written_with_the_offset_of_its_own_day(
    machine_in: Callable[[str], None], day: date, moment: str, zone: ZoneInfo | None
) -> None:
    machine_in("Europe/London")

    assert moment_text(day, time(19, 40), zone) == moment


@pytest.fixture
def log(app: AppTest) -> AppTest:
    return look(app, "Alder Lane", GLUT, LOG)


def begin(log: AppTest, name: str) -> AppTest:
    control = log.segmented_control(key="log_what")
    return control.set_value(next(o for o in control.options if o.startswith(name))).run()


def pill(log: AppTest, label: str, value: object) -> AppTest:
    return labelled(log, "button_group", label).set_value(value).run()


def put_up_tomatoes(log: AppTest, ended: time, filled: float = 6.0) -> AppTest:
    begin(log, "Put up")
    pill(log, "Preserve", "crushed tomatoes")
    labelled(log, "number_input", "How many were filled").set_value(filled).run()
    return labelled(log, "time_input", "Last process ended").set_value(ended).run()


def refused(log: AppTest, store_path: Path) -> str:
    """Tap Save, and give what is said instead of writing a batch."""
    before = rows(store_path, "batches.csv")
    labelled(log, "button", "Save").click().run()
    assert rows(store_path, "batches.csv") == before
    return log.warning[-1].value


def test_part_of_a_jar_is_not_written(log: AppTest, store_path: Path) -> None:
    put_up_tomatoes(log, time(9, 0), filled=6.5)

    assert refused(log, store_path) == "Say it in whole jars."


@pytest.mark.parametrize(
    ("looked_from", "ended", "to_come"),
    [
        (GLUT, time(14, 3), False),
        (GLUT, time(14, 10), True),
        (GLUT - timedelta(days=1), time(23, 50), False),
        (GLUT - timedelta(days=1), time(14, 10), False),
    ],
)
def test_a_process_that_still_runs_has_not_ended_and_yesterday_s_have(
    looked_from: date, ended: time, *, to_come: bool
) -> None:
    clock = datetime.combine(GLUT, time(14), LONDON)
    moment = datetime.combine(looked_from, ended, LONDON)

    assert is_to_come(moment, looked_from, clock) is to_come


def test_an_end_to_come_is_not_written_down(app: AppTest, store_path: Path) -> None:
    today = kept.now().astimezone(ZoneInfo("Europe/Vienna"))  # where Alder Lane is
    if today.time() > time(23, 50):
        pytest.skip("in the last minutes of a day nothing of it is still to come")
    log = look(app, "Alder Lane", today.date(), LOG)
    put_up_tomatoes(log, time(23, 59))

    assert "still to come" in refused(log, store_path)


def test_jars_that_stood_for_more_than_a_day_are_not_put_up_again(
    log: AppTest, store_path: Path
) -> None:
    """Iowa State University Extension: after 24 hours an unsealed jar is thrown away."""
    put_up_tomatoes(log, time(9, 0))
    labelled(log, "button", "Save").click().run()
    look(log, "Alder Lane", GLUT + timedelta(days=2), LOG)
    put_up_tomatoes(log, time(8, 0), filled=2.0)
    again = labelled(log, "selectbox", "Unsealed jars processed again")
    again.set_value(again.options[0]).run()

    assert "thrown away, untasted" in log.error[0].value
    assert "not put up again" in refused(log, store_path)


def test_what_was_done_in_time_is_written_down_after_the_limit_too(log: AppTest) -> None:
    """The lids were pressed yesterday, within the 24 hours; today nothing is saved any more."""
    put_up_tomatoes(log, time(9, 0))
    labelled(log, "button", "Save").click().run()
    look(log, "Alder Lane", GLUT + timedelta(days=1), LOG)
    begin(log, "Sealed")
    labelled(log, "selectbox", "Batch").set_value("2027-08-16 crushed tomatoes").run()
    pill(log, "Sealed, of 6 filled", "5")
    assert labelled(log, "button_group", "Where they go").options == ["thrown away"]
    pill(log, "Looked at on", "yesterday")

    assert "refrigerated" in labelled(log, "button_group", "Where they go").options
