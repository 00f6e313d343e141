"""What goes wrong with a machine: killed, full, damaged, read only, two windows at once."""

import os
import random
import signal
import sqlite3
import subprocess
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from contextlib import closing, suppress
from pathlib import Path

import pytest

from model.errors import PlanningError, StoreError
from model.store.store import Store
from tests.store.keeping import NOW, author, begun, check_invariants, picked

KILLS = 200
LOG = "harvest_log.csv"


@pytest.fixture
def path(tmp_path: Path) -> Path:
    return tmp_path / "households.sqlite"


def write_until_killed(path: Path, household: int, run: int, told: int) -> None:
    """Write one picking after the other, and tell each that was acknowledged."""
    store = Store(path, NOW)
    for number in range(10_000):
        store.write(household, author(f"{run}-{number}"), [picked(1)])
        os.write(told, f"{run}-{number}\n".encode())


def killed_while_writing(path: Path, household: int, run: int, after_seconds: float) -> list[str]:
    """Fork a writer, kill it after a while; gives what it had told."""
    reading, writing = os.pipe()
    child = os.fork()
    if child == 0:
        with suppress(BaseException):
            os.close(reading)
            write_until_killed(path, household, run, writing)
        os._exit(1)
    os.close(writing)
    with suppress(ChildProcessError):
        signal.sigtimedwait([signal.SIGUSR2], after_seconds)
    os.kill(child, signal.SIGKILL)
    os.waitpid(child, 0)
    with os.fdopen(reading) as pipe:
        return pipe.read().splitlines()


def test_nothing_acknowledged_is_lost_by_a_kill_at_any_moment(path: Path) -> None:
    _, household = begun(path)
    moments = random.Random(1)  # noqa: S311 -- moments, no secrets
    acknowledged = set[str]()
    for run in range(KILLS):
        # four stores one after the other, so that none of them grows long
        if run % 50 == 0 and run:
            check_invariants(path)
            acknowledged.clear()
            path = path.with_name(f"after {run}.sqlite")
            _, household = begun(path)
        acknowledged |= set(killed_while_writing(path, household, run, moments.uniform(0, 0.12)))
        with closing(sqlite3.connect(path)) as raw:
            kept = {row[0] for row in raw.execute("SELECT operation FROM change")}
        assert acknowledged <= kept
    check_invariants(path)
    assert acknowledged


def write_until_full(store: Store, household: int) -> None:
    for number in range(5_000):
        store.write(household, author(f"{number}"), [picked(1)] * 20)


@pytest.fixture
def small_disk(tmp_path: Path) -> Iterator[Path]:
    """Mount a disk of one megabyte, where that is allowed."""
    disk = tmp_path / "disk"
    disk.mkdir()
    mount = ["mount", "-t", "tmpfs", "-o", "size=1m", "tmpfs", str(disk)]
    if os.geteuid() or subprocess.run(mount, check=False, capture_output=True).returncode:
        pytest.skip("a small disk can only be mounted by root")
    yield disk
    subprocess.run(["umount", "-l", str(disk)], check=True)


def test_a_full_disk_is_told_once_and_nothing_is_half_written(small_disk: Path) -> None:
    path = small_disk / "households.sqlite"
    store, household = begun(path)
    ballast = small_disk / "photographs"
    ballast.write_bytes(b"x" * 200_000)
    with pytest.raises(StoreError, match="the disk is full; nothing was written"):
        write_until_full(store, household)
    kept = store.rows(household, LOG)

    assert len(kept) % 20 == 0
    ballast.unlink()
    store.write(household, author("with room"), [picked(7)])
    assert len(store.rows(household, LOG)) == len(kept) + 1
    check_invariants(path)


