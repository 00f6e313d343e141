"""Rows and their versions: what stands now, what a change does, and what it did."""

import json
import sqlite3
import zlib
from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import datetime

from model.errors import CannotWrite
from model.intake.folder import TABLE_KINDS
from model.intake.tables import SeasonTables, TextTable

Cells = Mapping[str, str]
_ORDER = {kind.file: place for place, kind in enumerate(TABLE_KINDS)}


@dataclass(frozen=True, slots=True)
class Edit:
    """What a change does to one row: new cells, or none to take it out; no number is a new row.

    >>> model.Edit("beds.csv", None, row_id=7)
    Edit(file='beds.csv', cells=None, row_id=7)
    """

    file: str
    cells: Cells | None
    row_id: int | None = None


@dataclass(frozen=True, slots=True)
class Author:
    """Who did something when, in words, under a name that a repeated click has again.

    ``at`` is a moment, with its offset from UTC.

    >>> model.Author("click 1", datetime(2027, 3, 15, 9, tzinfo=UTC), "Ann", "a new bed").words
    'a new bed'
    """

    operation: str
    at: datetime
    by: str
    words: str


@dataclass(frozen=True, slots=True)
class Line:
    """What a change did to one row: its cells before and after, None where it was not there.

    >>> line = store.lines(1)[0]
    >>> line.file, line.before
    ('away.csv', None)
    """

    file: str
    row_id: int
    before: Cells | None
    after: Cells | None


@dataclass(frozen=True, slots=True)
class Change:
    """Something that was done; ``undone`` is the change that took it back, if one did.

    >>> first = store.changes(1)[-1]
    >>> first.words, first.undone
    ('the first notes', None)
    """

    change_id: int
    at: datetime
    by: str
    words: str
    undoes: int | None
    undone: int | None


_NOW = """
    SELECT row.file, row.row_id, row.is_headings, version.change_id, version.cells,
        version.checksum
    FROM note_row AS row JOIN version USING (row_id)
    WHERE row.household_id = ?1 AND (?2 IS NULL OR row.file = ?2) AND version.change_id =
        (SELECT max(change_id) FROM version AS newest WHERE newest.row_id = row.row_id)
    ORDER BY row.row_id"""


def rows_now(
    connection: sqlite3.Connection, household: int, file: str | None = None
) -> tuple[dict[str, tuple[str, ...]], dict[str, dict[int, Cells]]]:
    """Give the headings of every table, or of one, and its rows by number, the oldest first."""
    headings: dict[str, tuple[str, ...]] = {}
    rows: dict[str, dict[int, Cells]] = defaultdict(dict)
    for own, row_id, is_headings, change, cells, checksum in connection.execute(
        _NOW, (household, file)
    ):
        _check((household, own, is_headings, row_id, change, cells), checksum)
        if cells is None:
            continue
        if is_headings:
            headings[own] = tuple(json.loads(cells))
        else:
            rows[own][row_id] = json.loads(cells)
    return headings, rows


def tables_now(connection: sqlite3.Connection, household: int) -> SeasonTables:
    """Give the household's tables as they stand, numbered as a spreadsheet would."""
    headings, rows = rows_now(connection, household)
    tables = {}
    for file in sorted(headings, key=lambda name: _ORDER.get(name, len(_ORDER))):
        own = headings[file]
        tables[file] = TextTable(
            own,
            tuple(
                (number, tuple(cells.get(heading, "") for heading in own))
                for number, cells in enumerate(rows[file].values(), start=2)
            ),
        )
    return SeasonTables(tables, ())


def write(
    connection: sqlite3.Connection, household: int, author: Author, edits: Iterable[Edit]
) -> int:
    """Write a change and the versions it makes; gives its number.

    Raises CannotWrite when a row to correct or take out does not stand there any more.
    """
    edits = tuple(edits)
    change = _begun(connection, household, author, None)
    for file in dict.fromkeys(edit.file for edit in edits):
        of_file = [edit for edit in edits if edit.file == file]
        headings, rows = rows_now(connection, household, file)
        if any(e.row_id is not None and e.row_id not in rows[file] for e in of_file):
            raise CannotWrite("what is to be corrected was taken out since")
        own = headings.get(file, ())
        named = (name for edit in of_file for name in edit.cells or ())
        whole = tuple(dict.fromkeys((*own, *named)))
        if whole != own:
            _put_headings(connection, household, file, change, whole)
    for edit in edits:
        row_id = edit.row_id
        if row_id is None:
            row_id = _new_row(connection, household, edit.file, is_headings=False)
        _put(connection, row_id, change, edit.cells)
    return change


def replace_tables(
    connection: sqlite3.Connection, household: int, author: Author, tables: SeasonTables
) -> int:
    """Put other tables in the place of all; those that stood there stay as versions."""
    change = _begun(connection, household, author, None)
    headings, rows = rows_now(connection, household)
    for row_id in (row_id for own in rows.values() for row_id in own):
        _insert(connection, row_id, change, None)
    for file in headings.keys() - tables.tables.keys():
        _put_headings(connection, household, file, change, None)
    for file, table in tables.tables.items():
        named = tuple(filter(None, table.headings))  # nothing is read under a blank heading
        _put_headings(connection, household, file, change, named)
        for _, cells in table.rows:
            row_id = _new_row(connection, household, file, is_headings=False)
            filled = {n: cell for n, cell in zip(table.headings, cells, strict=False) if n}
            _put(connection, row_id, change, filled)
    return change


