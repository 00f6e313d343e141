"""The store's form, step by numbered step; each in a transaction, with its record."""

import sqlite3
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import datetime
from importlib.resources import files

from model.store.database import Database

_RECORD = """CREATE TABLE IF NOT EXISTS migration (
    number INTEGER PRIMARY KEY, name TEXT NOT NULL, applied_at TEXT NOT NULL) STRICT"""


@dataclass(frozen=True, slots=True)
class Step:
    """One numbered change of the store's form."""

    number: int
    name: str
    script: str


def shipped_steps() -> tuple[Step, ...]:
    """Give the steps that come with this version, in order."""
    folder = files("model.store") / "schema"
    names = sorted(item.name for item in folder.iterdir() if item.name.endswith(".sql"))
    return tuple(
        Step(int(name[:4]), name[5:-4], (folder / name).read_text("utf-8")) for name in names
    )


def form_of(database: Database) -> int:
    """Give the number of the last step that a store has taken."""
    with database.reading() as connection:
        return _number(connection)


def migrate(database: Database, steps: Sequence[Step], now: datetime) -> None:
    """Take every step that the store has not taken; raises StoreError."""
    for step in steps:
        with database.writing() as connection:
            if step.number <= _number(connection):
                continue
            connection.execute(_RECORD)
            for statement in _statements(step.script):
                connection.execute(statement)
            connection.execute(
                "INSERT INTO migration VALUES (?, ?, ?)",
                (step.number, step.name, now.isoformat(timespec="seconds")),
            )
            connection.execute(f"PRAGMA user_version = {step.number:d}")


def _number(connection: sqlite3.Connection) -> int:
    (number,) = connection.execute("PRAGMA user_version").fetchone()
    return int(number)


def _statements(script: str) -> Iterator[str]:
    """Split a script; SQLite's own splitter would commit before the first of them."""
    statement = ""
    for line in script.splitlines(keepends=True):
        statement += line
        if sqlite3.complete_statement(statement):
            yield statement
            statement = ""
    if statement.strip():
        yield statement
