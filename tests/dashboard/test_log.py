"""Write down: pickings, batches, seals, what left the shelf; taken back, corrected, readable."""

from datetime import date, time
from pathlib import Path

import pytest
from streamlit.testing.v1 import AppTest

from dashboard.words import pieces
from model import Author, Edit, Store
from tests.dashboard.seeding import ALDER_LANE, FIRST, rows
from tests.dashboard.steps import labelled, look, unfold, use, words

GLUT, LOG = date(2027, 8, 16), "views/log.py"


@pytest.fixture
def log(app: AppTest) -> AppTest:
    return look(app, "Alder Lane", GLUT, LOG)


def part(log: AppTest, name: str) -> AppTest:
    control = log.segmented_control(key="log_what")
    option = next(option for option in control.options if option.startswith(name))
    return control.set_value(option).run()


def pill(log: AppTest, label: str, value: object) -> AppTest:
    return labelled(log, "button_group", label).set_value(value).run()


def test_a_picking_is_written_with_a_crop_a_number_and_save(log: AppTest, store_path: Path) -> None:
    before = rows(store_path, "harvest_log.csv")
    pill(log, "Crop", "bush bean")
    pill(log, "How many", "2")
    labelled(log, "button", "Save").click().run()

    assert not log.exception
    written = rows(store_path, "harvest_log.csv")[len(before) :]
    assert [(row["picked_on"], row["crop"], row["picked_kg"]) for row in written] == [
        ("2027-08-16", "bush bean", "2")
    ]
    assert "Picked 2 kg of bush bean" in words(log)


def test_a_weight_is_said_once_and_one_that_cannot_be_is_asked_about_but_saved(
    log: AppTest, store_path: Path
) -> None:
    pill(log, "Crop", "tomato")
    labelled(log, "number_input", "Another number").set_value(500.0).run()

    assert labelled(log, "button", "Save").label == "Save: 500 kg of tomato, on 16 Aug"
    assert "times what the whole season should give" in log.warning[0].value
    labelled(log, "button", "Save").click().run()
    assert "Say first that it is right" in log.warning[1].value
    assert rows(store_path, "harvest_log.csv")[-1]["picked_kg"] != "500"
    labelled(log, "toggle", "It is right").set_value(True).run()
    labelled(log, "button", "Save").click().run()
    assert rows(store_path, "harvest_log.csv")[-1]["picked_kg"] == "500"
    assert not log.warning


def test_what_was_picked_in_a_bucket_is_told_with_its_weight(log: AppTest) -> None:
    pill(log, "Crop", "tomato")
    pill(log, "How many", "1")
    pill(log, "Counted in", "bucket")

    assert labelled(log, "button", "Save").label.startswith("Save: 1 bucket of tomato, ")
    assert "kg, on 16 Aug" in labelled(log, "button", "Save").label
    assert not log.warning


def test_what_was_written_is_taken_back_at_once_and_stays_readable(
    log: AppTest, store_path: Path
) -> None:
    before = rows(store_path, "harvest_log.csv")
    pill(log, "Crop", "tomato")
    pill(log, "How many", "3")
    labelled(log, "button", "Save").click().run()
    log.button(key="undo_written").click().run()

    assert log.toast[-1].value == "Taken back."
    assert rows(store_path, "harvest_log.csv") == before
    part(log, "What was written")
    newest, before = [own.label for own in log.expander][:2]
    assert newest.endswith("Picked 3 kg of tomato, on 16 Aug")
    assert "taken back · Picked 3 kg of tomato" in before
    unfold(log)
    assert "Picked 3 kg of tomato" in words(log)
    assert "Taken back: Picked 3 kg of tomato" in words(log)
    assert "Picked: 16 Aug 2027 · tomato · " in words(log)
    assert "number 3" in words(log)


def test_undo_stands_only_with_the_household_that_was_written_to(log: AppTest) -> None:
    pill(log, "Crop", "tomato")
    pill(log, "How many", "3")
    labelled(log, "button", "Save").click().run()
    use(log, "Two Rivers")
    assert not any(button.key == "undo_written" for button in log.button)

    use(log, "Alder Lane")
    assert any(button.key == "undo_written" for button in log.button)


def test_undo_stands_only_on_the_page_that_was_written_on(log: AppTest) -> None:
    pill(log, "Crop", "tomato")
    pill(log, "How many", "3")
    labelled(log, "button", "Save").click().run()
    log.switch_page("views/larder.py").run()
    log.switch_page(LOG).run()

    assert not any(button.key == "undo_written" for button in log.button)


def test_the_container_used_last_is_offered_first(log: AppTest) -> None:
    pill(log, "Crop", "tomato")
    pill(log, "How many", "1")
    pill(log, "Counted in", "bucket")
    labelled(log, "button", "Save").click().run()
    pill(log, "Crop", "tomato")

    assert labelled(log, "button_group", "Counted in").value == "bucket"


