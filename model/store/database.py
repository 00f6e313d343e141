"""One SQLite file: opened, checked, written in whole transactions, and copied.

Every transaction has a connection of its own, so that two windows only ever wait for each
other. What is acknowledged is on the disk: in the file, or while the program runs in the log
beside it (``-wal``). Whoever copies the file alone may miss the last entries; the store's own
copies hold everything in one file.
"""

import json
import sqlite3
import time
from collections.abc import Iterator
from contextlib import closing, contextmanager
from pathlib import Path

from model.errors import DamagedStore, StoreError

# Says whose file it is, in a field that SQLite keeps for that.
APPLICATION_ID = 0x48325031
MOST_WAIT_SECONDS = 30.0
LOOK_AGAIN_SECONDS = 0.002
_MAGIC = b"SQLite format 3\0"
_BRING_BACK = "bring back a copy of it"


class Database:
    """The file, and the ways to read and write it."""

    def __init__(self, path: Path) -> None:
        """Name the file; nothing is opened yet."""
        self.path = path

    @property
    def copies_folder(self) -> Path:
        """Give where copies of it lie; the folder also says that there was a store once."""
        return self.path.with_name(f"{self.path.stem} copies")

    def check(self, newest_form: int) -> None:
        """Refuse a file that is not ours, is newer than known, damaged, or cannot be written.

        Raises StoreError, of a damaged one DamagedStore; only a file that passes is touched.
        Where there never was one, a file is begun.
        """
        try:
            self.path.parent.mkdir(parents=True, exist_ok=True)
            head = _head(self.path)
        except OSError as error:
            raise StoreError(self.path, f"it cannot be opened ({error.strerror})") from error
        if not head.startswith(_MAGIC):
            self._check_never_begun(head)
        else:
            self._check_whose(newest_form)
        with self.writing() as connection:
            if connection.execute("PRAGMA application_id").fetchone() != (APPLICATION_ID,):
                connection.execute(f"PRAGMA application_id = {APPLICATION_ID}")
        with self.reading() as connection:
            faults = [row[0] for row in connection.execute("PRAGMA integrity_check(3)")]
            faults += [f"{row[0]}" for row in connection.execute("PRAGMA foreign_key_check")]
        if faults != ["ok"]:
            raise DamagedStore(self.path, f"it is damaged ({faults[0]})", _BRING_BACK)

    def _check_never_begun(self, head: bytes) -> None:
        """Refuse what cannot be a store; what once was one is damaged, and not begun anew."""
        once = self.copies_folder.is_dir() or _size(_beside(self.path, "-wal"))
        if once:
            found = "it is damaged" if head else "it is empty or gone, and was not"
            wanted = f"{_BRING_BACK}, or move {self.copies_folder.name!r} away to begin anew"
            raise DamagedStore(self.path, found, wanted)
        if head:
            raise StoreError(self.path, "it is no store of this program", "choose another file")

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
        with _told(self.path), closing(self._connect()) as connection:
            connection.execute("BEGIN")
            yield connection
            connection.execute("ROLLBACK")

    @contextmanager
    def writing(self) -> Iterator[sqlite3.Connection]:
        """Give a connection whose writing is kept whole at the end, or not at all."""
        with self._connected() as connection:
            _begin_writing(connection)
            try:
                yield connection
                connection.execute("COMMIT")
            except BaseException:
                if connection.in_transaction:
                    connection.execute("ROLLBACK")
                raise

    @contextmanager
    def _connected(self) -> Iterator[sqlite3.Connection]:
        with _told(self.path), closing(self._connect()) as connection:
            connection.execute("PRAGMA journal_mode = WAL")
            connection.execute("PRAGMA synchronous = FULL")
            connection.execute("PRAGMA foreign_keys = ON")
            yield connection

    def _connect(self) -> sqlite3.Connection:
        return sqlite3.connect(self.path, timeout=MOST_WAIT_SECONDS, isolation_level=None)

    def mark_begun(self) -> None:
        """Leave the sign that there is a store now; raises StoreError."""
        try:
            self.copies_folder.mkdir(exist_ok=True)
        except OSError as error:
            raise StoreError(self.copies_folder, f"it cannot be made ({error.strerror})") from error

    def copy_to(self, target: Path) -> None:
        """Write all of it into another file, while others may be writing; raises StoreError."""
        with _told(target), self._connected() as here:
            _copied(here, target)

    def replace_by(self, source: Path, before: Path) -> None:
        """Copy what is here into ``before`` and put ``source`` in its place; raises StoreError.

        Others wait meanwhile, so that nothing is written that neither of the two holds.
        """
        with _told(self.path), closing(self._connect()) as here:
            here.execute("PRAGMA locking_mode = EXCLUSIVE")
            _begin_writing(here)
            here.execute("COMMIT")
            _copied(here, before)
            with closing(sqlite3.connect(source)) as there:
                there.backup(here)

    def move_to(self, target: Path) -> None:
        """Move the file and what SQLite keeps beside it; raises OSError."""
        for end in ("", "-wal", "-shm"):
            if _beside(self.path, end).exists():
                _beside(self.path, end).replace(_beside(target, end))


