"""One text row becomes typed cells, or problems with file and row."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import date, datetime
from difflib import get_close_matches

from model.errors import Problem
from model.intake.cells import Value, read_cell
from model.intake.columns import Column, TableKind
from model.intake.plain_text import unseen_character
from model.intake.tables import TextTable
from model.intake.units import UNITS

MOST_CELL = 500
# Where a column stands, its heading, itself, its unit, and the values of the texts read in it:
# names, days and amounts come again, and a record of twenty years has a hundred thousand cells.
_Place = tuple[int, str, Column, str, dict[str, Value]]


@dataclass(frozen=True, slots=True)
class TypedRow:
    """The cells of one row by heading (without unit); a blank cell is None."""

    file: str
    row: int
    cells: Mapping[str, Value]

    def text(self, heading: str) -> str:
        """Give a cell of words; blank is an empty string."""
        value = self.cells.get(heading)
        return value if isinstance(value, str) else ""

    def number(self, heading: str, default: float = 0.0) -> float:
        """Give a number, or the default where the cell is blank."""
        value = self.cells.get(heading)
        return value if isinstance(value, float) else default

    def known(self, heading: str) -> float | None:
        """Give a number, or None where the cell is blank."""
        value = self.cells.get(heading)
        return value if isinstance(value, float) else None

    def whole(self, heading: str) -> int | None:
        """Give a whole number, or None where the cell is blank."""
        value = self.known(heading)
        return None if value is None else round(value)

    def day(self, heading: str) -> date | None:
        """Give a date, or None where the cell is blank."""
        value = self.cells.get(heading)
        return value if isinstance(value, date) and not isinstance(value, datetime) else None

    def problem(self, found: str, wanted: str) -> Problem:
        """Make a problem of this row."""
        return Problem(self.file, self.row, found, wanted)


def typed_rows(kind: TableKind, table: TextTable) -> tuple[list[TypedRow], list[Problem]]:
    """Type every row of a table; rows with a fault are left out and told in the problems.

    Without a heading that must be there, that is the fault of the table, and no row is typed.
    """
    columns = _columns(kind)
    problems = list(_unknown_headings(kind.file, table.headings, columns))
    missing = list(_missing_headings(kind, table.headings))
    if missing:
        return [], problems + missing
    places: list[_Place] = [
        (i, heading, *columns[heading], {})
        for i, heading in enumerate(table.headings)
        if heading in columns
    ]
    rows: list[TypedRow] = []
    seen: dict[tuple[str, ...], int] = {}
    for number, cells in table.rows:
        values: dict[str, Value] = {}
        faults = _outer_faults(kind.file, number, cells, len(table.headings))
        if not faults:
            values, faults = _typed_cells(kind, number, _level(cells, len(table.headings)), places)
        if not faults:
            faults = _empty_quantities(kind, number, values) + _repeated(kind, number, values, seen)
        problems += faults
        if not faults:
            rows.append(TypedRow(kind.file, number, values))
    return rows, problems


def _level(cells: tuple[str, ...], count: int) -> tuple[str, ...]:
    """Give as many cells as there are headings; what a spreadsheet left off is blank."""
    return cells + ("",) * (count - len(cells))


def _outer_faults(file: str, number: int, cells: tuple[str, ...], headings: int) -> list[Problem]:
    """List what is wrong with a row as a whole: then its cells may stand under a wrong heading."""
    faults = []
    if len(cells) > headings:
        found = f"{len(cells)} cells under {headings} headings"
        faults.append(Problem(file, number, found, "write 3.5, not 3,5; quote commas in text"))
    whole = "".join(cells)
    if len(whole) > MOST_CELL and any(len(cell) > MOST_CELL for cell in cells):
        faults.append(Problem(file, number, "a cell is too long", f"at most {MOST_CELL} letters"))
    unseen = unseen_character(whole)
    if unseen:
        wanted = "delete it, or type the words of the row again"
        faults.append(
            Problem(file, number, f"it holds a character that is not seen, {unseen}", wanted)
        )
    return faults


def _typed_cells(
    kind: TableKind,
    number: int,
    cells: tuple[str, ...],
    places: list[_Place],
) -> tuple[dict[str, Value], list[Problem]]:
    values: dict[str, Value] = {}
    faults = []
    for i, heading, column, unit, known in places:
        text = cells[i]
        if text not in known:
            try:
                known[text] = read_cell(column, unit, text)
            except ValueError as error:
                found, wanted = error.args
                faults.append(Problem(kind.file, number, f"{heading} {found}", wanted))
                continue
        value = known[text]
        if value is not None and values.get(column.heading) is not None:
            found = f"{column.heading} is given in two units"
            faults.append(Problem(kind.file, number, found, "fill in one of them"))
        elif values.get(column.heading) is None:
            values[column.heading] = value
    return values, faults


def _empty_quantities(kind: TableKind, number: int, values: Mapping[str, Value]) -> list[Problem]:
    return [
        Problem(kind.file, number, f"{column.heading} is empty", f"fill it in: {column.meaning}")
        for column in kind.columns
        if column.measure and column.required and values.get(column.heading) is None
    ]


def _repeated(
    kind: TableKind, number: int, values: Mapping[str, Value], seen: dict[tuple[str, ...], int]
) -> list[Problem]:
    if not kind.unique:
        return []
    key = tuple(str(values.get(heading) or "").lower() for heading in kind.unique)
    if key in seen:
        found = f"{' and '.join(kind.unique)} {' / '.join(filter(None, key))!r} again"
        return [Problem(kind.file, number, found, f"it stands in row {seen[key]}")]
    seen[key] = number
    return []


def usual_heading(column: Column) -> str:
    """Give the heading of a column, in the unit used inside."""
    return _names(column)[0][0]


def _names(column: Column) -> list[tuple[str, str]]:
    """Give the headings a column may stand under, each with its unit."""
    if not column.measure:
        return [(column.heading, "")]
    return [(f"{column.heading}_{unit}", unit) for unit in UNITS[column.measure]]


def _columns(kind: TableKind) -> dict[str, tuple[Column, str]]:
    return {name: (column, unit) for column in kind.columns for name, unit in _names(column)}


def _missing_headings(kind: TableKind, headings: tuple[str, ...]) -> Iterator[Problem]:
    for column in kind.columns:
        names = [name for name, _ in _names(column)]
        if column.required and not any(name in headings for name in names):
            found = f"the heading {' or '.join(names)} is missing"
            yield Problem(kind.file, 1, found, f"add the column: {column.meaning}")


def _unknown_headings(
    file: str, headings: tuple[str, ...], wanted: Mapping[str, object]
) -> Iterator[Problem]:
    for heading in headings:
        if heading and heading != "note" and heading not in wanted:
            near = get_close_matches(heading[:80], list(wanted), n=2, cutoff=0.5)
            hint = f"did you mean {' or '.join(near)}?" if near else f"known: {', '.join(wanted)}"
            yield Problem(file, 1, f"the heading {heading[:80]!r} is not known", hint)