def test_a_batch_counts_once_its_seals_were_looked_at(log: AppTest, store_path: Path) -> None:
    part(log, "Sealed")
    assert labelled(log, "selectbox", "Batch").value == "2027-08-15 corn relish"
    pill(log, "Sealed, of 6 filled", "5")

    assert "Until" in log.warning[0].value
    assert "21:10" in log.warning[0].value
    assert "From 21:10 on 16 Aug on**: After 24 hours" in words(log)
    assert labelled(log, "button_group", "Where they go").options[-1] == "thrown away"
    before = rows(store_path, "seals.csv")
    labelled(log, "button", "Save").click().run()
    assert "where those went that did not" in log.warning[-1].value
    assert rows(store_path, "seals.csv") == before
    pill(log, "Where they go", "refrigerated")
    labelled(log, "button", "Save").click().run()
    assert rows(store_path, "seals.csv")[-1] == {
        "batch": "2027-08-15 corn relish",
        "checked_on": "2027-08-16",
        "sealed": "5",
        "failed_went": "refrigerated",
    }
    shown = labelled(log, "button_group", "What")
    assert shown.options[2] == "Sealed"
    assert shown.value == "Sealed", "who looks at one batch after another stays where they are"


def lids(store_path: Path) -> int:
    """Give the new lids for the jars of crushed tomatoes."""
    (jar,) = (r for r in rows(store_path, "preserves.csv") if r["preserve"] == "crushed tomatoes")
    (own,) = (r for r in rows(store_path, "jars.csv") if r["jar"] == jar["jar"])
    return int(own["lids"])


def test_a_batch_is_put_up_with_its_name_and_moment(log: AppTest, store_path: Path) -> None:
    part(log, "Put up")
    pill(log, "Preserve", "crushed tomatoes")
    before = rows(store_path, "batches.csv"), lids(store_path)
    labelled(log, "button", "Save").click().run()
    assert "Say when its last process ended." in log.warning[-1].value
    assert (rows(store_path, "batches.csv"), lids(store_path)) == before
    labelled(log, "time_input", "Last process ended").set_value(time(10, 0)).run()
    labelled(log, "button", "Save").click().run()

    assert not log.exception
    assert lids(store_path) == before[1] - 7
    last = rows(store_path, "batches.csv")[-1]
    assert (last["batch"], last["filled"]) == ("2027-08-16 crushed tomatoes", "7")
    assert last["finished_at"] == "2027-08-16T10:00+02:00"
    # the new jars have to stand first
    assert "1 to look at" in labelled(log, "button_group", "What").options[2]
    assert "1 batch waits for a look at the seals" in words(log)
    assert "1 batch stands untouched before the seals are due" in words(log)


def test_what_is_taken_leaves_the_shelf_by_the_book(log: AppTest, store_path: Path) -> None:
    part(log, "Taken")
    pill(log, "What was taken", "apple sauce")
    labelled(log, "button", "Save").click().run()

    assert rows(store_path, "taken.csv")[-1] == {
        "taken_on": "2027-08-16",
        "preserve": "apple sauce",
        "jars": "1",
        "why": "eaten",
    }


def test_what_is_taken_on_the_day_of_a_count_says_whether_before_or_after_it(
    log: AppTest, store_path: Path
) -> None:
    store = Store(store_path, FIRST)
    counted = {
        "counted_on": "2027-08-16",
        "preserve": "apple sauce",
        "jars": "4",
        "put_up_on": "2026-10-01",
    }
    store.write(ALDER_LANE, Author("count", FIRST, "", "counted"), [Edit("stock.csv", counted)])
    before = rows(store_path, "taken.csv")
    part(log, "Taken")
    pill(log, "What was taken", "apple sauce")

    labelled(log, "button", "Save").click().run()
    assert rows(store_path, "taken.csv") == before
    assert "is in the count already" in words(log)
    pill(log, "Apple sauce: counted on", "after the count")
    labelled(log, "button", "Save").click().run()
    (written,) = rows(store_path, "taken.csv")[len(before) :]
    assert (written["taken_on"], written["jars"]) == ("2027-08-16", "1")
    assert written["of_counted"] == "4"


def test_a_jar_that_was_not_finished_is_noted(log: AppTest, store_path: Path) -> None:
    part(log, "Taken")
    pill(log, "What was taken", "apple sauce")
    labelled(log, "toggle", "Not finished").set_value(True).run()
    labelled(log, "button", "Save").click().run()

    assert rows(store_path, "taken.csv")[-1]["unfinished"] == "yes"


def test_how_many_to_fill_stands_where_a_batch_is_written_down(log: AppTest) -> None:
    look(log, "Alder Lane", GLUT, "views/this_week.py")
    look(log, "Alder Lane", GLUT, LOG)
    part(log, "Put up")
    pill(log, "Preserve", "crushed tomatoes")

    assert "sealed jars** more: fill" in words(log)
    assert "nine times in ten" in words(log)


def test_containers_are_said_as_people_say_them() -> None:
    assert [pieces(2, "bunch"), pieces(2, "trug"), pieces(2, "kg"), pieces(0.5, "trug")] == [
        "2 bunches",
        "2 trugs",
        "2 kg",
        "0.5 trug",
    ]


def test_the_bell_leads_to_the_seals_and_says_by_when(app: AppTest) -> None:
    week = look(app, "Alder Lane", GLUT, "views/this_week.py")
    bells = [link.label for link in week.get("page_link") if "seals of" in link.label]

    # demo_data/alder_lane/batches.csv: its process ended on 15 August at 21:10
    assert bells == ["Look at the seals of corn relish by 21:10 on 16 Aug"]
    week.query_params["open"] = "seals"
    log = week.switch_page("views/log.py").run()
    assert log.segmented_control(key="log_what").value == "Sealed"
