"""The working beside a figure: its lines, its marks, and the way to what is judged."""

from datetime import date
from pathlib import Path

from streamlit.testing.v1 import AppTest

import model
from dashboard.forms.judgement_form import FILE, judgement_edits
from dashboard.working_behind import PART, SETTING
from model import Edit, Store
from tests.dashboard.seeding import FIRST, begin
from tests.dashboard.steps import labelled, tables, unfold, use, words
from tests.intake.test_first_notes import NORTH


def lean_share(app: AppTest, asked: dict[str, str]) -> AppTest:
    for name, value in asked.items():
        app.query_params[name] = value
    return app.switch_page("views/household.py").run()


def test_a_working_is_worked_out_only_when_it_is_opened(app: AppTest) -> None:
    assert ": to put up, by the plan: " not in words(app)
    assert not any(box.label == "Of" for box in app.selectbox)


def test_the_figures_of_a_chart_are_sent_only_when_they_are_opened(app: AppTest) -> None:
    before = len(tables(app))

    assert len(tables(unfold(app))) > before


def test_the_jars_of_spring_open_to_their_working(app: AppTest) -> None:
    shown = words(unfold(app))

    assert ": to put up, by the plan: " in shown
    assert "portions a week x" in shown
    assert "**a judgement** (what makes a week lean)" in shown


def test_another_preserve_shows_its_own_lines(app: AppTest) -> None:
    labels = [box for box in unfold(app).selectbox if box.label == "Of"]
    labels[-1].set_value("dilled beans").run()

    assert "dilled beans: by the rule of thumb" in words(app)


def test_a_judgement_is_changed_where_its_working_leads(app: AppTest) -> None:
    lean_share(app, {PART: "Judgements", SETTING: "lean_share"})

    assert labelled(app, "selectbox", "Judgement").value == "lean_share"
    labelled(app, "number_input", "In these notes (share of want)").set_value(0.6).run()
    next(
        button for button in app.button if "Save what makes a week lean: 0.6" in button.label
    ).click().run()

    assert "what makes a week lean: 0.6 (share of want)" in words(app)
    assert labelled(app, "number_input", "In these notes (share of want)").value == 0.6


def test_an_unknown_setting_in_the_address_shows_the_first(app: AppTest) -> None:
    lean_share(app, {PART: "Judgements", SETTING: "<b>no such</b>"})

    assert labelled(app, "selectbox", "Judgement").value == "seal_failure_share"
    assert not app.exception


def test_an_unknown_part_in_the_address_shows_the_usual_one(app: AppTest) -> None:
    lean_share(app, {PART: "no such"})

    assert app.segmented_control(key="notes_what").value == "Take along"


def test_going_back_to_the_usual_value_takes_the_row_out(alder_lane: model.Season) -> None:
    row = model.judgement_table(alder_lane).set_index("setting").loc["lean_share"]
    changed = row.copy()
    changed["in_use"] = 0.6
    stored = {7: {"setting": "lean_share", "value": "0.6"}}

    assert judgement_edits(stored, "lean_share", 0.5, changed) == [Edit(FILE, None, 7)]
    assert not judgement_edits(stored, "lean_share", 0.6, changed)
    assert judgement_edits({}, "lean_share", 0.7, row) == [
        Edit(FILE, {"setting": "lean_share", "value": "0.7"})
    ]


def test_every_judgement_has_bounds_that_hold_its_value(alder_lane: model.Season) -> None:
    values = model.judgement_table(alder_lane)

    assert values["setting"].is_unique
    assert (values["least"] <= values["in_use"]).all()
    assert (values["in_use"] <= values["most"]).all()
    assert values["means"].all()
    assert values["says"].all()


def test_what_is_still_a_guess_is_marked_as_one(app: AppTest, store_path: Path) -> None:
    notes = model.first_notes(NORTH, date(2027, 3, 1))
    begin(Store(store_path, FIRST), "Our garden", notes)
    use(app.run(), "Our garden")

    assert "**your guess** (your notes: foods, " in words(unfold(app))