def _begin_writing(connection: sqlite3.Connection) -> None:
    """Wait for a turn to write; SQLite itself looks so seldom that a rush would leave it none."""
    (most_wait,) = connection.execute("PRAGMA busy_timeout").fetchone()
    connection.execute("PRAGMA busy_timeout = 0")
    until = time.monotonic() + MOST_WAIT_SECONDS
    while not connection.in_transaction:
        try:
            connection.execute("BEGIN IMMEDIATE")
        except sqlite3.OperationalError as error:
            if "locked" not in str(error) or time.monotonic() > until:
                raise
            time.sleep(LOOK_AGAIN_SECONDS)
    connection.execute(f"PRAGMA busy_timeout = {most_wait:d}")


def _copied(source: sqlite3.Connection, target: Path) -> None:
    with closing(sqlite3.connect(target, isolation_level=None)) as there:
        source.backup(there)
        # One file then, with nothing beside it that could be left behind.
        there.execute("PRAGMA journal_mode = DELETE")


def _beside(path: Path, end: str) -> Path:
    return path.with_name(path.name + end)


def _size(path: Path) -> int:
    return path.stat().st_size if path.exists() else 0


def _head(path: Path) -> bytes:
    if not path.exists():
        return b""
    with path.open("rb") as stream:
        return stream.read(len(_MAGIC))


@contextmanager
def _told(path: Path) -> Iterator[None]:
    """Turn what SQLite raises, and text that is none, into one StoreError."""
    try:
        yield
    except (UnicodeDecodeError, json.JSONDecodeError) as error:
        raise DamagedStore(path, "it is damaged", _BRING_BACK) from error
    except sqlite3.Error as error:
        raise _in_words(path, str(error)) from error


def _in_words(path: Path, found: str) -> StoreError:
    """Say what SQLite found, and what would help, in the household's words."""
    if "malformed" in found or "not a database" in found:
        return DamagedStore(path, "it is damaged", _BRING_BACK)
    if "full" in found:
        return StoreError(
            path, "the disk is full; nothing was written", "make room, then write it again"
        )
    if "I/O" in found:
        wanted = "make room on the disk, or have it looked at, then write it again"
        return StoreError(path, "the disk is full or failing; nothing was written", wanted)
    if "readonly" in found or "unable to open" in found:
        wanted = "let this program write to its folder"
        return StoreError(path, "it can be read only; nothing was written", wanted)
    if "locked" in found:
        return StoreError(path, "another window has been writing for too long", "write it again")
    return StoreError(
        path, f"it cannot be used ({found})", "look at the disk, or bring back a copy"
    )
