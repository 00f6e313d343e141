"""What is written is read back as it was; corrections and undos keep what stood there before."""

import sqlite3
from contextlib import closing
from pathlib import Path

import pytest

from model.errors import CannotWrite, SeasonProblems
from model.intake.folder import read_tables
from model.intake.gate import season_from_tables
from model.intake.tables import SeasonTables, TextTable
from model.store.store import Store
from model.store.versions import Edit
from tests.store.keeping import NOW, author, begun, picked, tables

DEMO = Path(__file__).parents[2] / "demo_data" / "alder_lane"
LOG = "harvest_log.csv"


@pytest.fixture
def path(tmp_path: Path) -> Path:
    return tmp_path / "kept" / "households.sqlite"


def test_a_household_is_read_back_as_its_folder_gives_it(path: Path) -> None:
    store, from_folder = Store(path, NOW), read_tables(DEMO)
    household = store.begin("Alder Lane", from_folder, author("begin"))

    kept = store.tables(household)
    assert season_from_tables(kept) == season_from_tables(from_folder)
    assert kept.tables.keys() == from_folder.tables.keys()
    for file, table in from_folder.tables.items():
        assert kept.tables[file].headings == table.headings
        assert [c for _, c in kept.tables[file].rows] == [c for _, c in table.rows]


def test_what_is_kept_is_there_when_the_store_is_opened_again(path: Path) -> None:
    store, household = begun(path)
    store.write(household, author("one"), [picked(2)])

    assert Store(path, NOW).tables(household) == store.tables(household)


def test_an_undo_gives_exactly_the_tables_there_were_also_of_a_new_table(path: Path) -> None:
    store, household = begun(path)
    before = store.tables(household)
    cells = {"taken_on": "2027-03-02", "preserve": "frozen beans", "jars": "1"}
    change = store.write(household, author("one"), [Edit("taken.csv", cells), picked(3)])
    assert "taken.csv" in store.tables(household).tables

    store.undo(household, author("two"), change)
    assert store.tables(household) == before


def test_an_undo_can_be_undone(path: Path) -> None:
    store, household = begun(path)
    change = store.write(household, author("one"), [picked(3)])
    after = store.tables(household)
    back = store.undo(household, author("two"), change)
    store.undo(household, author("three"), back)

    assert store.tables(household) == after


def test_a_correction_says_who_changed_what_and_when(path: Path) -> None:
    store, household = begun(path)
    store.write(household, author("one", "Picked 3 kg", "Ann"), [picked(3)])
    ((row_id, cells),) = store.rows(household, LOG).items()
    edit = Edit(LOG, {**cells, "picked_kg": "4"}, row_id)
    change = store.write(household, author("two", "It was 4 kg", "Ben"), [edit])

    newest = store.changes(household)[0]
    assert (newest.change_id, newest.by, newest.words, newest.at) == (
        change,
        "Ben",
        "It was 4 kg",
        NOW,
    )
    (line,) = store.lines(change)
    assert (line.before or {})["picked_kg"] == "3"
    assert (line.after or {})["picked_kg"] == "4"


def test_what_is_taken_out_stays_readable(path: Path) -> None:
    store, household = begun(path)
    store.write(household, author("one"), [picked(3)])
    (row_id,) = store.rows(household, LOG)
    change = store.write(household, author("two"), [Edit(LOG, None, row_id)])

    assert store.rows(household, LOG) == {}
    (line,) = store.lines(change)
    assert (line.before or {})["picked_kg"] == "3"
    assert line.after is None


def test_what_was_changed_since_is_not_undone(path: Path) -> None:
    store, household = begun(path)
    first = store.write(household, author("one"), [picked(3)])
    ((row_id, cells),) = store.rows(household, LOG).items()
    store.write(household, author("two"), [Edit(LOG, {**cells, "picked_kg": "4"}, row_id)])

    with pytest.raises(CannotWrite, match="changed since"):
        store.undo(household, author("three"), first)
    with pytest.raises(CannotWrite, match="no such change"):
        store.undo(household, author("four"), 999)


def test_the_same_click_twice_is_written_once(path: Path) -> None:
    store, household = begun(path)
    first = store.write(household, author("one"), [picked(3)])

    assert store.write(household, author("one"), [picked(3)]) == first
    assert len(store.rows(household, LOG)) == 1
    assert store.begin("Tiny", tables(), author("begin")) == household


@pytest.mark.parametrize(
    "edit",
    [
        picked(1e9),
        picked(-1),
        picked(1, "03/04/2027"),
        Edit(LOG, {"picked_on": "2027-08-01", "crop": "=cmd()", "picked_kg": "1"}),
        Edit("taken.csv", {"taken_on": "2027-08-01", "preserve": "<b>jam</b>", "jars": "1"}),
    ],
)
def test_what_the_gate_refuses_is_not_written_at_all(path: Path, edit: Edit) -> None:
    store, household = begun(path)
    before = store.tables(household)

    with pytest.raises(SeasonProblems):
        store.write(household, author("one"), [picked(2), edit])
    assert store.tables(household) == before
    assert len(store.changes(household)) == 1


