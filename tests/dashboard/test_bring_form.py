"""The household's own notes: read, refused, kept as a new household or in place of another."""

from datetime import date

import pytest
from streamlit.testing.v1 import AppTest

from dashboard.cached import read_file
from model import SeasonProblems
from tests.dashboard.steps import bring_in, labelled, tables, unfold, use, words, zipped
from tests.small_season import TABLES

TOO_SMALL = "bed,area_m2\nonly bed,3\n"


def household(name: str) -> str:
    return TABLES["household.csv"].replace("Tiny", name)


def kept_as_new(app: AppTest) -> AppTest:
    app.button(key="bring_new").click().run()
    return app.switch_page("views/spring.py").run()


def test_own_notes_are_planned_and_what_was_read_is_said(app: AppTest) -> None:
    bring_in(app, zipped())

    assert not app.exception
    assert not app.error
    assert app.success[0].value == "Read: Tiny, 2 plantings, 4 preserves"
    assert "bush bean" in set(tables(kept_as_new(app))[0]["crop"])
    assert labelled(app, "selectbox", "Household").value == "Tiny"


def test_notes_of_a_name_that_is_taken_become_a_household_of_their_own(app: AppTest) -> None:
    bring_in(app, zipped())
    kept_as_new(app)
    bring_in(app, zipped())
    kept_as_new(app)

    options = labelled(app, "selectbox", "Household").options
    assert {"Tiny", "Tiny 2"} <= set(options)


def test_notes_put_in_the_place_of_others_can_be_taken_back(app: AppTest) -> None:
    bring_in(app, zipped())
    app.button(key="bring_here").click().run()
    app.switch_page("views/spring.py").run()
    assert "Tiny" in words(app)
    app.switch_page("views/log.py").run()
    app.segmented_control(key="log_what").set_value("What was written").run()
    unfold(app)
    labelled(app, "button", "Take this back").click().run()
    app.switch_page("views/spring.py").run()

    assert not app.exception
    assert "Alder Lane, an invented household" in words(app)


def test_own_notes_are_still_there_after_looking_at_a_demo(app: AppTest) -> None:
    bring_in(app, zipped())
    kept_as_new(app)
    use(app, "Two Rivers")
    assert "Two Rivers" in words(app)
    use(app, "Tiny")

    assert "bush bean" in set(tables(app)[0]["crop"])


def test_faulty_notes_list_every_fault_and_leave_the_notes_in_use(app: AppTest) -> None:
    plantings = TABLES["plantings.csv"].replace("bush bean", "bush baen")
    bring_in(app, zipped(plantings=plantings, beds="bed,area_m2\nonly bed,-3\n"))

    assert app.error[0].value.endswith("faults. The notes in use stay as they were.")
    assert "bush bean" in words(app)
    assert "beds.csv row 2" in words(app)
    assert "Alder Lane" in words(app)
    assert not [button for button in app.button if button.key == "bring_new"]


def test_one_fault_is_one_fault(app: AppTest) -> None:
    bring_in(app, zipped(foods=TABLES["foods.csv"].replace(",3,8,4,", ",-3,8,4,")))

    assert app.error[0].value.startswith("1 fault. ")


def test_notes_that_pass_the_gate_but_cannot_be_planned_are_refused(app: AppTest) -> None:
    bring_in(app, zipped(beds=TOO_SMALL, household=household("Crowded")))

    assert not app.exception
    assert "stay as they were" in app.error[0].value
    assert "only bed" in words(app)
    assert "Crowded" not in words(app)


def test_a_day_that_cannot_be_planned_lists_its_faults_and_not_a_traceback(app: AppTest) -> None:
    two = TABLES["seasons.csv"] + "2028,2028-01-01,2028-12-31\n"
    bring_in(app, zipped(seasons=two))
    assert not app.error
    kept_as_new(app)
    app.date_input[0].set_value(date(2028, 3, 1)).run()

    assert not app.exception
    assert "cannot be planned from 1 Mar 2028" in app.error[0].value
    assert "seasons.csv" in words(app)


@pytest.mark.parametrize("content", [b"", b"not a zip", b"PK\x03\x04" + b"\x00" * 60])
def test_what_is_no_zip_is_refused(app: AppTest, content: bytes) -> None:
    bring_in(app, content)

    assert not app.exception
    assert app.error


def test_a_file_is_read_once_while_it_lies_there() -> None:
    good, bad = zipped(), zipped(beds="bed,area_m2\nonly bed,none\n")

    assert read_file("ours.zip", good) is read_file("ours.zip", good)
    assert read_file("ours.zip", bad) is read_file("ours.zip", bad)
    assert isinstance(read_file("ours.zip", bad), SeasonProblems)
