"""A file that is no store, a newer one, a damaged one: told, left alone, and never begun anew."""

import random
import sqlite3
from contextlib import closing
from pathlib import Path

import pytest

from model.errors import DamagedStore, StoreError
from model.intake.tables import SeasonTables
from model.store.copies import bring_back, list_copies
from model.store.store import Store
from tests.store.keeping import NOW, author, begun, check_invariants, picked, tables

LOG = "harvest_log.csv"
ENTRIES = 30


@pytest.fixture
def path(tmp_path: Path) -> Path:
    return tmp_path / "households.sqlite"


def test_a_store_of_a_newer_version_is_left_alone(path: Path) -> None:
    begun(path)
    with closing(sqlite3.connect(path)) as raw:
        raw.execute("PRAGMA user_version = 99")
    before = path.read_bytes()

    with pytest.raises(StoreError, match="newer version"):
        Store(path, NOW)
    assert path.read_bytes() == before


@pytest.mark.parametrize(
    "content", [b"\x89PNG\r\n\x1a\n" + b"\0" * 5000, b"picked_on,crop\n", b"SQLite format 3"]
)
def test_a_file_that_is_no_store_is_left_alone(path: Path, content: bytes) -> None:
    path.write_bytes(content)

    with pytest.raises(StoreError, match="no store"):
        Store(path, NOW)
    assert path.read_bytes() == content


def test_a_database_of_another_program_is_left_alone(path: Path) -> None:
    with closing(sqlite3.connect(path)) as raw:
        raw.execute("CREATE TABLE bookmarks (address TEXT)")
    before = path.read_bytes()

    with pytest.raises(StoreError, match="another program"):
        Store(path, NOW)
    assert path.read_bytes() == before
    assert list(path.parent.iterdir()) == [path]


def test_a_folder_in_the_place_of_the_file_is_told(path: Path) -> None:
    path.mkdir()

    with pytest.raises(StoreError, match="cannot be opened"):
        Store(path, NOW)


@pytest.fixture(scope="module")
def whole(tmp_path_factory: pytest.TempPathFactory) -> bytes:
    """Give a store as one file, nothing of it left in the log beside it."""
    path = tmp_path_factory.mktemp("whole") / "households.sqlite"
    store, household = begun(path)
    for number in range(ENTRIES):
        store.write(household, author(f"{number}"), [picked(1)])
    with closing(sqlite3.connect(path)) as raw:
        raw.execute("PRAGMA wal_checkpoint(TRUNCATE)")
    return path.read_bytes()


def put(path: Path, content: bytes) -> None:
    """Put a file in a store's place, with nothing beside it but the sign that it was begun."""
    path.with_name(f"{path.stem} copies").mkdir(exist_ok=True)
    for beside in path.parent.glob(f"{path.name}-*"):
        beside.unlink()
    path.write_bytes(content)


def read(path: Path) -> SeasonTables | None:
    """Read everything; None when a clear error told why it cannot be."""
    try:
        store = Store(path, NOW)
        for change in store.changes(1, 100):
            store.lines(change.change_id)
        return store.tables(1)
    except StoreError:
        return None


@pytest.mark.parametrize("share", [0, 0.0001, 0.001, 0.01, 0.1, 0.3, 0.5, 0.8, 0.95, 0.9999])
def test_a_store_that_was_cut_off_is_told_and_never_begun_anew(
    path: Path, whole: bytes, share: float
) -> None:
    put(path, whole[: int(share * len(whole))])

    with pytest.raises(DamagedStore, match="bring back a copy"):
        Store(path, NOW)
    assert path.stat().st_size <= len(whole)


def test_a_store_that_is_gone_is_told_and_never_begun_anew(path: Path, whole: bytes) -> None:
    put(path, whole)
    path.unlink()

    with pytest.raises(DamagedStore, match="move 'households copies' away to begin anew"):
        Store(path, NOW)
    assert not path.exists()
    path.with_name("households copies").rename(path.with_name("away"))
    assert Store(path, NOW).households() == ()


@pytest.mark.parametrize("bytes_gone", [1, 20, 400])
def test_bytes_gone_wrong_are_told_or_have_changed_nothing(
    path: Path, whole: bytes, bytes_gone: int
) -> None:
    put(path, whole)
    sound, dice, told = read(path), random.Random(bytes_gone), 0  # noqa: S311 -- no secrets
    assert sound is not None
    for _ in range(60):
        broken = bytearray(whole)
        for _ in range(bytes_gone):
            broken[dice.randrange(len(broken))] ^= dice.randrange(1, 256)
        put(path, bytes(broken))
        found = read(path)
        told += found is None
        assert found in (None, sound)
    assert told


def test_one_wrong_digit_of_an_entry_is_told(path: Path, whole: bytes) -> None:
    assert whole.count(b'"picked_kg": "1"') == ENTRIES
    put(path, whole.replace(b'"picked_kg": "1"', b'"picked_kg": "7"', 1))

    with pytest.raises(DamagedStore):
        Store(path, NOW).tables(1)


def test_a_log_that_was_cut_off_loses_no_more_than_its_last_whole_entries(
    path: Path, tmp_path: Path
) -> None:
    store, household = begun(path)
    copied = tmp_path / "machine that lost power" / path.name
    copied.parent.mkdir()
    with closing(sqlite3.connect(path)) as open_window:  # so that the log is not folded in
        open_window.execute("SELECT count(*) FROM change").fetchone()
        for number in range(ENTRIES):
            store.write(household, author(f"{number}"), [picked(1)])
        file, log = path.read_bytes(), path.with_name(f"{path.name}-wal").read_bytes()
    kept = set()
    for share in (0.0, 0.1, 0.33, 0.5, 0.77, 0.99, 1.0):
        put(copied, file)
        copied.with_name(f"{path.name}-wal").write_bytes(log[: int(share * len(log))])
        operations = [int(row["picked_kg"]) for row in Store(copied, NOW).rows(1, LOG).values()]
        kept.add(len(operations))
        check_invariants(copied)
    assert min(kept) == 0
    assert max(kept) == ENTRIES


@pytest.mark.parametrize("content", [None, b"", b"\xff" * 9000])
def test_a_copy_is_brought_back_in_the_place_of_a_store_that_does_not_open(
    path: Path, content: bytes | None
) -> None:
    store, household = begun(path)
    store.write(household, author("one"), [picked(3)])
    sound, copy = store.tables(household), store.back_up(NOW)
    path.unlink()
    if content is not None:
        path.write_bytes(content)

    assert list_copies(path) == (copy,)
    aside = bring_back(path, copy, NOW)
    assert Store(path, NOW).tables(household) == sound
    assert (None if aside is None else aside.read_bytes()) == content
    check_invariants(path)


def test_another_program_s_file_is_not_replaced_by_a_copy(path: Path, tmp_path: Path) -> None:
    store, _ = begun(tmp_path / "kept" / "households.sqlite")
    path.write_bytes(b"a letter")

    with pytest.raises(StoreError):
        bring_back(path, store.back_up(NOW), NOW)
    assert path.read_bytes() == b"a letter"


def test_what_was_begun_and_never_written_is_an_empty_store(path: Path) -> None:
    path.write_bytes(b"")
    store = Store(path, NOW)

    assert store.households() == ()
    assert store.begin("Tiny", tables(), author("begin")) == 1
