"""What goes wrong with a machine: killed, full, read only, two windows or programs at once."""

import os
import random
import resource
import signal
import sqlite3
import subprocess
from collections.abc import Callable, Iterator
from concurrent.futures import ThreadPoolExecutor
from contextlib import closing, suppress
from pathlib import Path

import pytest

from model.errors import StoreError
from model.store.store import Store
from tests.store.keeping import NOW, author, begun, check_invariants, picked, tables

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
    """Mount a disk of 600 kB, where that is allowed."""
    disk = tmp_path / "disk"
    disk.mkdir()
    mount = ["mount", "-t", "tmpfs", "-o", "size=600k", "tmpfs", str(disk)]
    if os.geteuid() or subprocess.run(mount, check=False, capture_output=True).returncode:
        pytest.skip("a small disk can only be mounted by root")
    yield disk
    subprocess.run(["umount", "-l", str(disk)], check=True)


def test_a_full_disk_is_told_once_and_nothing_is_half_written(small_disk: Path) -> None:
    path = small_disk / "households.sqlite"
    store, household = begun(path)
    ballast = small_disk / "photographs"
    ballast.write_bytes(b"x" * 150_000)
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
        for number in range(60):
            stores[window].write(1, author(f"{window}-{number}"), [picked(1)])

    with ThreadPoolExecutor(4) as windows:
        list(windows.map(write, range(4)))
    assert len(stores[0].rows(1, LOG)) == 240
    check_invariants(path)


def in_processes(count: int, do: Callable[[int], None]) -> list[int]:
    """Fork so many children at once; gives how each of them ended."""
    children = []
    for number in range(count):
        child = os.fork()
        if child == 0:
            code = 1
            with suppress(BaseException):
                do(number)
                code = 0
            os._exit(code)
        children.append(child)
    return [os.waitstatus_to_exitcode(os.waitpid(child, 0)[1]) for child in children]


def test_programs_that_begin_and_write_one_store_at_once_lose_nothing(path: Path) -> None:
    def write(number: int) -> None:
        store = Store(path, NOW)
        household = store.begin("Tiny", tables(), author("begin"))
        for entry in range(40):
            store.write(household, author(f"{number}-{entry}"), [picked(1)])
            store.write(household, author(f"of all {entry}"), [picked(2)])

    assert in_processes(5, write) == [0] * 5
    assert [household.name for household in Store(path, NOW).households()] == ["Tiny"]
    assert len(Store(path, NOW).rows(1, LOG)) == 5 * 40 + 40
    check_invariants(path)


def test_a_file_that_may_grow_no_further_is_told_and_nothing_is_half_written(path: Path) -> None:
    """The limit of a process stands for a full disk where none can be mounted."""
    store, household = begun(path)

    def write(_: int) -> None:
        signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
        most = path.stat().st_size + 200_000
        resource.setrlimit(resource.RLIMIT_FSIZE, (most, most))
        with pytest.raises(StoreError, match=r"the disk is full.*; nothing was written"):
            write_until_full(store, household)

    assert in_processes(1, write) == [0]
    kept = store.rows(household, LOG)
    assert kept
    assert len(kept) % 20 == 0
    store.write(household, author("with room"), [picked(7)])
    assert len(store.rows(household, LOG)) == len(kept) + 1
    check_invariants(path)


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
