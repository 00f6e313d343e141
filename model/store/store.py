"""The store: households, what they wrote, who changed it when, and copies of it all."""

import os
import sqlite3
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path

from platformdirs import user_data_path

from model.intake.gate import season_from_tables
from model.intake.tables import SeasonTables
from model.store import copies, versions
from model.store.database import Database
from model.store.migrations import Step, form_of, migrate, shipped_steps
from model.store.versions import Author, Cells, Change, Edit, Line

# Names the file instead of the user's data folder.
PLACE_VARIABLE = "HARVEST_TO_PANTRY_STORE"
MOST_NAME = 80
_FOLDER, _FILE = "harvest-to-pantry-plan", "households.sqlite"


def usual_place() -> Path:
    """Give where the store lies: as the environment says, else in the user's data folder.

    >>> isinstance(model.usual_place(), Path)
    True
    """
    named = os.environ.get(PLACE_VARIABLE)
    return Path(named) if named else user_data_path(_FOLDER, appauthor=False) / _FILE


@dataclass(frozen=True, slots=True)
class StoredHousehold:
    """A household of the store, and its last change, by which what is read of it is known.

    >>> [household.name for household in store.households()]
    ['Alder Lane']
    """

    household_id: int
    name: str
    last_change: int


class Store:
    """Everything that is kept. Each method is one transaction; all raise StoreError.

    Whatever is written passes the gate first: what would leave a season with faults raises
    SeasonProblems, and nothing is written. A repeated operation is written once.

    >>> now = datetime(2027, 3, 15, 9, tzinfo=UTC)
    >>> store = model.Store(place / "kept.sqlite", now)
    >>> begun = store.begin("Alder Lane", notes, model.Author("first", now, "Ann", "begun"))
    >>> bed = model.Edit("beds.csv", {"bed": "new bed", "area_m2": "4"})
    >>> change = store.write(begun, model.Author("second", now, "Ann", "a new bed"), [bed])
    >>> [change.words for change in store.changes(begun)]
    ['a new bed', 'begun']
    """

    def __init__(self, path: Path, now: datetime, steps: Sequence[Step] | None = None) -> None:
        """Open or begin the store; one of an older form is copied first, then brought up."""
        steps = shipped_steps() if steps is None else steps
        self._database = Database(path)
        self._database.check(steps[-1].number)
        if 0 < form_of(self._database) < steps[-1].number:
            self.back_up(now)
        migrate(self._database, steps, now)
        self._database.mark_begun()

    @property
    def path(self) -> Path:
        """Give where the store lies."""
        return self._database.path

    def households(self) -> tuple[StoredHousehold, ...]:
        """List the households in the order of their beginning."""
        with self._database.reading() as connection:
            found = connection.execute(
                """SELECT household_id, name, (SELECT max(change_id) FROM change
                    WHERE change.household_id = household.household_id)
                FROM household ORDER BY household_id"""
            ).fetchall()
        return tuple(StoredHousehold(*row) for row in found)

    def begin(self, name: str, tables: SeasonTables, author: Author) -> int:
        """Begin a household with its first tables; a name that is taken gets a number."""
        season_from_tables(tables)
        name = " ".join(name.split())[:MOST_NAME] or "Household"
        with self._database.writing() as connection:
            done = _done(connection, author.operation)
            if done is not None:
                return done[1]
            taken = {row[0].lower() for row in connection.execute("SELECT name FROM household")}
            numbered = (f"{name} {number}" for number in range(2, len(taken) + 3))
            free = next(n for n in (name, *numbered) if n.lower() not in taken)
            cursor = connection.execute(
                "INSERT INTO household (name, begun_at) VALUES (?, ?)",
                (free, author.at.isoformat(timespec="seconds")),
            )
            household = int(cursor.lastrowid or 0)
            versions.replace_tables(connection, household, author, tables)
        return household

    def tables(self, household: int) -> SeasonTables:
        """Give a household's tables as they stand."""
        with self._database.reading() as connection:
            return versions.tables_now(connection, household)

    def rows(self, household: int, file: str) -> dict[int, Cells]:
        """Give the rows of one table by their number in the store, the oldest first."""
        with self._database.reading() as connection:
            return versions.rows_now(connection, household, file)[1][file]

    def write(self, household: int, author: Author, edits: Sequence[Edit]) -> int:
        """Write new rows, corrections and withdrawals as one change; gives its number."""
        return self._checked(
            household, author, lambda c: versions.write(c, household, author, edits)
        )

    def replace(self, household: int, author: Author, tables: SeasonTables) -> int:
        """Put other tables in the place of all; the change can be undone like any other."""
        return self._checked(
            household, author, lambda c: versions.replace_tables(c, household, author, tables)
        )

    def undo(self, household: int, author: Author, change: int) -> int:
        """Take a change back exactly; raises CannotWrite when it was changed since."""
        return self._checked(
            household, author, lambda c: versions.undo(c, household, author, change)
        )

    def changes(self, household: int, most: int = 50) -> tuple[Change, ...]:
        """List the newest changes, the newest first."""
        with self._database.reading() as connection:
            return versions.changes(connection, household, most)

    def lines(self, change: int) -> tuple[Line, ...]:
        """Say what a change did, row by row."""
        with self._database.reading() as connection:
            return versions.lines(connection, change)

    def back_up(self, now: datetime) -> Path:
        """Copy the store beside itself, while others may be writing; gives the copy."""
        return copies.back_up(self.path, now)

    def _checked(
        self, household: int, author: Author, write: Callable[[sqlite3.Connection], int]
    ) -> int:
        with self._database.writing() as connection:
            done = _done(connection, author.operation)
            if done is not None:
                return done[0]
            change = write(connection)
            season_from_tables(versions.tables_now(connection, household))
        return change


def _done(connection: sqlite3.Connection, operation: str) -> tuple[int, int] | None:
    """Give the change and household of an operation that was written before."""
    found = connection.execute(
        "SELECT change_id, household_id FROM change WHERE operation = ?", (operation,)
    ).fetchone()
    return None if found is None else (int(found[0]), int(found[1]))
