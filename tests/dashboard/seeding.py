"""A store with both invented households, as after looking round them; the first one is newest."""

from datetime import UTC, datetime
from importlib.resources import files
from pathlib import Path

import model
from model import Author, SeasonTables, Store

FIRST = datetime(2026, 1, 1, tzinfo=UTC)
HOUSEHOLDS = {"Two Rivers": "two_rivers", "Alder Lane": "alder_lane"}
ALDER_LANE = 2


def seeded(path: Path) -> Path:
    """Begin both households in a new store; gives its path."""
    store = Store(path, FIRST)
    for name, folder in HOUSEHOLDS.items():
        begin(store, name, model.read_tables(str(files("demo_data") / folder)))
    return path


def begin(store: Store, name: str, tables: SeasonTables) -> int:
    """Begin one household."""
    return store.begin(name, tables, Author(f"begin {name}", FIRST, "", f"{name} begun"))


def rows(path: Path, file: str) -> list[dict[str, str]]:
    """Give the rows of a table of Alder Lane as they are kept."""
    return list(Store(path, FIRST).rows(ALDER_LANE, file).values())
