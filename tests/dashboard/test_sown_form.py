"""What was sown is written down, and is no choice and no guess of the plan's any more."""

from dataclasses import replace
from datetime import date
from pathlib import Path

from streamlit.testing.v1 import AppTest

from dashboard.words import short_day
from model import Author, Store, first_notes
from tests.dashboard.seeding import FIRST, rows
from tests.dashboard.steps import labelled, look, part, tables, words
from tests.intake.test_first_notes import NORTH

SPRING, LOG, WEEK = date(2027, 3, 15), "views/log.py", "views/this_week.py"


def plantings(store: Path, crop: str) -> list[dict[str, str]]:
    found = rows(store, "plantings.csv")
    return [row for row in found if (row["crop"], row["season"]) == (crop, "2027")]


def test_what_was_sown_fixes_how_much_of_it_and_when(app: AppTest, store_path: Path) -> None:
    (before,) = plantings(store_path, "pepper")
    log = look(app, "Alder Lane", SPRING, LOG)
    part(log, "Sown")
    chooser = labelled(log, "selectbox", "What was sown")
    peppers = next(option for option in chooser.options if option.startswith("pepper"))
    chooser.select(peppers).run()
    labelled(log, "number_input", "How much (plants)").set_value(9).run()
    labelled(log, "button", f"Save: 9 plants of pepper in south bed, {short_day(SPRING)}").click()
    log.run()

    assert not log.exception
    (after,) = plantings(store_path, "pepper")
    fixed = {"plants": "9", "sown": "2027-03-15", "least_percent": "100", "most_percent": "100"}
    assert after == {**before, **fixed, "done": "sown"}
    labelled(log, "button", "Undo").click().run()
    assert plantings(store_path, "pepper") == [before]


def test_what_is_offered_is_the_plan_s_after_a_save_too(app: AppTest) -> None:
    log = look(app, "Alder Lane", SPRING, LOG)
    part(log, "Sown")

    def offered(crop: str) -> float:
        chooser = labelled(log, "selectbox", "What was sown")
        chooser.select(next(one for one in chooser.options if one.startswith(crop))).run()
        return labelled(log, "number_input", "How much").value

    # as Spring says, where the notes have 24 and 16
    assert offered("paste tomato") > 30
    assert offered("tomato") > 20
    labelled(log, "button", "Save: ").click().run()
    assert offered("paste tomato") > 30


def test_what_was_written_down_as_sown_is_not_asked_for_again(app: AppTest) -> None:
    def asked() -> list[str]:
        week = look(app, "Alder Lane", SPRING, WEEK)
        (sow_now,) = tables(week, "task", "start_when")[:1]
        return list(sow_now[sow_now["crop"] == "pepper"]["task"])

    assert asked() == ["sow, to plant out later"]
    log = look(app, "Alder Lane", SPRING, LOG)
    part(log, "Sown")
    chooser = labelled(log, "selectbox", "What was sown")
    chooser.select(next(one for one in chooser.options if one.startswith("pepper"))).run()
    labelled(log, "button", "Save: ").click().run()
    assert asked() == []
    look(app, "Alder Lane", SPRING, LOG)
    part(app, "Sown")
    chooser = labelled(app, "selectbox", "What was sown")
    (pepper,) = [one for one in chooser.options if one.startswith("pepper")]
    assert "sown 15 Mar, to plant out" in pepper
    assert chooser.options.index(pepper) > 0


def test_nothing_is_written_of_what_was_not_sown_at_all(app: AppTest, store_path: Path) -> None:
    before = rows(store_path, "plantings.csv")
    log = look(app, "Alder Lane", SPRING, LOG)
    part(log, "Sown")
    labelled(log, "number_input", "How much").set_value(0.0).run()
    labelled(log, "button", "Save: ").click().run()

    assert "Say how much" in log.warning[-1].value
    assert rows(store_path, "plantings.csv") == before


def test_the_week_s_sowing_leads_to_where_it_is_written_down(app: AppTest) -> None:
    week = look(app, "Alder Lane", SPRING, WEEK)

    labels = [link.label for link in week.get("page_link")]
    assert "Write down what was sown or planted" in labels
    assert "Sow and plant out" in words(week) + " ".join(s.value for s in week.subheader)


def test_what_nobody_wrote_down_as_sown_is_asked_for_all_season(
    app: AppTest, store_path: Path
) -> None:
    notes = first_notes(replace(NORTH, household="Silent"), date(2027, 3, 27))
    Store(store_path, FIRST).begin("Silent", notes, Author("begin", FIRST, "", "begun"))
    week = look(app.run(), "Silent", date(2027, 8, 20), WEEK)
    asked = next(one.value for one in week.markdown if "Was it sown?" in one.value)
    assert "beetroot, bush bean" in asked

    week.switch_page(LOG).run()
    part(week, "Sown")
    offered = labelled(week, "selectbox", "What was sown").options
    # its day was four months ago
    assert any(one.startswith("potato") for one in offered)


def test_of_invented_gardens_all_that_stands_is_written_down(app: AppTest) -> None:
    assert "Was it sown?" not in words(look(app, "Alder Lane", date(2027, 8, 20), WEEK))