def test_two_windows_write_at_once_and_none_of_it_is_lost(path: Path) -> None:
    begun(path)
    stores = [Store(path, NOW) for _ in range(4)]

    def write(window: int) -> None:
        for number in range(40):
            stores[window].write(1, author(f"{window}-{number}"), [picked(1)])

    with ThreadPoolExecutor(4) as windows:
        list(windows.map(write, range(4)))
    assert len(stores[0].rows(1, LOG)) == 160
    check_invariants(path)


def test_a_store_of_a_newer_version_is_left_alone(path: Path) -> None:
    begun(path)
    with closing(sqlite3.connect(path)) as raw:
        raw.execute("PRAGMA user_version = 99")
    before = path.read_bytes()

    with pytest.raises(StoreError, match="newer version"):
        Store(path, NOW)
    assert path.read_bytes() == before


def test_a_file_that_is_no_store_is_left_alone(path: Path) -> None:
    for content in (b"\x89PNG\r\n\x1a\n" + b"\0" * 5000, b"picked_on,crop\n", b"SQLite format 3"):
        path.write_bytes(content)
        with pytest.raises(StoreError):
            Store(path, NOW)
        assert path.read_bytes() == content


def test_a_database_of_another_program_is_left_alone(path: Path) -> None:
    with closing(sqlite3.connect(path)) as raw:
        raw.execute("CREATE TABLE bookmarks (address TEXT)")
    before = path.read_bytes()

    with pytest.raises(StoreError, match="another program"):
        Store(path, NOW)
    assert path.read_bytes() == before


def whole_file(path: Path) -> bytes:
    """Give a store as one file, nothing of it left in the log beside it."""
    store, household = begun(path)
    for number in range(30):
        store.write(household, author(f"{number}"), [picked(1)])
    with closing(sqlite3.connect(path)) as raw:
        raw.execute("PRAGMA wal_checkpoint(TRUNCATE)")
    for beside in path.parent.glob(f"{path.name}-*"):
        beside.unlink()
    return path.read_bytes()


def opened_or_told(path: Path, household: int = 1) -> int | None:
    """Read everything; gives how many pickings there are, None when a clear error told why not."""
    try:
        store = Store(path, NOW)
        store.tables(household)
        return len(store.rows(household, LOG))
    except PlanningError:
        return None


def test_a_store_that_was_cut_off_is_told_and_never_begun_anew(path: Path) -> None:
    whole = whole_file(path)
    for length in (1, 10, 99, 512, 4096, 5000, len(whole) // 2, len(whole) - 4096, len(whole) - 1):
        path.write_bytes(whole[:length])
        for beside in path.parent.glob(f"{path.name}-*"):
            beside.unlink()
        assert opened_or_told(path) in (None, 30)


def test_a_store_with_damaged_pages_is_told_or_whole(path: Path) -> None:
    whole = whole_file(path)
    dice = random.Random(2)  # noqa: S311 -- places, no secrets
    told = 0
    for _ in range(60):
        broken = bytearray(whole)
        for _ in range(dice.choice([1, 20, 400])):
            broken[dice.randrange(len(broken))] = dice.randrange(256)
        path.write_bytes(bytes(broken))
        for beside in path.parent.glob(f"{path.name}-*"):
            beside.unlink()
        found = opened_or_told(path)
        told += found is None
        assert found is None or found <= 30
    assert told


def test_a_folder_that_may_not_be_written_is_told(tmp_path: Path) -> None:
    folder = tmp_path / "locked"
    folder.mkdir()
    path = folder / "households.sqlite"
    begun(path)
    child = os.fork()
    if child == 0:
        code = 1
        with suppress(BaseException):
            for file in (folder, *folder.iterdir()):
                file.chmod(0o555 if file.is_dir() else 0o444)
            tmp_path.chmod(0o755)
            if os.geteuid() == 0:
                os.setuid(65534)
            try:
                Store(path, NOW)
            except StoreError as error:
                code = 0 if "read only" in str(error) or "opened" in str(error) else 2
        os._exit(code)
    _, status = os.waitpid(child, 0)

    assert os.waitstatus_to_exitcode(status) == 0
