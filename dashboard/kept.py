"""What is kept: the store, the seasons read from it, and the one way to write into it."""

import uuid
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import UTC, date, datetime
from importlib.resources import files
from pathlib import Path

import streamlit as st

import model
from dashboard.record_findings import part_counted
from model import Author, Edit, Season, SeasonTables, Store, StoredHousehold

DEMOS = {"Alder Lane": "alder_lane", "Two Rivers": "two_rivers"}
MOST_SEASONS = 12
Guesses = Mapping[str, tuple[str, ...]]


@dataclass(frozen=True)
class Notes:
    """The notes of a household, as it stood when they were read.

    ``guesses`` are the rows of each table that are still guesses, ``every`` all households kept.
    """

    household: StoredHousehold
    season: Season
    guesses: Guesses
    every: tuple[StoredHousehold, ...]

    @property
    def name(self) -> str:
        """Give the name under which the household is kept."""
        return self.household.name

    @property
    def newest(self) -> bool:
        """Say whether it is the household written in last, which is opened by itself."""
        return self.household == _newest(self.every)


def now() -> datetime:
    """Give the moment; the only place where the dashboard reads the clock."""
    return datetime.now(UTC)


def store() -> Store:
    """Give the store of this machine's user; raises StoreError."""
    return _store(model.usual_place())


@st.cache_resource(show_spinner=False)
def _store(path: Path) -> Store:
    return Store(path, now())


def households() -> tuple[StoredHousehold, ...]:
    """List the households that are kept."""
    return store().households()


def _newest(every: Sequence[StoredHousehold]) -> StoredHousehold | None:
    return max(every, key=lambda one: one.last_change, default=None)


def notes(chosen: object) -> Notes | None:
    """Give the notes of the chosen household, else of the one written in last; None for none."""
    every = households()
    found = next((one for one in every if one.household_id == chosen), _newest(every))
    if found is None:
        return None
    season, guesses = _read(str(store().path), found.household_id, found.last_change)
    return Notes(found, season, guesses, every)


@st.cache_resource(show_spinner=False, max_entries=MOST_SEASONS)
def _read(
    path: str,  # noqa: ARG001 -- the cache's key
    household: int,
    change: int,  # noqa: ARG001
) -> tuple[Season, Guesses]:
    tables = store().tables(household)
    return model.season_from_tables(tables), model.guesses(tables)


def number_of(guesses: Guesses) -> int:
    """Count the rows that are still guesses."""
    return sum(len(names) for names in guesses.values())


def part_counted_of(household: StoredHousehold, day: date) -> tuple[int, int]:
    """Give how many preserves a day's count named, and how many it or the book knew there.

    The whole book is written up for it: once, not at every run of a page.
    """
    return _part_counted(str(store().path), household.household_id, household.last_change, day)


@st.cache_resource(show_spinner=False, max_entries=MOST_SEASONS)
def _part_counted(path: str, household: int, change: int, day: date) -> tuple[int, int]:
    return part_counted(_read(path, household, change)[0], day)


def new_operation() -> str:
    """Name something that is about to be done, so that a repeated click does it once."""
    return uuid.uuid4().hex


def author(words: str, by: str = "", operation: str = "") -> Author:
    """Say who does what now."""
    return Author(operation or new_operation(), now(), by, words)


def begin(tables: SeasonTables, words: str) -> int:
    """Begin a household with its tables; raises SeasonProblems and StoreError."""
    season = model.season_from_tables(tables)
    return store().begin(season.household, tables, author(words))


def begin_demo(name: str) -> int:
    """Begin with a copy of one of the invented households."""
    tables = model.read_tables(str(files("demo_data") / DEMOS[name]))
    return begin(tables, f"{name}, an invented household, was opened")


def copies() -> tuple[Path, ...]:
    """List the copies of the store, the newest first, even of one that cannot be opened."""
    return model.list_copies(model.usual_place())


def bring_back(copy: Path) -> Path | None:
    """Put a copy in the place of the store, which may be damaged or gone.

    Gives the copy of what was there, None where nothing was. Raises StoreError.
    """
    before = model.bring_back(model.usual_place(), copy, now())
    _read.clear()  # numbers of changes begin again from the copy's
    _part_counted.clear()
    _store.clear()
    return before


def write(household: int, edits: Sequence[Edit], signed: Author) -> int:
    """Write a change; raises SeasonProblems and StoreError, and then nothing is written."""
    return store().write(household, signed, edits)
