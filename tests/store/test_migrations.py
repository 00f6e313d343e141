"""Older stores are copied and brought up to the newest form, step by whole step."""

import sqlite3
from contextlib import closing
from pathlib import Path

import pytest

from model.errors import StoreError
from model.store.copies import list_copies
from model.store.migrations import Step, shipped_steps
from model.store.store import Store
from tests.store.keeping import NOW, author, begun, check_invariants, picked

OLD = Path(__file__).parent / "stores"
NEXT = Step(
    shipped_steps()[-1].number + 1,
    "a_mark",
    "CREATE TABLE mark (mark_id INTEGER PRIMARY KEY, words TEXT NOT NULL) STRICT;\n"
    "INSERT INTO mark VALUES (1, 'made');\n",
)
BROKEN = Step(NEXT.number, "broken", f"{NEXT.script}CREATE TABLE mark (again TEXT) STRICT;\n")
LOG = "harvest_log.csv"


@pytest.fixture
def path(tmp_path: Path) -> Path:
    return tmp_path / "households.sqlite"


@pytest.mark.parametrize("dump", sorted(OLD.glob("*.sql")), ids=lambda dump: dump.stem)
def test_a_store_of_every_earlier_form_opens_with_all_it_holds(dump: Path, path: Path) -> None:
    with closing(sqlite3.connect(path)) as raw:
        raw.executescript(dump.read_text(encoding="utf-8"))
    store = Store(path, NOW)

    assert [household.name for household in store.households()] == ["Tiny"]
    assert [row["picked_kg"] for row in store.rows(1, LOG).values()] == ["3"]
    check_invariants(path)


def test_there_is_a_store_of_every_form() -> None:
    forms = [int(dump.stem.removeprefix("form_")) for dump in sorted(OLD.glob("*.sql"))]

    assert forms == [step.number for step in shipped_steps()]


def test_a_step_is_taken_once_with_its_record_after_a_copy_was_made(path: Path) -> None:
    store, household = begun(path)
    store.write(household, author("one"), [picked(3)])
    newer = Store(path, NOW, [*shipped_steps(), NEXT])
    Store(path, NOW, [*shipped_steps(), NEXT])

    with closing(sqlite3.connect(path)) as raw:
        assert raw.execute("SELECT words FROM mark").fetchall() == [("made",)]
        steps = raw.execute("SELECT number, name FROM migration ORDER BY number").fetchall()
    assert steps == [(step.number, step.name) for step in [*shipped_steps(), NEXT]]
    (copy,) = list_copies(newer.path)
    assert Store(copy, NOW).rows(household, LOG) == newer.rows(household, LOG)


def test_a_step_that_fails_leaves_the_form_before(path: Path) -> None:
    store, household = begun(path)
    before = store.tables(household)

    with pytest.raises(StoreError):
        Store(path, NOW, [*shipped_steps(), BROKEN])
    assert Store(path, NOW).tables(household) == before
    with closing(sqlite3.connect(path)) as raw:
        assert raw.execute("SELECT name FROM sqlite_master WHERE name = 'mark'").fetchall() == []
