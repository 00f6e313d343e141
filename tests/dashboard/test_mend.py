"""What was written is mended: one entry by thumb, or many in a table."""

from datetime import date, time
from pathlib import Path

import pandas as pd
import pytest
from streamlit.testing.v1 import AppTest

from dashboard.forms.edited import edits_between
from dashboard.forms.weighed import weighed_anew
from model import GUESS, Edit, Season, container_kg
from tests.dashboard.seeding import rows
from tests.dashboard.steps import labelled, look, part, unfold

GLUT, LOG = date(2027, 8, 16), "views/log.py"


@pytest.fixture
def log(app: AppTest) -> AppTest:
    return look(app, "Alder Lane", GLUT, LOG)


def up_to_now(picked: list[dict[str, str]]) -> int:
    """Give the place of the last picking that is not of a day to come."""
    return max(i for i, row in enumerate(picked) if row["picked_on"] <= f"{GLUT}")


def test_one_entry_is_mended_by_thumb_and_dated_back(log: AppTest, store_path: Path) -> None:
    before = rows(store_path, "harvest_log.csv")
    part(log, "Correct or add")
    labels = [box.label for box in log.text_input]

    assert labelled(log, "selectbox", "Which").options[0].endswith(" kg")
    assert "Picked kg" in labels
    assert "Number" not in labels  # what this picking was not measured in is not asked for
    labelled(log, "text_input", "Picked kg").set_value("3.5").run()
    labelled(log, "date_input", "Picked on").set_value(date(2026, 9, 30)).run()
    labelled(log, "button", "Save the change").click().run()

    newest = up_to_now(before)
    changed = {"picked_kg": "3.5", "picked_on": "2026-09-30"}
    after = rows(store_path, "harvest_log.csv")
    assert after[newest] == {**before[newest], **changed}
    assert after[:newest] + after[newest + 1 :] == before[:newest] + before[newest + 1 :]
    part(log, "What was written")
    assert any("Picked:" in text.value for text in log.text)
    unfold(log)
    assert any(text.value.endswith("now 30 Sep 2026 · 3.5 kg") for text in log.text)
    assert not any(".csv" in text.value for text in log.text)


def test_a_picking_s_number_and_container_weigh_anew_and_a_weight_stands_alone(
    tiny: Season,
) -> None:
    was = {"picked_on": "2027-08-01", "crop": "tomato", "picked_kg": "9", "number": "2"}
    was["container"] = "bucket"
    kg = container_kg(tiny, "tomato")

    def mended(**cells: str) -> dict[str, str]:
        (edit,) = weighed_anew(tiny, [Edit("harvest_log.csv", {**was, **cells}, 4)], {4: was})
        return dict(edit.cells or {})

    assert mended(number="1")["picked_kg"] == "4.5"
    assert float(mended(container="trug")["picked_kg"]) == pytest.approx(2 * kg["trug"])
    assert mended(picked_kg="7") == {
        "picked_on": "2027-08-01",
        "crop": "tomato",
        "picked_kg": "7",
    }
    assert mended(picked_on="2027-08-02")["picked_kg"] == "9"


def test_the_end_of_a_process_is_mended_by_the_clock(log: AppTest, store_path: Path) -> None:
    part(log, "Put up")
    labelled(log, "button_group", "Preserve").set_value("crushed tomatoes").run()
    labelled(log, "time_input", "Last process ended").set_value(time(9, 50)).run()
    labelled(log, "button", "Save").click().run()
    part(log, "Correct or add")
    labelled(log, "selectbox", "Entries").set_value("Put up").run()
    labelled(log, "time_input", "Finished at").set_value(time(8, 50)).run()
    labelled(log, "button", "Save the change").click().run()

    assert rows(store_path, "batches.csv")[-1]["finished_at"] == "2027-08-16T08:50+02:00"


def test_an_entry_mended_into_nonsense_is_not_written(log: AppTest, store_path: Path) -> None:
    before = rows(store_path, "harvest_log.csv")
    part(log, "Correct or add")
    labelled(log, "text_input", "Picked kg").set_value("-1e9").run()
    labelled(log, "button", "Save the change").click().run()

    assert "Nothing was written" in log.error[0].value
    assert any(text.value.startswith("Picked\n") for text in log.text)
    assert not any(".csv" in text.value for text in log.text)
    assert rows(store_path, "harvest_log.csv") == before


def test_one_entry_is_taken_out_and_undone(log: AppTest, store_path: Path) -> None:
    before = rows(store_path, "harvest_log.csv")
    part(log, "Correct or add")
    labelled(log, "button", "Take this entry out").click().run()

    newest = up_to_now(before)
    assert rows(store_path, "harvest_log.csv") == before[:newest] + before[newest + 1 :]
    labelled(log, "button", "Undo").click().run()
    assert rows(store_path, "harvest_log.csv") == before


def test_a_bed_is_made_larger_among_the_notes(app: AppTest, store_path: Path) -> None:
    (first, *_) = before = rows(store_path, "beds.csv")
    page = look(app, "Alder Lane", GLUT, "views/household.py")
    page.segmented_control(key="notes_what").set_value("Change the notes").run()
    labelled(page, "selectbox", "Entries").set_value("Beds").run()
    chooser = labelled(page, "selectbox", "Which")
    chooser.select(next(told for told in chooser.options if told.startswith(first["bed"]))).run()
    labelled(page, "text_input", "Area m2").set_value("95").run()
    labelled(page, "button", "Save the change").click().run()

    assert not page.exception
    after = rows(store_path, "beds.csv")
    assert {**first, "area_m2": "95"} in after
    assert len(after) == len(before)


def test_a_guess_that_was_changed_is_a_guess_no_more() -> None:
    before = [(3, {"food": "peas", "portions_a_week": "1", "note": GUESS})]
    same = pd.DataFrame([before[0][1]])

    assert edits_between("foods.csv", before, same) == []
    changed = same.assign(portions_a_week=["2"])
    (edit,) = edits_between("foods.csv", before, changed)
    assert edit.cells == {"food": "peas", "portions_a_week": "2"}


def test_a_table_of_entries_becomes_corrections_withdrawals_and_new_rows() -> None:
    before = [(7, {"crop": "pea", "picked_kg": "2"}), (9, {"crop": "kale", "picked_kg": "1"})]
    after = pd.DataFrame(
        {"crop": ["pea", "leek", "bean"], "picked_kg": ["3", None, " 4 "]}, index=[0, 2, 3]
    )

    assert list(edits_between("harvest_log.csv", before, after)) == [
        Edit("harvest_log.csv", {"crop": "pea", "picked_kg": "3"}, 7),
        Edit("harvest_log.csv", {"crop": "leek"}),
        Edit("harvest_log.csv", {"crop": "bean", "picked_kg": "4"}),
        Edit("harvest_log.csv", None, 9),
    ]
