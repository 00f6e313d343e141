"""The beginning: an invented household, or one of one's own from a dozen answers."""

from datetime import date, timedelta
from importlib.resources import files
from pathlib import Path

import pytest
from streamlit.testing.v1 import AppTest

from dashboard import kept
from model import Store
from tests.dashboard.seeding import FIRST, seeded
from tests.dashboard.steps import labelled, words


@pytest.fixture
def first(store_path: Path) -> AppTest:
    """Give the dashboard as it opens for the first time."""
    assert not store_path.exists()
    return AppTest.from_file(str(files("dashboard") / "app.py"), default_timeout=60).run()


def test_the_first_page_leads_into_an_invented_household(first: AppTest) -> None:
    assert not first.exception
    assert "invented" in words(first)
    first.button(key="demo_Alder Lane").click().run()

    assert not first.exception
    assert "Alder Lane, an invented household" in words(first)


def begun(first: AppTest, altitude: str, children: str = "") -> AppTest:
    """Begin a household that cans in boiling water."""
    first.segmented_control(key="begin_how").set_value("Begin our own").run()
    first.selectbox(key="first_canner").set_value("A boiling-water canner, or a deep pot")
    first.text_input(key="first_altitude").set_value(altitude)
    first.text_input(key="first_children").set_value(children)
    return labelled(first, "button", "Make the first plan").click().run()


def test_a_household_of_one_s_own_is_planned_at_once_and_told_what_to_do_next(
    first: AppTest,
) -> None:
    begun(first, "640 m")

    assert not first.exception
    assert not first.error
    assert "Next: look at what to plant" in words(first)
    assert "how far your frosts vary" in words(first)
    first.button(key="to_plan").click().run()
    assert "Our garden" in words(first)
    assert labelled(first, "selectbox", "Household").value == "Our garden"


def test_after_a_look_round_on_another_day_one_s_own_household_begins_today(
    app: AppTest, store_path: Path
) -> None:
    assert "as of 15 Mar 2027" in words(app)
    app.button(key="another").click().run()
    began = kept.now().date()
    begun(app, "640 m")

    assert not app.exception
    (ours,) = (own for own in Store(store_path, FIRST).households() if own.name == "Our garden")
    rows = Store(store_path, FIRST).rows(ours.household_id, "seasons.csv")
    begins = min(date.fromisoformat(cells["begins"]) for cells in rows.values())
    assert begins <= began + timedelta(days=1)


def test_only_what_is_grown_is_begun_with(first: AppTest, store_path: Path) -> None:
    first.segmented_control(key="begin_how").set_value("Begin our own").run()
    labelled(first, "button_group", "What do you grow").set_value([])
    labelled(first, "button", "Make the first plan").click().run()
    assert "What do you grow: choose one crop at least" in words(first)
    labelled(first, "button_group", "What do you grow").set_value(["tomato", "pea"])
    labelled(first, "button", "Make the first plan").click().run()

    assert not first.exception
    crops = {row["crop"] for row in Store(store_path, FIRST).rows(1, "plantings.csv").values()}
    assert crops == {"tomato", "pea"}


def test_what_is_still_a_guess_is_listed_and_put_right(first: AppTest, store_path: Path) -> None:
    begun(first, "640 m")
    first.button(key="to_plan").click().run()
    assert "rows are guesses still" in words(first)
    assert any(link.label.startswith("Put right crops") for link in first.get("page_link"))
    first.switch_page("views/household.py").run()
    first.segmented_control(key="notes_what").set_value("Guesses").run()

    assert "What is eaten, and how much: " in words(first)
    first.selectbox(key="guess_table").set_value("frosts.csv").run()
    assert labelled(first, "selectbox", "Which").options[0].startswith("last spring frost")
    labelled(first, "text_input", "Late month day").set_value("06-02").run()
    labelled(first, "button", "Save the change").click().run()

    assert not first.exception
    (frost, _) = Store(store_path, FIRST).rows(1, "frosts.csv").values()
    assert (frost["late_month_day"], frost.get("note", "")) == ("06-02", "")
    assert "Frosts: first autumn frost" in words(first)
    first.segmented_control(key="guess_how").set_value("All of them in a table").run()
    assert not first.exception


@pytest.mark.parametrize(
    ("altitude", "told"), [("1.200 m", "can be read in two ways"), ("", "give it, with m or ft")]
)
def test_every_answer_that_cannot_be_used_is_told_at_once_and_nothing_is_begun(
    first: AppTest, altitude: str, told: str
) -> None:
    begun(first, altitude, "4, nine, 40")

    assert not first.exception
    assert first.error[0].value.startswith("2 faults.")
    assert f"Height above the sea: {told}" in words(first).replace("'1.200 m' ", "")
    assert "Ages of the children: nine, 40; write whole years to 17" in words(first)
    assert "Your first plan is made" not in [title.value for title in first.title]


