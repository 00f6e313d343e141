"""One SQLite file: opened, checked, written in whole transactions, and copied.

Every transaction has a connection of its own, so that two windows only ever wait for each
other. What is acknowledged is on the disk.
"""

import json
import sqlite3
from collections.abc import Iterator
from contextlib import closing, contextmanager
from pathlib import Path

from model.errors import StoreError

# Says whose file it is, in a field that SQLite keeps for that.
APPLICATION_ID = 0x48325031
MOST_WAIT_SECONDS = 30.0
_MAGIC = b"SQLite format 3\0"
_DAMAGED = ("it is damaged", "bring back a copy of it")


class Database:
    """The file, and the ways to read and write it."""

    def __init__(self, path: Path) -> None:
        """Name the file; nothing is opened yet."""
        self.path = path

    def check(self, newest_form: int) -> None:
        """Refuse a file that is not ours, is newer than known, damaged, or cannot be written.

        Raises StoreError; only a file that passes is touched. One that is not there yet, or
        empty, is one to begin with.
        """
        try:
            self.path.parent.mkdir(parents=True, exist_ok=True)
            head = self.path.read_bytes()[:100] if self.path.exists() else b""
        except OSError as error:
            raise StoreError(self.path, f"it cannot be opened ({error.strerror})") from error
        if head and not head.startswith(_MAGIC):
            raise StoreError(self.path, "it is no store of this program", "choose another file")
        if head:
            self._check_whose(newest_form)
        with self.writing() as connection:
            connection.execute(f"PRAGMA application_id = {APPLICATION_ID}")
            faults = [row[0] for row in connection.execute("PRAGMA quick_check(3)")]
            faults += [f"{row[0]}" for row in connection.execute("PRAGMA foreign_key_check")]
        if faults != ["ok"]:
            found, wanted = _DAMAGED
            raise StoreError(self.path, f"{found} ({faults[0]})", wanted)

    def _check_whose(self, newest_form: int) -> None:
        """Refuse another program's file and a newer store; changes nothing in it."""
        address = f"{self.path.absolute().as_uri()}?mode=ro"
        with _told(self.path), closing(sqlite3.connect(address, uri=True)) as connection:
            (owner,) = connection.execute("PRAGMA application_id").fetchone()
            (form,) = connection.execute("PRAGMA user_version").fetchone()
            (tables,) = connection.execute("SELECT count(*) FROM sqlite_master").fetchone()
        if owner != APPLICATION_ID and (owner or tables):
            raise StoreError(self.path, "it is a file of another program", "choose another file")
        if form > newest_form:
            found = f"a newer version of this program wrote it (form {form}, known {newest_form})"
            raise StoreError(self.path, found, "open it with the newer version")

    @contextmanager
    def reading(self) -> Iterator[sqlite3.Connection]:
        """Give a connection that sees one state of the file throughout."""
        with self._connected() as connection:
            connection.execute("BEGIN")
            yield connection
            connection.execute("ROLLBACK")

    @contextmanager
    def writing(self) -> Iterator[sqlite3.Connection]:
        """Give a connection whose writing is kept whole at the end, or not at all."""
        with self._connected() as connection:
            connection.execute("BEGIN IMMEDIATE")
            try:
                yield connection
                connection.execute("COMMIT")
            except BaseException:
                if connection.in_transaction:
                    connection.execute("ROLLBACK")
                raise

    @contextmanager
    def _connected(self) -> Iterator[sqlite3.Connection]:
        with _told(self.path), closing(self._connect(self.path)) as connection:
            connection.execute("PRAGMA journal_mode = WAL")
            connection.execute("PRAGMA synchronous = FULL")
            connection.execute("PRAGMA foreign_keys = ON")
            yield connection

    @staticmethod
    def _connect(path: Path) -> sqlite3.Connection:
        return sqlite3.connect(path, timeout=MOST_WAIT_SECONDS, isolation_level=None)

    def copy_to(self, path: Path) -> None:
        """Copy the file as it stands, while others may be writing; raises StoreError."""
        self._copied(self.path, path)

    def copy_from(self, path: Path) -> None:
        """Put the content of a copy in place, in one transaction; raises StoreError."""
        self._copied(path, self.path)

    def _copied(self, source: Path, target: Path) -> None:
        try:
            target.parent.mkdir(parents=True, exist_ok=True)
        except OSError as error:
            raise StoreError(target, f"it cannot be written ({error.strerror})") from error
        with (
            _told(target),
            closing(self._connect(source)) as here,
            closing(self._connect(target)) as there,
        ):
            here.backup(there)


@contextmanager
def _told(path: Path) -> Iterator[None]:
    """Turn what SQLite raises, and text that is none, into one StoreError."""
    try:
        yield
    except sqlite3.IntegrityError:
        raise
    except (UnicodeDecodeError, json.JSONDecodeError) as error:
        raise StoreError(path, *_DAMAGED) from error
    except sqlite3.Error as error:
        raise StoreError(path, *_in_words(str(error))) from error


def _in_words(found: str) -> tuple[str, str]:
    """Say what SQLite found, and what would help, in the household's words."""
    if "full" in found:
        return "the disk is full; nothing was written", "make room, then write it again"
    if "readonly" in found or "unable to open" in found:
        return "it can be read only; nothing was written", "let this program write to its folder"
    if "locked" in found:
        return "another window has been writing for too long", "write it again"
    if "malformed" in found or "not a database" in found:
        return _DAMAGED
    return f"it cannot be used ({found})", "look at the disk, or bring back a copy"
