"""One text row becomes typed cells, or problems with file and row."""

import math
import re
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from datetime import date
from difflib import get_close_matches
from fractions import Fraction

from model.errors import Problem
from model.intake.columns import Column, TableKind
from model.intake.tables import TextTable
from model.intake.units import UNITS, inside
from model.safety.altitude import altitude_ft
from model.season.weeks import YearDay

Value = str | float | bool | date | YearDay | Fraction | tuple[str, ...] | None

_ISO = re.compile(r"^\d{4}-\d{2}-\d{2}$")
_MONTH_DAY = re.compile(r"^(\d{2})-(\d{2})$")
# What a name may hold: nothing that a page, a chart, a table or a sheet would act on.
_NAME = re.compile(r"""^(?![-+=@])[^<>\[\]{}*`~|$\\!#=@^"\x00-\x1f\x7f]{1,80}$""")
_YES_NO = {"yes": True, "no": False}


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
        return value if isinstance(value, date) else None

    def problem(self, found: str, wanted: str) -> Problem:
        """Make a problem of this row."""
        return Problem(self.file, self.row, found, wanted)


def typed_rows(kind: TableKind, table: TextTable) -> tuple[list[TypedRow], list[Problem]]:
    """Type every row of a table; rows with a fault are left out and told in the problems."""
    columns, problems = _match_headings(kind, table.headings)
    rows: list[TypedRow] = []
    seen: dict[tuple[str, ...], int] = {}
    for number, cells in table.rows:
        values: dict[str, Value] = {}
        faults: list[Problem] = []
        for heading, (column, unit) in columns.items():
            try:
                value = _value(column, unit, cells[heading])
            except ValueError as error:
                found, wanted = error.args
                faults.append(Problem(kind.file, number, f"{heading} {found}", wanted))
            else:
                if value is not None and values.get(column.heading) is not None:
                    found = f"{column.heading} is given in two units"
                    faults.append(Problem(kind.file, number, found, "fill in one of them"))
                if values.get(column.heading) is None:
                    values[column.heading] = value
        faults += _empty_quantities(kind, number, values, faults)
        if not faults and kind.unique:
            faults += _repeated(kind, number, values, seen)
        problems += faults
        if not faults:
            rows.append(TypedRow(kind.file, number, values))
    return rows, problems


def _empty_quantities(
    kind: TableKind, number: int, values: Mapping[str, Value], faults: list[Problem]
) -> list[Problem]:
    return [
        Problem(kind.file, number, f"{column.heading} is empty", column.meaning)
        for column in kind.columns
        if column.measure
        and column.required
        and values.get(column.heading) is None
        and not any(fault.found.startswith(column.heading) for fault in faults)
    ]


def _repeated(
    kind: TableKind, number: int, values: Mapping[str, Value], seen: dict[tuple[str, ...], int]
) -> list[Problem]:
    key = tuple(str(values.get(heading) or "").lower() for heading in kind.unique)
    if key in seen:
        found = f"{' and '.join(kind.unique)} {' / '.join(filter(None, key))!r} again"
        return [Problem(kind.file, number, found, f"it stands in row {seen[key]}")]
    seen[key] = number
    return []


def _match_headings(
    kind: TableKind, headings: tuple[str, ...]
) -> tuple[dict[str, tuple[Column, str]], list[Problem]]:
    wanted: dict[str, tuple[Column, str]] = {}
    for column in kind.columns:
        if column.measure:
            for unit in UNITS[column.measure]:
                wanted[f"{column.heading}_{unit}"] = (column, unit)
        else:
            wanted[column.heading] = (column, "")
    problems = list(_unknown_headings(kind.file, headings, wanted))
    for column in kind.columns:
        names = [name for name, (owner, _) in wanted.items() if owner is column]
        if column.required and not any(name in headings for name in names):
            found = f"the heading {' or '.join(names)} is missing"
            problems.append(Problem(kind.file, 1, found, column.meaning))
    return {name: wanted[name] for name in headings if name in wanted}, problems


