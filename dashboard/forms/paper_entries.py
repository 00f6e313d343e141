"""Entries typed in from paper: rows of one sheet become edits, or faults with their row."""

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import date, datetime

import pandas as pd

import model
from dashboard.doubts import edit_doubt
from dashboard.forms.count_form import count_edits
from dashboard.paper.kitchen_sheet import WRITTEN_LATER
from dashboard.units import from_own, in_own
from model import EATEN, Batch, Edit, PlanningError, Preserve, Problem, Season, SeasonProblems

SHEET = "The sheet"
PICKED, PUT_UP, TAKEN, COUNTED = HAPPENED = ("picked", "put up", "taken", "counted")
COLUMNS = DAY, WHAT_HAPPENED, WHAT, HOW_MUCH, OF_WHAT = tuple(WRITTEN_LATER)
DAY_FORMS = ("%Y-%m-%d", "%d %b %Y", "%b %d, %Y")


@dataclass(frozen=True, slots=True)
class Entry:
    """One row of a sheet as it was typed; the first row is 1.

    ``day_typed`` is what stands for the day, ``day`` None where that is none.
    """

    row: int
    day: date | None
    happened: str
    what: str
    amount: float | None
    unit: str
    day_typed: str = ""


@dataclass
class PaperEntries:
    """What a sheet writes: edits, each with its row, and every fault that was found."""

    edits: list[Edit] = field(default_factory=list)
    rows: list[int] = field(default_factory=list)
    faults: list[Problem] = field(default_factory=list)

    def add(self, row: int, edits: Sequence[Edit]) -> None:
        """Add the edits of a row."""
        self.edits += edits
        self.rows += [row] * len(edits)


def typed(frame: pd.DataFrame) -> list[Entry]:
    """Give the rows of a table in which anything was typed."""
    found = []
    for place, row in enumerate(frame[list(COLUMNS)].to_dict("records"), start=1):
        cells = {name: None if pd.isna(cell) else cell for name, cell in row.items()}
        if all(cell is None for cell in cells.values()):
            continue
        day, amount = str(cells[DAY] or "").strip(), cells[HOW_MUCH]
        entry = Entry(
            row=place,
            day=_day(day),
            happened=str(cells[WHAT_HAPPENED] or ""),
            what=str(cells[WHAT] or ""),
            amount=None if amount is None else float(amount),
            unit=str(cells[OF_WHAT] or ""),
            day_typed=day,
        )
        found.append(entry)
    return found


def _day(text: str) -> date | None:
    """Read a day in one of the forms in which days are shown; none of them can be mistaken."""
    for form in DAY_FORMS:
        try:
            return datetime.strptime(text, form).date()  # noqa: DTZ007 -- a day has no zone
        except ValueError:
            continue
    return None


def paper_entries(
    season: Season, entries: Sequence[Entry], today: date, stored: Mapping[int, Mapping[str, str]]
) -> PaperEntries:
    """Turn the rows of a sheet into edits; ``stored`` are the rows of the counts that there are.

    A count replaces one of the same preserve and day. Where any row has a fault nothing is to
    be written.
    """
    found = PaperEntries()
    for entry in entries:
        found.faults += _faults(season, entry, today)
    found.faults += _counted_twice(entries)
    if found.faults:
        return found
    codes: dict[tuple[date, str], Iterator[str]] = {}
    made = []
    for entry in entries:
        cells = _cells(season, entry)
        if entry.happened == PUT_UP and entry.day is not None:
            key = (entry.day, entry.what)
            code = next(codes.setdefault(key, model.free_codes(season, *key)))
            cells["batch"] = code
            filled = _units(season, entry)
            made.append(Batch(code, entry.day, None, entry.what, filled, "", ""))
        if entry.happened != COUNTED:
            found.add(entry.row, [Edit(_FILES[entry.happened], cells)])
    batches = (*season.record.batches, *made)
    with_made = replace(season, record=replace(season.record, batches=batches))
    for entry in entries:
        if entry.happened == COUNTED and entry.day is not None:
            found.add(entry.row, _counts(with_made, entry, entry.day, stored))
    return found


_FILES = {PICKED: "harvest_log.csv", PUT_UP: "batches.csv", TAKEN: "taken.csv"}


def _faults(season: Season, entry: Entry, today: date) -> Iterator[Problem]:
    if entry.day is None:
        found = f"{entry.day_typed!r} is no day" if entry.day_typed else "it has no day"
        yield _fault(entry, found, "the day it happened, as 2027-08-16")
    elif entry.day > today:
        yield _fault(entry, f"{entry.day} is still to come", "a day up to today")
    if entry.happened not in HAPPENED:
        yield _fault(entry, "it does not say what happened", f"one of {', '.join(HAPPENED)}")
        return
    least = 0.0 if entry.happened == COUNTED else 1e-9
    if entry.amount is None or not math.isfinite(entry.amount) or entry.amount < least:
        wanted = "how many were counted, 0 for none" if not least else "a number above 0"
        yield _fault(entry, "it does not say how much", wanted)
    if entry.happened == PICKED:
        yield from _picked_faults(season, entry)
    else:
        yield from _preserve_faults(season, entry)


