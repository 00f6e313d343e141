"""Copies are whole, listed newest first, brought back exactly; a damaged one changes nothing."""

import sqlite3
import threading
from concurrent.futures import ThreadPoolExecutor
from contextlib import closing
from datetime import timedelta
from pathlib import Path

import pytest

from model.errors import StoreError
from model.store.copies import bring_back, list_copies
from model.store.store import Store
from tests.store.keeping import NOW, author, begun, check_invariants, picked

LOG = "harvest_log.csv"


@pytest.fixture
def path(tmp_path: Path) -> Path:
    return tmp_path / "households.sqlite"


def operations(path: Path) -> set[str]:
    with closing(sqlite3.connect(path)) as raw:
        return {row[0] for row in raw.execute("SELECT operation FROM change")}


def test_a_copy_brings_back_exactly_what_there_was(path: Path) -> None:
    store, household = begun(path)
    before = store.tables(household)
    copy = store.back_up(NOW)
    store.write(household, author("one"), [picked(3)])
    after = store.tables(household)
    kept = bring_back(store.path, copy, NOW)

    assert store.tables(household) == before
    assert list_copies(store.path) == (kept, copy)
    bring_back(store.path, kept, NOW)
    assert store.tables(household) == after
    check_invariants(path)


@pytest.mark.parametrize("content", [b"", b"no store", b"SQLite format 3\0" + b"\xff" * 4096])
def test_a_damaged_copy_is_refused_and_nothing_changes(path: Path, content: bytes) -> None:
    store, household = begun(path)
    before = store.tables(household)
    copy = store.back_up(NOW)
    copy.write_bytes(content)

    with pytest.raises(StoreError):
        bring_back(store.path, copy, NOW)
    with pytest.raises(StoreError, match="no such copy"):
        bring_back(store.path, copy.with_name("other.sqlite"), NOW)
    assert store.tables(household) == before


def test_copies_are_listed_newest_first_also_of_one_second_and_when_the_clock_is_set_back(
    path: Path,
) -> None:
    store, _ = begun(path)
    moments = [NOW, NOW, NOW - timedelta(hours=1), *[NOW] * 9]
    made = [store.back_up(moment) for moment in moments]

    assert list_copies(store.path) == tuple(reversed(made))
    assert len(set(made)) == len(moments)


def test_a_copy_is_one_file_that_holds_what_the_log_held(path: Path) -> None:
    store, household = begun(path)
    with closing(sqlite3.connect(path)) as open_window:
        open_window.execute("SELECT count(*) FROM change").fetchone()
        store.write(household, author("one"), [picked(3)])
        copy = store.back_up(NOW)

    assert [file.name for file in copy.parent.iterdir()] == [copy.name]
    assert operations(copy) == {"begin", "one"}


def test_two_stores_in_one_folder_have_their_own_copies(path: Path) -> None:
    store, _ = begun(path)
    other, _ = begun(path.with_name("other.sqlite"))
    copy = store.back_up(NOW)

    assert list_copies(store.path) == (copy,)
    assert list_copies(other.path) == ()


def test_what_was_written_before_a_copy_is_in_it_while_others_go_on_writing(path: Path) -> None:
    store, household = begun(path)
    acknowledged, stop = list[str](), threading.Event()

    def write() -> None:
        for number in range(500):
            if stop.is_set():
                return
            store.write(household, author(f"{number}"), [picked(1)])
            acknowledged.append(f"{number}")

    with ThreadPoolExecutor(1) as window:
        writing = window.submit(write)
        for _ in range(10):
            before = set(acknowledged)
            copy = Store(path, NOW).back_up(NOW)
            assert before <= operations(copy)
        stop.set()
        writing.result()
    for copy in list_copies(store.path):
        check_invariants(copy)


def test_bringing_back_while_others_write_loses_nothing_that_neither_copy_holds(
    path: Path,
) -> None:
    store, household = begun(path)
    copy = store.back_up(NOW)

    def write(window: int) -> set[str]:
        named = {f"{window}-{number}" for number in range(60)}
        for operation in named:
            Store(path, NOW).write(household, author(operation), [picked(1)])
        return named

    with ThreadPoolExecutor(3) as windows:
        writing = [windows.submit(write, window) for window in range(2)]
        for _ in range(5):
            bring_back(store.path, copy, NOW)
        acknowledged = set().union(*(window.result() for window in writing))
    kept = operations(path).union(*(operations(copy) for copy in list_copies(store.path)))
    assert len(acknowledged) == 120
    assert acknowledged <= kept
    check_invariants(path)


def test_a_copy_that_cannot_be_made_is_told_and_leaves_nothing(path: Path) -> None:
    store, _ = begun(path)
    path.with_name("households copies").rmdir()
    path.with_name("households copies").write_text("in the way")

    with pytest.raises(StoreError, match="cannot be written"):
        store.back_up(NOW)
    path.with_name("households copies").unlink()
    assert operations(store.back_up(NOW)) == {"begin"}
