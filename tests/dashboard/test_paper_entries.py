"""A sheet typed in from paper: every fault with its row, all of it written or nothing."""

from datetime import date

import pandas as pd
import pytest

import model
from dashboard import kept
from dashboard.forms.paper_entries import (
    COLUMNS,
    Entry,
    PaperEntries,
    paper_entries,
    sheet_doubts,
    told_by_row,
    typed,
)
from model import Author, PlanningError, Problem, Season, SeasonProblems, Store
from tests.dashboard.seeding import FIRST, seeded
from tests.small_season import small_season

TODAY = date(2027, 8, 16)
ALDER_LANE = 2
GOOD = (
    Entry(1, date(2027, 8, 14), "picked", "tomato", 2.0, "trug"),
    Entry(2, date(2027, 8, 14), "put up", "crushed tomatoes", 7.0, "jar"),
    Entry(3, date(2027, 8, 14), "put up", "crushed tomatoes", 7.0, ""),
    Entry(4, date(2027, 8, 15), "taken", "ketchup", 1.0, ""),
    Entry(5, date(2027, 8, 15), "counted", "strawberry jam", 5.0, "jar"),
)


@pytest.fixture
def store(store_path) -> Store:
    seeded(store_path)
    return Store(store_path, FIRST)


def season_of(store: Store) -> Season:
    return model.season_from_tables(store.tables(ALDER_LANE))


def entered(store: Store, *entries: Entry) -> PaperEntries:
    return paper_entries(season_of(store), entries, TODAY, store.rows(ALDER_LANE, "stock.csv"))


def tables(store: Store) -> dict[str, list[dict[str, str]]]:
    files = ("harvest_log.csv", "batches.csv", "taken.csv", "stock.csv")
    return {file: list(store.rows(ALDER_LANE, file).values()) for file in files}


def write(store: Store, found: PaperEntries, name: str = "typed") -> int:
    return store.write(ALDER_LANE, Author(name, kept.now(), "", "from paper"), found.edits)


def test_a_whole_sheet_is_written_as_one_change_and_taken_back_as_one(store: Store) -> None:
    before, found = tables(store), entered(store, *GOOD)
    assert found.faults == []
    change = write(store, found)
    after = tables(store)

    picked = after["harvest_log.csv"][-1]
    # The notes' own weight: a trug of tomatoes is 7.2 kg.
    assert (picked["crop"], picked["picked_on"], picked["picked_kg"]) == (
        "tomato",
        "2027-08-14",
        "14.4",
    )
    codes = [row["batch"] for row in after["batches.csv"][-2:]]
    assert codes == ["2027-08-14 crushed tomatoes", "2027-08-14 crushed tomatoes 2"]
    assert after["taken.csv"][-1]["why"] == "eaten"
    assert model.ledgers(season_of(store), TODAY)["strawberry jam"].units == 5
    store.undo(ALDER_LANE, Author("back", kept.now(), "", "taken back"), change)
    assert tables(store) == before


def test_a_picking_larger_than_its_season_and_jars_that_were_not_there_are_asked_about_by_its_row(
    store: Store,
) -> None:
    much = Entry(7, date(2027, 8, 14), "picked", "tomato", 900.0, "trug")
    found = entered(store, *GOOD, much)

    assert found.faults == []
    taken, doubt = sheet_doubts(season_of(store), found, TODAY)
    assert taken.startswith("Row 4: That is more than the 0 of ketchup")
    assert doubt.startswith("Row 7: That is about ")
    assert doubt.endswith("is it right?")


def test_a_count_replaces_one_of_that_day(store: Store) -> None:
    counted = date(2027, 8, 14)
    write(store, entered(store, Entry(1, counted, "counted", "ketchup", 3.0, "")))
    write(store, entered(store, Entry(1, counted, "counted", "ketchup", 0.0, "")), "again")
    rows = [
        row
        for row in tables(store)["stock.csv"]
        if (row["preserve"], row["counted_on"]) == ("ketchup", f"{counted}")
    ]

    assert [row["jars"] for row in rows] == ["0"]