def _fault(entry: Entry, found: str, wanted: str) -> Problem:
    return Problem(SHEET, entry.row, found, wanted)


def _picked_faults(season: Season, entry: Entry) -> Iterator[Problem]:
    crops = {crop.name for crop in season.crops}
    if entry.what not in crops:
        yield _fault(
            entry, f"{entry.what or 'nothing'!r} is no crop", "a crop, where it was picked"
        )
    elif entry.unit not in model.container_kg(season, entry.what):
        known = ", ".join(model.container_kg(season, entry.what))
        yield _fault(entry, f"{entry.unit or 'nothing'!r} has no known weight", f"one of {known}")


def _preserve_faults(season: Season, entry: Entry) -> Iterator[Problem]:
    own = _preserve(season, entry)
    if own is None:
        yield _fault(entry, f"{entry.what or 'nothing'!r} is no preserve", "one of your preserves")
    elif entry.unit not in _own_units(season, own):
        names = ", ".join(name for name in _own_units(season, own) if name)
        yield _fault(entry, f"{own.name} is not counted in {entry.unit!r}", f"one of {names}")


def _preserve(season: Season, entry: Entry) -> Preserve | None:
    return next((own for own in season.preserves if own.name == entry.what), None)


def _own_units(season: Season, preserve: Preserve) -> dict[str, float]:
    """Map the words for a preserve's unit to how many of it one is; jars need no word."""
    own = in_own(1.0, preserve.unit, season.units)[1]
    words = {preserve.unit: 1.0, own: from_own(1.0, preserve.unit, season.units)}
    return {**words, "": 1.0} if preserve.in_pieces else words


def _units(season: Season, entry: Entry) -> float:
    return (entry.amount or 0.0) * _own_units(season, season.preserve(entry.what))[entry.unit]


def _counted_twice(entries: Sequence[Entry]) -> Iterator[Problem]:
    seen: dict[tuple[date | None, str], int] = {}
    for entry in entries:
        if entry.happened == COUNTED and entry.what:
            first = seen.setdefault((entry.day, entry.what), entry.row)
            if first != entry.row:
                yield _fault(entry, f"row {first} counts it on that day already", "one count a day")


def _cells(season: Season, entry: Entry) -> dict[str, str]:
    if entry.happened == PICKED:
        kg = (entry.amount or 0.0) * model.container_kg(season, entry.what)[entry.unit]
        amounts = {"picked_kg": f"{kg:.6g}", "number": f"{entry.amount:g}", "container": entry.unit}
        return {"picked_on": f"{entry.day}", "crop": entry.what, **amounts}
    if entry.happened == COUNTED:
        return {}
    units = f"{_units(season, entry):.6g}"
    if entry.happened == PUT_UP:
        return {"put_up_on": f"{entry.day}", "preserve": entry.what, "filled": units}
    return {"taken_on": f"{entry.day}", "preserve": entry.what, "jars": units, "why": EATEN}


def _counts(
    season: Season, entry: Entry, day: date, stored: Mapping[int, Mapping[str, str]]
) -> list[Edit]:
    made = season.frosts.first_autumn.median.on_or_before(day)
    before = [
        Edit("stock.csv", None, row_id)
        for row_id, cells in stored.items()
        if cells.get("counted_on") == f"{day}" and cells["preserve"].lower() == entry.what.lower()
    ]
    return [*before, *count_edits(season, {entry.what: _units(season, entry)}, day, made)]


def sheet_doubts(season: Season, found: PaperEntries, today: date) -> Iterator[str]:
    """Ask whether pickings and batches are right that no household like this one could do."""
    for edit, row in zip(found.edits, found.rows, strict=True):
        if doubt := edit_doubt(season, edit, today):
            yield f"Row {row}: {doubt}"


def told_by_row(
    error: PlanningError, entries: PaperEntries, lengths: Mapping[str, int]
) -> PlanningError:
    """Name the rows of the sheet in what the gate found in the tables they were added to.

    ``lengths`` are the rows that stood in each table before.
    """
    if not isinstance(error, SeasonProblems):
        return error
    return SeasonProblems(_by_row(one, entries, lengths) for one in error.problems)


def _by_row(fault: Problem, entries: PaperEntries, lengths: Mapping[str, int]) -> Problem:
    own = [
        (edit, row)
        for edit, row in zip(entries.edits, entries.rows, strict=True)
        if edit.file == fault.file
    ]
    added = [row for edit, row in own if edit.cells is not None]
    # The headings are row 1 of a table; what is withdrawn leaves its row to the next.
    place = fault.row - 2 - lengths.get(fault.file, 0) + len(own) - len(added)
    if not 0 <= place < len(added):
        return fault
    return Problem(SHEET, added[place], fault.found, fault.wanted)