def undo(connection: sqlite3.Connection, household: int, author: Author, undone: int) -> int:
    """Give every row of a change the version it had before.

    Raises CannotWrite when one of them says something else by now, or it was undone already.
    """
    known = connection.execute(
        "SELECT 1 FROM change WHERE change_id = ? AND household_id = ?", (undone, household)
    ).fetchone()
    since = connection.execute(
        """SELECT EXISTS (SELECT 1 FROM told_version AS mine JOIN version AS newest USING (row_id)
            WHERE mine.change_id = ?1 AND NOT mine.is_headings AND newest.cells IS NOT mine.cells
            AND newest.change_id = (SELECT max(change_id) FROM version WHERE row_id = mine.row_id))
        OR EXISTS (SELECT 1 FROM change WHERE undoes = ?1)""",
        (undone,),
    ).fetchone()[0]
    if known is None or since:
        raise CannotWrite("it was changed since" if known else "there is no such change")
    change = _begun(connection, household, author, undone)
    touched = connection.execute(
        "SELECT file, row_id, is_headings, cells_before FROM told_version WHERE change_id = ?",
        (undone,),
    ).fetchall()
    for _, row_id, is_headings, before in touched:
        if not is_headings:
            _insert(connection, row_id, change, before)
    for file, row_id, is_headings, before in touched:
        if not is_headings:
            continue
        # Rows that were written since may stand under the newer headings: those stay then.
        own, standing = set(json.loads(before or "[]")), rows_now(connection, household, file)[1]
        if all(cells.keys() <= own for cells in standing[file].values()):
            _insert(connection, row_id, change, before)
    return change


def changes(connection: sqlite3.Connection, household: int, most: int) -> tuple[Change, ...]:
    """List the newest changes, the newest first."""
    found = connection.execute(
        """SELECT change.*, later.change_id
        FROM change LEFT JOIN change AS later ON later.undoes = change.change_id
        WHERE change.household_id = ? ORDER BY change.change_id DESC LIMIT ?""",
        (household, most),
    )
    listed = []
    for number, of, operation, at, by, words, undoes, checksum, undone in found:
        _check((of, operation, at, by, words, undoes), checksum)
        listed.append(Change(number, datetime.fromisoformat(at), by, words, undoes, undone))
    return tuple(listed)


def lines(connection: sqlite3.Connection, change: int) -> tuple[Line, ...]:
    """Say what a change did, row by row; a change of headings alone is not told."""
    found = connection.execute(
        """SELECT household_id, file, row_id, cells, checksum, cells_before FROM told_version
        WHERE change_id = ? AND NOT is_headings ORDER BY row_id""",
        (change,),
    )
    told = []
    for household, file, row_id, after, checksum, before in found:
        _check((household, file, 0, row_id, change, after), checksum)
        told.append(Line(file, row_id, json.loads(before or "null"), json.loads(after or "null")))
    return tuple(told)


def _begun(
    connection: sqlite3.Connection, household: int, author: Author, undoes: int | None
) -> int:
    at = author.at.isoformat(timespec="seconds")
    written = (household, author.operation, at, author.by, author.words, undoes)
    cursor = connection.execute(
        "INSERT INTO change VALUES (NULL, ?, ?, ?, ?, ?, ?, ?)", (*written, _checksum(written))
    )
    return int(cursor.lastrowid or 0)


def _new_row(
    connection: sqlite3.Connection, household: int, file: str, *, is_headings: bool
) -> int:
    cursor = connection.execute(
        "INSERT INTO note_row (household_id, file, is_headings) VALUES (?, ?, ?)",
        (household, file, int(is_headings)),
    )
    return int(cursor.lastrowid or 0)


def _put_headings(
    connection: sqlite3.Connection,
    household: int,
    file: str,
    change: int,
    own: tuple[str, ...] | None,
) -> None:
    found = connection.execute(
        "SELECT row_id FROM note_row WHERE household_id = ? AND file = ? AND is_headings",
        (household, file),
    ).fetchone()
    row_id = found[0] if found else _new_row(connection, household, file, is_headings=True)
    _insert(connection, row_id, change, None if own is None else json.dumps(own))


def _put(connection: sqlite3.Connection, row_id: int, change: int, cells: Cells | None) -> None:
    kept = None if cells is None else {name: cell for name, cell in cells.items() if cell}
    _insert(connection, row_id, change, None if kept is None else json.dumps(kept))


def _insert(connection: sqlite3.Connection, row_id: int, change: int, cells: str | None) -> None:
    household, file, is_headings = connection.execute(
        "SELECT household_id, file, is_headings FROM note_row WHERE row_id = ?", (row_id,)
    ).fetchone()
    checksum = _checksum((household, file, is_headings, row_id, change, cells))
    connection.execute("INSERT INTO version VALUES (?, ?, ?, ?)", (row_id, change, cells, checksum))


def _checksum(written: tuple[str | int | None, ...]) -> int:
    return zlib.crc32("\x1f".join(map(str, written)).encode())


def _check(written: tuple[str | int | None, ...], checksum: int) -> None:
    if _checksum(written) != checksum:
        raise sqlite3.DatabaseError("a row is malformed")