@pytest.mark.parametrize(
    ("entry", "told"),
    [
        (Entry(3, None, "picked", "tomato", 1.0, "kg"), "no day"),
        (Entry(3, date(2027, 8, 17), "picked", "tomato", 1.0, "kg"), "still to come"),
        (Entry(3, TODAY, "", "tomato", 1.0, "kg"), "what happened"),
        (Entry(3, TODAY, "picked", "ketchup", 1.0, "kg"), "no crop"),
        (Entry(3, TODAY, "picked", "tomato", 1.0, ""), "no known weight"),
        (Entry(3, TODAY, "picked", "tomato", 0.0, "kg"), "how much"),
        (Entry(3, TODAY, "taken", "ketchup", float("nan"), ""), "how much"),
        (Entry(3, TODAY, "put up", "tomato", 7.0, ""), "no preserve"),
        (Entry(3, TODAY, "put up", "ketchup", 7.0, "kg"), "not counted in"),
        (Entry(3, TODAY, "taken", "potatoes in the cellar", 7.0, ""), "not counted in"),
        (Entry(3, TODAY, "counted", "ketchup", -1.0, ""), "how much"),
    ],
)
def test_a_fault_is_told_with_its_row_and_nothing_is_written(
    store: Store, entry: Entry, told: str
) -> None:
    found = entered(store, *GOOD[:2], entry)

    assert [fault.row for fault in found.faults] == [3]
    assert told in found.faults[0].found
    assert found.edits == []


def test_every_fault_of_a_sheet_is_told_at_once(store: Store) -> None:
    found = entered(
        store,
        Entry(2, None, "", "", None, ""),
        Entry(4, TODAY, "counted", "ketchup", 3.0, ""),
        Entry(9, TODAY, "counted", "ketchup", 4.0, ""),
        Entry(11, TODAY, "picked", "nothing of ours", 1.0, "kg"),
    )

    assert {fault.row for fault in found.faults} == {2, 9, 11}
    assert len([fault for fault in found.faults if fault.row == 2]) == 2


def test_what_the_gate_finds_is_told_by_the_row_of_the_sheet(store: Store) -> None:
    """A row is changed behind the check, so that the gate alone can find it."""
    found = entered(store, *GOOD)
    spoiled = found.edits[1]
    found.edits[1] = type(spoiled)(spoiled.file, {**spoiled.cells, "filled": "many"})
    before = tables(store)
    lengths = {file: len(rows) for file, rows in before.items()}
    with pytest.raises(SeasonProblems) as raised:
        write(store, found)
    error = told_by_row(raised.value, found, lengths)

    assert isinstance(error, SeasonProblems)
    assert [(fault.file, fault.row) for fault in error.problems] == [("The sheet", 2)]
    assert tables(store) == before


def test_other_faults_stay_as_they_are() -> None:
    elsewhere = SeasonProblems([Problem("beds.csv", 2, "a", "b")])

    assert told_by_row(elsewhere, PaperEntries(), {}).problems == elsewhere.problems
    plain = PlanningError("no")
    assert told_by_row(plain, PaperEntries(), {}) is plain


def test_a_us_household_counts_what_is_weighed_in_pounds() -> None:
    """Exact: the international pound is 0.45359237 kg."""
    season = small_season(
        household="household,invented,altitude_ft,units,notes_date\nTiny,yes,2100,US,2027-03-01\n",
        preserves="preserve,food,crop,method,product,pack,jar,share_percent\n"
        "carrots in sand,beans,carrot,root store,,,,20\n",
        foods="food,group,portions_a_week,most_a_week,liking,crops\nbeans,vegetable,3,8,4,carrot\n",
        plantings="season,crop,bed,sown,first_picking,area_m2\n"
        "2027,carrot,only bed,2027-05-28,2027-09-01,8\n",
        places="place,kind,shelf_area_m2,tiers,volume_l,holds_kg\ncellar,root store,,,,150\n",
        stock=None,
    )
    found = paper_entries(
        season, [Entry(1, TODAY, "put up", "carrots in sand", 10.0, "lb")], TODAY, {}
    )

    assert found.faults == []
    assert float(found.edits[0].cells["filled"]) == pytest.approx(4.53592)


def sheet(*days: str | None) -> pd.DataFrame:
    rows = [[day, *(("picked", "tomato", 2.0, "kg") if day else [None] * 4)] for day in days]
    return pd.DataFrame(rows, columns=list(COLUMNS))


def test_rows_in_which_nothing_was_typed_are_passed_over() -> None:
    assert [entry.row for entry in typed(sheet(None, "2027-08-14", None))] == [2]
    assert typed(sheet(None)) == []


@pytest.mark.parametrize("text", ["2027-08-04", "4 Aug 2027", "Aug 4, 2027", " 2027-08-04 "])
def test_a_day_is_read_in_every_form_in_which_days_are_shown(text: str) -> None:
    assert typed(sheet(text))[0].day == date(2027, 8, 4)


@pytest.mark.parametrize("text", ["04/08/2027", "2027-02-30", "soon", "99999999-01-01", "4.8.27"])
def test_a_day_that_could_be_mistaken_or_is_none_is_a_fault(store: Store, text: str) -> None:
    (entry,) = typed(sheet(text))
    found = entered(store, entry)

    assert [fault.found for fault in found.faults] == [f"{text!r} is no day"]
