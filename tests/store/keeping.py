"""A small store to write into, and what must hold of any store."""

import json
import sqlite3
from datetime import UTC, datetime
from pathlib import Path

from model.intake.folder import text_tables
from model.intake.gate import season_from_tables
from model.intake.tables import SeasonTables
from model.store.store import Store
from model.store.versions import Author, Edit
from tests.small_season import small_tables

NOW = datetime(2027, 8, 16, 9, 0, tzinfo=UTC)


def author(operation: str, words: str = "something", by: str = "Ann") -> Author:
    return Author(operation, NOW, by, words)


def tables() -> SeasonTables:
    return text_tables((name, text.encode()) for name, text in small_tables().items())


def begun(path: Path) -> tuple[Store, int]:
    """Begin a store with the small household."""
    store = Store(path, NOW)
    return store, store.begin("Tiny", tables(), author("begin"))


def picked(kg: float = 1.0, day: str = "2027-08-01") -> Edit:
    return Edit("harvest_log.csv", {"picked_on": day, "crop": "tomato", "picked_kg": f"{kg:g}"})


def check_invariants(path: Path) -> None:
    """Check what must hold of a store whatever happened to the program that wrote it."""
    with sqlite3.connect(path) as raw:
        assert raw.execute("PRAGMA quick_check").fetchall() == [("ok",)]
        assert raw.execute("PRAGMA foreign_key_check").fetchall() == []
        operations = [row[0] for row in raw.execute("SELECT operation FROM change")]
        for (cells,) in raw.execute("SELECT cells FROM version WHERE cells IS NOT NULL"):
            json.loads(cells)
    raw.close()
    assert len(operations) == len(set(operations))
    store = Store(path, NOW)
    for household in store.households():
        season_from_tables(store.tables(household.household_id))
