"""Copies of the store: whole or not there at all, listed, and brought back."""

import re
import uuid
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import datetime
from pathlib import Path

from model.errors import DamagedStore, StoreError
from model.store.database import Database
from model.store.migrations import form_of, migrate, shipped_steps

# Copies are counted: clocks are set back, and two copies may be of one second.
_NUMBER = re.compile(r".* copy ([0-9]+), ")


def list_copies(path: Path) -> tuple[Path, ...]:
    """List the copies of a store, the newest first; the store itself need not be sound.

    >>> copy = store.back_up(datetime(2027, 3, 16, tzinfo=UTC))
    >>> copy in model.list_copies(store.path)
    True
    """
    found = Database(path).copies_folder.glob("*.sqlite")
    return tuple(sorted(found, key=lambda copy: (_number(copy), copy.name), reverse=True))


def back_up(path: Path, now: datetime) -> Path:
    """Copy a store, while others may be writing; gives the copy. Raises StoreError."""
    copy = _next(path, now)
    with _part(path) as part:
        Database(path).copy_to(part)
        part.replace(copy)
    return copy


def bring_back(path: Path, copy: Path, now: datetime) -> Path | None:
    """Put a copy in a store's place, damaged or gone as that may be. Raises StoreError.

    Gives what was there: a copy, or the damaged file itself, which is moved aside; None if
    there was nothing.

    >>> now = datetime(2027, 3, 15, tzinfo=UTC)
    >>> before = model.bring_back(store.path, store.back_up(now), now)
    >>> before in model.list_copies(store.path)
    True
    >>> model.bring_back(store.path, Path("nowhere.sqlite"), now)
    Traceback (most recent call last):
        ...
    model.errors.StoreError: nowhere.sqlite: there is no such copy; choose another
    """
    steps = shipped_steps()
    if not copy.is_file():
        raise StoreError(copy, "there is no such copy", "choose another")
    sound = _is_sound(path, steps[-1].number)
    with _part(path) as part:
        try:
            Database(copy).copy_to(part)
            _check_store(Database(part), steps[-1].number)
        except StoreError as error:
            raise StoreError(copy, error.found, "choose another copy") from error
        migrate(Database(part), steps, now)
        before = _next(path, now)
        if not sound:
            there, aside = path.exists(), before.with_suffix(".damaged")
            Database(path).move_to(aside)
            Database(part).move_to(path)
            return aside if there else None
        with _part(path) as kept:
            Database(path).replace_by(part, kept)
            kept.replace(before)
        return before


def _is_sound(path: Path, newest_form: int) -> bool:
    """Say whether a store can be used; raises StoreError where that is no question of damage."""
    try:
        if path.exists():
            Database(path).check(newest_form)
    except DamagedStore:
        return False
    return path.exists()


def _check_store(database: Database, newest_form: int) -> None:
    database.check(newest_form)
    if form_of(database) == 0:
        raise StoreError(database.path, "it holds no store")


def _next(path: Path, now: datetime) -> Path:
    number = max(map(_number, list_copies(path)), default=0) + 1
    name = f"{path.stem} copy {number}, {now:%Y-%m-%d %H%M%S}.sqlite"
    return Database(path).copies_folder / name


def _number(copy: Path) -> int:
    match = _NUMBER.match(copy.name)
    return int(match[1]) if match else 0


@contextmanager
def _part(path: Path) -> Iterator[Path]:
    """Give a name to write under until a copy is whole, and leave nothing there."""
    folder = Database(path).copies_folder
    part = folder / f"{uuid.uuid4().hex}.part"
    try:
        folder.mkdir(parents=True, exist_ok=True)
        yield part
    except OSError as error:
        raise StoreError(folder, f"it cannot be written ({error.strerror})") from error
    finally:
        for left in folder.glob(f"{part.name}*"):
            left.unlink()