def test_other_tables_in_the_place_of_all_can_be_taken_back(path: Path) -> None:
    store, household = begun(path)
    before = store.tables(household)
    change = store.replace(household, author("one"), read_tables(DEMO))
    assert season_from_tables(store.tables(household)).household == "Alder Lane"

    store.undo(household, author("two"), change)
    assert store.tables(household) == before


def test_households_stand_beside_each_other_and_a_taken_name_gets_a_number(path: Path) -> None:
    store, first = begun(path)
    second = store.begin("tiny", tables(), author("second"))
    store.write(second, author("one"), [picked(3)])

    assert [household.name for household in store.households()] == ["Tiny", "tiny 2"]
    assert store.rows(first, LOG) == {}


@pytest.mark.parametrize(
    "statement",
    [
        "UPDATE version SET cells = '{}'",
        "DELETE FROM version",
        "UPDATE change SET words = 'other'",
        "DELETE FROM change",
        "DELETE FROM note_row",
        "INSERT INTO note_row VALUES (NULL, 99, 'beds.csv', 0)",
        "INSERT INTO note_row VALUES (NULL, 1, 'beds.txt', 0)",
        "INSERT INTO version VALUES (1, 99, '{}', 0)",
        "INSERT INTO version VALUES (2, 1, 'no json', 0)",
        "INSERT INTO household VALUES ('one', 'x', 'now')",
    ],
)
def test_the_file_itself_refuses_to_forget_and_to_hold_what_makes_no_sense(
    path: Path, statement: str
) -> None:
    begun(path)
    with closing(sqlite3.connect(path)) as raw:
        raw.execute("PRAGMA foreign_keys = ON")
        with pytest.raises(sqlite3.IntegrityError):
            raw.execute(statement)


def test_an_undo_of_the_first_entry_keeps_what_was_written_into_its_table_since(
    path: Path,
) -> None:
    store, household = begun(path)
    before = store.tables(household)
    cells = {"taken_on": "2027-03-02", "preserve": "frozen beans", "jars": "1"}
    first = store.write(household, author("one"), [Edit("taken.csv", cells)])
    later = {**cells, "why": "given"}
    second = store.write(household, author("two"), [Edit("taken.csv", later)])

    store.undo(household, author("three"), first)
    assert list(store.rows(household, "taken.csv").values()) == [later]
    assert [taken.why for taken in season_from_tables(store.tables(household)).record.taken] == [
        "given"
    ]
    store.undo(household, author("four"), second)
    assert store.rows(household, "taken.csv") == {}
    assert store.tables(household).tables.keys() - before.tables.keys() <= {"taken.csv"}


def test_an_undo_twice_is_refused_also_of_a_change_of_nothing(path: Path) -> None:
    store, household = begun(path)
    change = store.write(household, author("one"), [])
    store.undo(household, author("two"), change)

    with pytest.raises(CannotWrite, match="changed since"):
        store.undo(household, author("three"), change)


def test_a_row_that_was_taken_out_or_is_another_household_s_cannot_be_corrected(
    path: Path,
) -> None:
    store, household = begun(path)
    other = store.begin("Other", tables(), author("other"))
    store.write(household, author("one"), [picked(3)])
    ((row_id, cells),) = store.rows(household, LOG).items()

    with pytest.raises(CannotWrite, match="taken out since"):
        store.write(other, author("two"), [Edit(LOG, cells, row_id)])
    with pytest.raises(CannotWrite, match="taken out since"):
        store.write(household, author("three"), [Edit("stock.csv", cells, row_id)])
    store.write(household, author("four"), [Edit(LOG, None, row_id)])
    with pytest.raises(CannotWrite, match="taken out since"):
        store.write(household, author("five"), [Edit(LOG, cells, row_id)])


@pytest.mark.parametrize("file", ["eaters.csv", "preserves.csv", "beds.csv", "household.csv"])
def test_a_table_that_must_have_a_row_is_never_left_without_one(path: Path, file: str) -> None:
    store, household = begun(path)
    before = store.tables(household)
    gone = [Edit(file, None, row_id) for row_id in store.rows(household, file)]
    without = {name: table for name, table in before.tables.items() if name != file}

    with pytest.raises(SeasonProblems):
        store.write(household, author("one"), gone)
    with pytest.raises(SeasonProblems, match=f"{file}: the file is missing"):
        store.replace(household, author("two"), SeasonTables(without, ()))
    assert store.tables(household) == before


def test_a_column_without_a_heading_is_left_out(path: Path) -> None:
    store = Store(path, NOW)
    beds = TextTable(("bed", "", "area_m2"), ((2, ("only bed", "sunny", "30")),))
    household = store.begin(
        "Tiny", SeasonTables({**tables().tables, "beds.csv": beds}, ()), author("begin")
    )

    kept = store.tables(household).tables["beds.csv"]
    assert kept == TextTable(("bed", "area_m2"), ((2, ("only bed", "30")),))


@pytest.mark.parametrize("name", ["", "  ", "x" * 500, "Zoë's & <b>beds</b>", "مطبخ", "'; DROP"])
def test_any_name_begins_a_household(path: Path, name: str) -> None:
    store = Store(path, NOW)
    numbers = [store.begin(name, tables(), author(f"begin {n}")) for n in range(3)]

    assert [household.household_id for household in store.households()] == numbers
    assert len({household.name for household in store.households()}) == 3
