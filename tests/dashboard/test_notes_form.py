"""The household's own notes: read, read anew, refused, kept."""

from datetime import date

import pytest
from streamlit.testing.v1 import AppTest

from tests.dashboard.steps import bring_in, words, zipped
from tests.small_season import TABLES

MORE_ROOM = "bed,area_m2\nonly bed,60\n"
TOO_SMALL = "bed,area_m2\nonly bed,3\n"


def household(name: str) -> str:
    return TABLES["household.csv"].replace("Tiny", name)


def test_own_notes_are_planned_and_what_was_read_is_said(app: AppTest) -> None:
    bring_in(app, zipped())

    assert not app.exception
    assert not app.error
    assert app.success[0].value == "Read: Tiny, 2 plantings, 4 preserves"
    assert "bush bean" in set(app.dataframe[0].value["crop"])


def test_a_changed_file_of_the_same_name_is_read_anew(app: AppTest) -> None:
    bring_in(app, zipped())
    bring_in(app, zipped(household=household("Less tiny")))

    assert app.success[0].value.startswith("Read: Less tiny")
    assert "Less tiny" in words(app)


def test_own_notes_are_still_there_after_looking_at_a_demo(app: AppTest) -> None:
    bring_in(app, zipped())
    app.radio(key="household").set_value("Two Rivers").run()
    assert "Two Rivers" in words(app)
    app.radio(key="household").set_value("My own").run()

    assert app.success[0].value.startswith("Read: Tiny")
    assert "bush bean" in set(app.dataframe[0].value["crop"])


def test_faulty_notes_list_every_fault_and_leave_the_notes_in_use(app: AppTest) -> None:
    plantings = TABLES["plantings.csv"].replace("bush bean", "bush baen")
    bring_in(app, zipped(plantings=plantings, beds="bed,area_m2\nonly bed,-3\n"))

    assert app.error[0].value.endswith("faults. The notes in use stay as they were.")
    assert "bush bean" in words(app)
    assert "beds.csv row 2" in words(app)
    assert "Alder Lane" in words(app)
    assert len(app.dataframe[0].value) == 27


def test_one_fault_is_one_fault(app: AppTest) -> None:
    bring_in(app, zipped(foods=TABLES["foods.csv"].replace(",3,8,4,", ",-3,8,4,")))

    assert app.error[0].value.startswith("1 fault. ")


def test_notes_that_pass_the_gate_but_cannot_be_planned_are_refused(app: AppTest) -> None:
    bring_in(app, zipped())
    bring_in(app, zipped(beds=TOO_SMALL, household=household("Crowded")))

    assert not app.exception
    assert "stay as they were" in app.error[0].value
    assert "only bed" in words(app)
    assert "Crowded" not in words(app)
    assert "Tiny" in words(app)


def test_a_day_that_cannot_be_planned_lists_its_faults_and_not_a_traceback(app: AppTest) -> None:
    two = TABLES["seasons.csv"] + "2028,2028-01-01,2028-12-31\n"
    bring_in(app, zipped(seasons=two))
    assert not app.error
    app.date_input[0].set_value(date(2028, 3, 1)).run()

    assert not app.exception
    assert "cannot be planned from 1 Mar 2028" in app.error[0].value
    assert "seasons.csv" in words(app)


@pytest.mark.parametrize("content", [b"", b"not a zip", b"PK\x03\x04" + b"\x00" * 60])
def test_what_is_no_zip_is_refused(app: AppTest, content: bytes) -> None:
    bring_in(app, content)

    assert not app.exception
    assert app.error
