"""Review: the year's balance, verdicts, next year's draft."""

from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest
from streamlit.testing.v1 import AppTest

from dashboard.record_findings import young_record_words
from model import (
    FREEZER_DIED,
    Author,
    Edit,
    Store,
    first_notes,
    ledgers,
    season_from_tables,
    write_off,
)
from tests.dashboard.seeding import FIRST, rows
from tests.dashboard.steps import labelled, look, table_with, use, words
from tests.intake.test_first_notes import NORTH
from tests.recorded import batch, recorded

MIDWINTER, REVIEW = date(2028, 1, 10), "views/review.py"
ALDER_LANE = 2


@pytest.fixture
def review(app: AppTest) -> AppTest:
    return look(app, "Alder Lane", MIDWINTER, REVIEW)


def part(review: AppTest, name: str) -> AppTest:
    return review.segmented_control(key="review_what").set_value(name).run()


def test_every_preserve_of_the_year_has_its_balance(review: AppTest) -> None:
    rows = table_with(review, "meant_units", "eaten_units", "left")

    assert "freezer packs put up" in words(review)
    assert "are known to have sealed" in words(review)
    assert set(rows["preserve"]) >= {"crushed tomatoes", "frozen beans"}


def test_a_season_that_is_over_is_told_on_every_page_and_the_next_begins_without_a_record(
    app: AppTest, store_path: Path
) -> None:
    tables = first_notes(replace(NORTH, household="Long ago"), date(2024, 3, 27))
    store = Store(store_path, FIRST)
    store.begin("Long ago", tables, Author("begin", FIRST, "", "begun"))
    use(app.run(), "Long ago")
    assert "The last season of these notes ended on" in app.warning[0].value
    app.switch_page(REVIEW).run()
    labelled(app, "button", "Begin season 2025").click().run()

    assert not app.exception
    assert "Season 2025 begun" in words(app)


def test_a_draft_from_an_old_count_asks_for_another_first(app: AppTest) -> None:
    review = look(app, "Two Rivers", date(2027, 2, 20), REVIEW)

    assert "**Count first**" in words(review)
    assert "19 weeks ago" in words(review)


def test_a_draft_from_a_record_of_some_weeks_is_doubted(review: AppTest) -> None:
    season = recorded(batches=(batch("A", date(2027, 8, 16), 7),))

    assert "the record is 8 weeks old" in young_record_words(season, date(2027, 10, 16))
    assert young_record_words(season, date(2028, 6, 1)) == ""
    # Alder Lane has counted since 2026
    assert "Too early to be sure" not in words(review)


def test_a_count_too_low_to_be_eating_is_asked_for_again(app: AppTest, store_path: Path) -> None:
    cells = {"counted_on": "2028-01-10", "preserve": "frozen beans", "jars": "5"}
    low = Edit("stock.csv", {**cells, "put_up_on": "2027-08-28"})
    Store(store_path, FIRST).write(ALDER_LANE, Author("count", FIRST, "", "count"), [low])
    review = look(app, "Alder Lane", MIDWINTER, REVIEW)
    told = next(one.value for one in review.markdown if "Count again" in one.value)

    assert "frozen beans (31 packs beyond it)" in told


def test_a_freezer_that_died_is_told_as_lost_and_not_as_run_out(
    app: AppTest, store_path: Path
) -> None:
    store = Store(store_path, FIRST)
    season = season_from_tables(store.tables(ALDER_LANE))
    books = ledgers(season, MIDWINTER)
    (freezer,) = (place.name for place in season.places if place.kind == "freezer")
    gone = write_off(season, books, freezer, FREEZER_DIED, MIDWINTER)
    cells = [
        {
            "taken_on": f"{one.day}",
            "preserve": one.preserve,
            "jars": f"{one.units:g}",
            "why": "lost",
            "cause": one.cause,
        }
        for one in gone
    ]
    edits = [Edit("taken.csv", cell) for cell in cells]
    store.write(ALDER_LANE, Author("died", FIRST, "", "the freezer died"), edits)
    review = look(app, "Alder Lane", MIDWINTER, REVIEW)

    told = words(review)
    out, _, lost = told.partition("Ran out: ")[2].partition("The last was lost, not used up: ")
    assert out.startswith("dilled beans")
    assert "frozen" not in out
    assert lost.startswith("frozen beans, ")
    rows = table_with(review, "meant_units", "none_from").set_index("preserve")
    assert rows.loc["frozen beans", "none_from"] == "10 Jan (lost)"


def test_a_verdict_is_one_button_and_is_kept(review: AppTest, store_path: Path) -> None:
    part(review, "Verdicts")
    labelled(review, "button_group", "Ketchup").set_value("too much").run()
    labelled(review, "button", "Save 1 verdict").click().run()

    assert not review.exception
    season = season_from_tables(Store(store_path, FIRST).tables(ALDER_LANE))
    said = {(v.season, v.preserve): v.verdict for v in season.record.verdicts}
    assert said["2027", "ketchup"] == "too much"


def test_next_year_begins_with_this_year_s_plantings(review: AppTest, store_path: Path) -> None:
    part(review, "Next year")
    labelled(review, "button", "Begin season 2028").click().run()

    assert not review.exception
    season = season_from_tables(Store(store_path, FIRST).tables(ALDER_LANE))
    moved = [p for p in season.plantings if p.season == "2028"]
    this = [p for p in season.plantings if p.season == "2027"]
    assert len(moved) == len(this)
    assert [p.crop for p in moved] == [p.crop for p in this]