def _unknown_headings(
    file: str, headings: tuple[str, ...], wanted: Mapping[str, object]
) -> Iterator[Problem]:
    for heading in headings:
        if heading and heading != "note" and heading not in wanted:
            near = get_close_matches(heading, list(wanted), n=2, cutoff=0.5)
            hint = f"did you mean {' or '.join(near)}?" if near else f"known: {', '.join(wanted)}"
            yield Problem(file, 1, f"the heading {heading!r} is not known", hint)


def _value(column: Column, unit: str, text: str) -> Value:
    """Give the value of a cell; raises ValueError(found, wanted)."""
    if not text:
        if column.required and not column.measure:
            raise ValueError("is empty", column.meaning)
        return None
    if column.kind == "altitude":
        return _read_altitude(text, unit)
    if column.kind == "quantity":
        return inside(column.measure, unit, _read_number(column, text))
    return _READERS[column.kind](column, text)


def _read_text(_: Column, text: str) -> str:
    name = " ".join(text.split())
    if not _NAME.match(name):
        found = f"is {name[:80]!r}"
        raise ValueError(
            found,
            "write up to 80 letters, digits, spaces and - , . ' / ( ), beginning with a letter",
        )
    return name


def _read_names(column: Column, text: str) -> tuple[str, ...]:
    return tuple(_read_text(column, name) for name in text.split(";") if name.strip())


def _read_date(_: Column, text: str) -> date:
    wanted = "write a date as year-month-day, such as 2027-04-03"
    if not _ISO.match(text):
        found = f"is {text!r}"
        raise ValueError(found, wanted)
    try:
        day = date.fromisoformat(text)
    except ValueError:
        raise ValueError(f"is {text!r}: there is no such day", wanted) from None
    if not 1900 <= day.year <= 2200:
        raise ValueError(f"is {text!r}", "give a year from 1900 to 2200")
    return day


def _read_month_day(_: Column, text: str) -> YearDay:
    match = _MONTH_DAY.match(text)
    wanted = "write month and day as 05-25"
    if match is None:
        raise ValueError(f"is {text!r}", wanted)
    try:
        day = date(2000, int(match[1]), int(match[2]))
    except ValueError:
        raise ValueError(f"is {text!r}: there is no such day", wanted) from None
    return YearDay(day.month, day.day)


def _read_yes_no(_: Column, text: str) -> bool:
    if text.lower() not in _YES_NO:
        raise ValueError(f"is {text!r}", "write yes or no")
    return _YES_NO[text.lower()]


def _read_choice(column: Column, text: str) -> str:
    for choice in column.choices:
        if text.lower() == choice.lower():
            return choice
    near = get_close_matches(text.lower(), column.choices, n=3, cutoff=0.5) or column.choices[:6]
    raise ValueError(f"is {text!r}", f"write one of: {', '.join(near)}")


def _read_number(column: Column, text: str) -> float:
    try:
        number = float(text)
    except ValueError:
        raise ValueError(f"is {text!r}", "write a plain number, such as 3.5") from None
    if not math.isfinite(number) or not column.least <= number <= column.most:
        limits = f"give {column.least:g} to {column.most:g}"
        raise ValueError(f"is {text!r}", limits)
    return number


def _read_whole(column: Column, text: str) -> float:
    number = _read_number(column, text)
    if number != round(number):
        raise ValueError(f"is {text!r}", "write a whole number")
    return number


def _read_altitude(text: str, unit: str) -> Fraction:
    try:
        altitude = altitude_ft(f"{text} {unit}")
    except ValueError:
        raise ValueError(f"is {text!r}", "write a plain number, such as 640") from None
    if not -1700 <= altitude <= 20000:
        raise ValueError(f"is {text!r}", "give the altitude of a kitchen")
    return altitude


_READERS: Mapping[str, Callable[[Column, str], Value]] = {
    "text": _read_text,
    "names": _read_names,
    "date": _read_date,
    "month_day": _read_month_day,
    "yes_no": _read_yes_no,
    "choice": _read_choice,
    "number": _read_number,
    "whole": _read_whole,
}
