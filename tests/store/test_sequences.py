"""Any sequence of entries, corrections and undos: the stock is a plain sum, the undo is exact.

The environment variable SEQUENCES raises their number; with 10,000 it is run by hand.
"""

import os
import tempfile
from contextlib import suppress
from datetime import date, timedelta
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, settings
from hypothesis import strategies as st
from hypothesis.stateful import (
    RuleBasedStateMachine,
    initialize,
    invariant,
    precondition,
    rule,
    run_state_machine_as_test,
)

from model.errors import CannotWrite, SeasonProblems
from model.intake.gate import season_from_tables
from model.intake.tables import SeasonTables
from model.season.ledger import ledgers
from model.store.store import Store
from model.store.versions import Cells, Edit
from tests.store.keeping import NOW, author, begun
from tests.store.plain_shelf import plain_stock

SEQUENCES = int(os.environ.get("SEQUENCES", "80"))
STEPS = 10
FIRST, LAST = date(2027, 8, 1), date(2027, 12, 31)
MIDDLE = FIRST + timedelta(days=4)
CANNED = {"sauce": True, "frozen beans": False}
# The cell of each table that holds its day, and the one that holds how much.
DAY_AND_AMOUNT = {
    "harvest_log.csv": ("picked_on", "picked_kg"),
    "batches.csv": ("put_up_on", "filled"),
    "seals.csv": ("checked_on", "sealed"),
    "taken.csv": ("taken_on", "jars"),
    "stock.csv": ("counted_on", "jars"),
}
days = st.integers(0, 5).map(lambda n: str(FIRST + timedelta(days=n)))
amounts = st.integers(0, 6).map(str)
some = st.integers(1, 6).map(str)
preserves = st.sampled_from(list(CANNED))
Rows = dict[int, tuple[str, Cells]]


