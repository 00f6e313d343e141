"""A store with both invented households, as after looking round them; the first one is newest."""

from datetime import UTC, datetime
from importlib.resources import files
from pathlib import Path

import model
from model import Author, SeasonTables, Store

FIRST = datetime(2026, 1, 1, tzinfo=UTC)
HOUSEHOLDS = {"Two Rivers": "two_rivers", "Alder Lane": "alder_lane"}
TWO_RIVERS, ALDER_LANE = 1, 2


def seeded(path: Path) -> Path:
    """Begin both households in a new store; gives its path."""
    store = Store(path, FIRST)
    for name, folder in HOUSEHOLDS.items():
        begin(store, name, model.read_tables(str(files("demo_data") / folder)))
    return path


def begin(store: Store, name: str, tables: SeasonTables) -> int:
    """Begin one household."""
    return store.begin(name, tables, Author(f"begin {name}", FIRST, "", f"{name} begun"))


def rows(path: Path, file: str, household: int = ALDER_LANE) -> list[dict[str, str]]:
    """Give the rows of a table of a household as they are kept."""
    return list(Store(path, FIRST).rows(household, file).values())