def test_what_was_sown_this_year_settles_no_amount_of_the_next(
    app: AppTest, store_path: Path
) -> None:
    store = Store(store_path, FIRST)
    plantings = store.rows(ALDER_LANE, "plantings.csv")
    line = next(
        row for row, c in plantings.items() if (c["season"], c["crop"]) == ("2027", "parsnip")
    )
    sown = {"least_percent": "100", "most_percent": "100", "done": "sown"}
    edit = Edit("plantings.csv", {**plantings[line], **sown}, line)
    store.write(ALDER_LANE, Author("sown", FIRST, "", "sown"), [edit])
    review = look(app, "Alder Lane", MIDWINTER, REVIEW)
    part(review, "Next year")
    labelled(review, "button", "Begin season 2028").click().run()

    next_year = [row for row in rows(store_path, "plantings.csv") if row["season"] == "2028"]
    (parsnip,) = (row for row in next_year if row["crop"] == "parsnip")
    assert (parsnip["least_percent"], parsnip["most_percent"]) == ("0", "300")
    others = {row.get("most_percent", "") for row in next_year if row["crop"] != "parsnip"}
    assert "300" not in others


def test_what_is_not_wanted_again_is_left_out_of_the_next_year_without_being_asked(
    review: AppTest, store_path: Path
) -> None:
    before = {row["preserve"]: row.get("target") for row in rows(store_path, "preserves.csv")}
    part(review, "Verdicts")
    labelled(review, "button_group", "Dill pickles").set_value("not again").run()
    labelled(review, "button", "Save 1 verdict").click().run()
    part(review, "Next year")
    labelled(review, "button", "Begin season 2028").click().run()

    after = {row["preserve"]: row.get("target") for row in rows(store_path, "preserves.csv")}
    changed = {name: aim for name, aim in after.items() if aim != before[name]}
    # piccalilli was not wanted again a year before, and nobody said otherwise
    assert changed.keys() - {"piccalilli"} == {"dill pickles"}
    assert set(changed.values()) == {"0"}


def test_spring_plans_the_coming_season_from_its_first_day(review: AppTest) -> None:
    part(review, "Next year")
    labelled(review, "button", "Begin season 2028").click().run()
    review.switch_page("views/spring.py").run()
    assert "Season 2028 begins on 1 Mar 2028" in words(review)
    review.button(key="plan_coming").click().run()

    assert not review.exception
    assert review.title[0].value == "What to plant, and how many jars of what"
    assert review.date_input[0].value == date(2028, 3, 1)


def test_what_was_learned_says_on_what_it_rests(review: AppTest) -> None:
    part(review, "What was learned")
    rows = table_with(review, "usual", "own", "rests_on")

    assert any(text.endswith("own batches") for text in rows["rests_on"])


def test_jars_not_finished_and_lids_that_failed_are_told(app: AppTest, store_path: Path) -> None:
    made = [(f"A{n}", "old", 3) for n in range(4)] + [(f"B{n}", "new", 7) for n in range(20)]
    record = [
        Edit(
            "batches.csv",
            {
                "batch": code,
                "put_up_on": f"2027-09-{1 + n:02}",
                "preserve": "ketchup",
                "filled": "7",
                "lid_box": box,
            },
        )
        for n, (code, box, _) in enumerate(made)
    ]
    record += [
        Edit("seals.csv", {"batch": code, "checked_on": f"2027-09-{2 + n:02}", "sealed": f"{ok}"})
        for n, (code, _, ok) in enumerate(made)
    ]
    record += [
        Edit(
            "taken.csv",
            {
                "taken_on": f"2027-12-{1 + n:02}",
                "preserve": "ketchup",
                "jars": "1",
                "unfinished": "yes" if n < 3 else "",
            },
        )
        for n in range(8)
    ]
    store = Store(store_path, FIRST)
    store.write(ALDER_LANE, Author("record", FIRST, "", "record"), record)
    review = look(app, "Alder Lane", MIDWINTER, REVIEW)

    assert not review.exception
    assert "box of lids old (4 of 4 batches)" in words(review)
    assert "3 of 8 jars of **ketchup** (435 ml jar) were not finished" in words(review)
    assert "fill the 228 ml jar instead" in words(review)
    part(review, "What was learned")
    assert list(table_with(review, "in_common")["what"]) == ["old"]
    # the invented household left both its jars of beetroot unfinished
    assert list(table_with(review, "smaller_jar")["preserve"]) == ["ketchup", "pickled beetroot"]


def test_each_part_says_which_days_it_holds(review: AppTest) -> None:
    assert "The garden year 2027: 1 Mar 2027 to 10 Jan 2028." in words(review)
    part(review, "Next year")

    assert "Used in the 365 days from 11 Jan 2027 to 10 Jan 2028" in words(review)
    assert "differs from the garden year" in words(review)


def test_what_was_meant_and_what_was_filled_have_a_column_each(review: AppTest) -> None:
    assert "(38 kg aimed at in 2027)" in words(review)
    part(review, "Next year")
    rows = table_with(review, "meant_units", "filled_units", "next_units").set_index("preserve")

    # meant.csv and the batches of the invented household
    assert rows.loc["potatoes in the cellar", "meant_units"] == "38 kg"
    assert rows.loc["potatoes in the cellar", "filled_units"] == "44 kg"