class Household(RuleBasedStateMachine):
    """A store in a folder of its own, and beside it the rows that should stand in it."""

    whole: bytes

    @initialize()
    def begin(self) -> None:
        # A file system in memory where there is one: thousands of files are written.
        shm = Path("/dev/shm")  # noqa: S108 -- the folder in it has a name of its own
        self.folder = tempfile.TemporaryDirectory(dir=shm if shm.is_dir() else None)
        path = Path(self.folder.name) / "households.sqlite"
        path.write_bytes(self.whole)
        self.store = Store(path, NOW)
        self.operations = 0
        self.rows: Rows = {
            row: (file, cells)
            for file in DAY_AND_AMOUNT
            for row, cells in self.store.rows(1, file).items()
        }
        self.tables = self.store.tables(1)
        self.undoable: list[tuple[int, SeasonTables, Rows]] = []

    def wrote(self, do: Any) -> int | None:
        """Do something in the store; where it is refused, everything must be as before."""
        self.operations += 1
        try:
            change: int = do(author(f"{self.operations}"))
        except (SeasonProblems, CannotWrite):
            assert self.store.tables(1) == self.tables
            return None
        self.tables = self.store.tables(1)
        return change

    def write(self, *edits: Edit) -> None:
        before, rows = self.tables, dict(self.rows)
        change = self.wrote(lambda signed: self.store.write(1, signed, edits))
        if change is None:
            return
        for line in self.store.lines(change):
            if line.after is None:
                self.rows.pop(line.row_id)
            else:
                self.rows[line.row_id] = (line.file, line.after)
        self.undoable.append((change, before, rows))
        # a click that comes twice
        assert self.store.write(1, author(f"{self.operations}"), edits) == change

    @rule(day=days, kg=some, crop=st.sampled_from(["tomato", "bush bean"]))
    def picked(self, day: str, kg: str, crop: str) -> None:
        cells = {"picked_on": day, "crop": crop, "picked_kg": kg}
        self.write(Edit("harvest_log.csv", cells))

    @rule(day=days, filled=some, preserve=preserves)
    def put_up(self, day: str, filled: str, preserve: str) -> None:
        code = f"batch {self.operations}"
        cells = {"batch": code, "put_up_on": day, "preserve": preserve, "filled": filled}
        self.write(Edit("batches.csv", cells))

    @precondition(lambda self: self.of("batches.csv"))
    @rule(data=st.data(), later=st.integers(0, 3), failed=st.integers(0, 2))
    def sealed(self, data: st.DataObject, later: int, failed: int) -> None:
        _, batch = self.rows[data.draw(st.sampled_from(self.of("batches.csv")))]
        day = date.fromisoformat(batch["put_up_on"]) + timedelta(days=later)
        sealed = max(0, int(batch["filled"]) - failed)
        cells = {"batch": batch["batch"], "checked_on": str(day), "sealed": str(sealed)}
        self.write(Edit("seals.csv", cells))

    @rule(day=days, counted=st.integers(0, 3), looks=st.lists(st.integers(0, 4), max_size=2))
    def written_up_late(self, day: str, counted: int, looks: list[int]) -> None:
        """Write a batch, a count and looks at its seals in one go, days afterwards."""
        made, code = date.fromisoformat(day), f"late {self.operations}"
        batch = {"batch": code, "put_up_on": day, "preserve": "sauce", "filled": "5"}
        count = {"counted_on": str(made + timedelta(days=counted)), "preserve": "sauce"}
        seals = [
            {"batch": code, "checked_on": str(made + timedelta(days=days)), "sealed": f"{5 - n}"}
            for n, days in enumerate(looks)
        ]
        self.write(
            Edit("batches.csv", batch),
            Edit("stock.csv", {**count, "jars": "4", "put_up_on": str(FIRST - timedelta(days=9))}),
            *(Edit("seals.csv", look) for look in seals),
        )

    @rule(day=days, jars=amounts, preserve=preserves, why=st.sampled_from(["", "given", "lost"]))
    def took(self, day: str, jars: str, preserve: str, why: str) -> None:
        cells = {"taken_on": day, "preserve": preserve, "jars": jars, "why": why}
        self.write(Edit("taken.csv", cells))

    @rule(day=days, preserve=preserves, makings=st.lists(st.tuples(amounts, days), max_size=2))
    def counted(self, day: str, preserve: str, makings: list[tuple[str, str]]) -> None:
        counted = {"counted_on": day, "preserve": preserve}
        edits = [
            Edit("stock.csv", {**counted, "jars": jars, "put_up_on": min(made, day)})
            for jars, made in makings
        ]
        self.write(*edits or [Edit("stock.csv", {**counted, "jars": "0"})])

    @precondition(lambda self: self.rows)
    @rule(data=st.data(), amount=some)
    def corrected(self, data: st.DataObject, amount: str) -> None:
        row, file, cells = self.one(data)
        self.write(Edit(file, {**cells, DAY_AND_AMOUNT[file][1]: amount}, row))

    @precondition(lambda self: self.rows)
    @rule(data=st.data(), day=days)
    def back_dated(self, data: st.DataObject, day: str) -> None:
        row, file, cells = self.one(data)
        self.write(Edit(file, {**cells, DAY_AND_AMOUNT[file][0]: day}, row))

    @precondition(lambda self: self.rows)
    @rule(data=st.data())
    def withdrawn(self, data: st.DataObject) -> None:
        row, file, _ = self.one(data)
        self.write(Edit(file, None, row))

    @precondition(lambda self: self.undoable)
    @rule()
    def undone(self) -> None:
        change, tables, rows = self.undoable.pop()
        assert self.wrote(lambda signed: self.store.undo(1, signed, change)) is not None
        assert self.tables == tables
        self.rows = rows

    @precondition(lambda self: len(self.undoable) > 1)
    @rule(data=st.data())
    def undone_out_of_order(self, data: st.DataObject) -> None:
        change = self.undoable[-data.draw(st.integers(2, min(3, len(self.undoable))))][0]
        lines = self.store.lines(change)
        stands = all(
            (None if row is None else row[1]) == line.after
            for line in lines
            for row in [self.rows.get(line.row_id)]
        )
        done = self.wrote(lambda signed: self.store.undo(1, signed, change))
        if done is None:
            return
        assert stands
        for line in lines:
            self.rows.pop(line.row_id, None)
            if line.before is not None:
                self.rows[line.row_id] = (line.file, line.before)
        self.undoable.clear()

    @invariant()
    def the_store_holds_what_was_written(self) -> None:
        for file in DAY_AND_AMOUNT:
            own = {row: self.rows[row][1] for row in self.of(file)}
            assert self.store.rows(1, file) == own

    @invariant()
    def the_stock_is_the_plain_sum_since_the_last_count(self) -> None:
        season = season_from_tables(self.tables)
        for today in (MIDDLE, LAST):
            books = ledgers(season, today)
            for preserve, canned in CANNED.items():
                ordered = [self.rows[row] for row in sorted(self.rows)]
                plain = plain_stock(ordered, preserve, canned=canned, to=today)
                assert books[preserve].units == plain
                assert all(entry.left >= 0 for entry in books[preserve].entries)

    def teardown(self) -> None:
        if not hasattr(self, "store"):
            return
        said: dict[int, Cells | None] = {}
        changes = self.store.changes(1, 10_000)
        for change in reversed(changes):
            for line in self.store.lines(change.change_id):
                assert line.before == said.get(line.row_id)
                said[line.row_id] = line.after
        for row, (_, cells) in self.rows.items():
            assert said[row] == cells
        with suppress(FileNotFoundError):
            self.folder.cleanup()

    def of(self, file: str) -> list[int]:
        return sorted(row for row, (own, _) in self.rows.items() if own == file)

    def one(self, data: st.DataObject) -> tuple[int, str, Cells]:
        row = data.draw(st.sampled_from(sorted(self.rows)))
        return (row, *self.rows[row])


@pytest.fixture(scope="module")
def whole(tmp_path_factory: pytest.TempPathFactory) -> bytes:
    path = tmp_path_factory.mktemp("begun") / "households.sqlite"
    begun(path)
    return path.read_bytes()


def test_any_sequence_keeps_the_stock_true_and_every_undo_exact(whole: bytes) -> None:
    Household.whole = whole
    run_state_machine_as_test(
        Household,
        settings=settings(
            max_examples=SEQUENCES,
            stateful_step_count=STEPS,
            suppress_health_check=list(HealthCheck),
            print_blob=False,
            database=None,
            derandomize=SEQUENCES < 10_000,
        ),
    )