def test_frosts_the_wrong_way_round_and_a_garden_of_nothing_are_told(first: AppTest) -> None:
    first.segmented_control(key="begin_how").set_value("Begin our own").run()
    first.selectbox(key="first_where").set_value("United States").run()
    labelled(first, "number_input", "All beds").set_value(0.0)
    labelled(first, "date_input", "Last frost in spring").set_value(date(2026, 10, 10))
    labelled(first, "date_input", "First frost in autumn").set_value(date(2026, 5, 10))
    labelled(first, "button", "Make the first plan").click().run()

    assert first.error[0].value.startswith("2 faults.")
    assert "All beds together: give more than 0" in words(first)
    assert "the one in spring comes before the one in autumn" in words(first)


def test_who_lives_too_high_for_every_tested_process_is_told_that_nothing_is_canned(
    first: AppTest,
) -> None:
    """USDA Complete Guide: its tables of boiling water end at 8,000 ft."""
    begun(first, "9,500 ft")

    assert "Nothing is canned in this plan" in first.warning[0].value


def test_a_fault_stands_before_the_button_and_is_pointed_to_wherever_the_page_is_scrolled(
    first: AppTest,
) -> None:
    begun(first, "")

    shown = [(one.type, getattr(one, "label", "")) for one in first.main]
    assert shown.index(("error", "")) < shown.index(("button", "Make the first plan"))
    assert [toast.value for toast in first.toast] == [
        "The household could not be begun. Why, stands above the button."
    ]


def test_what_the_gate_refuses_is_refused_in_its_words_before_anything_is_kept(
    first: AppTest,
) -> None:
    first.segmented_control(key="begin_how").set_value("Begin our own").run()
    labelled(first, "number_input", "Hours a week").set_value(200.0)
    labelled(first, "number_input", "All beds").set_value(2e5)
    labelled(first, "button", "Make the first plan").click().run()

    assert "could not be begun" in first.error[0].value
    assert "All beds together" in words(first)
    assert "Hours a week to put things up" in words(first)
    assert ".csv" not in words(first)
    assert "give 0 to 112" in words(first)
    assert "give 0 to 100,000" in words(first)


def test_where_a_household_lives_sets_its_units_and_usual_frosts(first: AppTest) -> None:
    first.segmented_control(key="begin_how").set_value("Begin our own").run()
    assert labelled(first, "date_input", "Last frost").value.month == 5
    first.selectbox(key="first_where").set_value("Elsewhere, southern half").run()
    assert labelled(first, "date_input", "Last frost").value.month == 10
    first.selectbox(key="first_where").set_value("United States").run()
    assert labelled(first, "number_input", "All beds").label.endswith("(ft²)")


def test_of_a_damaged_store_a_copy_is_brought_back(store_path: Path) -> None:
    seeded(store_path)
    copy = Store(store_path, FIRST).back_up(FIRST)
    cut = store_path.read_bytes()[:5000]
    for beside in store_path.parent.glob(f"{store_path.name}-*"):
        beside.unlink()
    store_path.write_bytes(cut)
    page = AppTest.from_file(str(files("dashboard") / "app.py"), default_timeout=60).run()
    assert not page.exception
    assert "cannot be opened" in page.error[0].value
    assert labelled(page, "selectbox", "Copies").value == copy

    page.button(key="bring_back").click().run()
    assert ".damaged" in page.success[0].value
    page.button(key="go_on").click().run()

    assert not page.exception
    assert "Alder Lane" in words(page)
    assert len(Store(store_path, FIRST).households()) == 2
    (aside,) = store_path.parent.rglob("*.damaged")
    assert aside.read_bytes() == cut


@pytest.mark.parametrize(
    ("label", "number"),
    [
        ("All beds together", -4.0),
        ("Freezer space", -5.0),
        ("Shelf for jars", -1.0),
        ("Cool cellar", -1.0),
        ("Hours a week", -2.0),
    ],
)
def test_a_number_below_nought_is_told_and_nothing_is_begun(
    first: AppTest, store_path: Path, label: str, number: float
) -> None:
    first.segmented_control(key="begin_how").set_value("Begin our own").run()
    labelled(first, "number_input", label).set_value(number)
    labelled(first, "button", "Make the first plan").click().run()

    assert not first.exception
    assert "could not be begun" in first.error[0].value
    assert f"{number:g}" in words(first)
    assert not Store(store_path, FIRST).households()
