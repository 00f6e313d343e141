"""The desk where a season is put together: typed rows, names in use, faults found so far."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from datetime import date
from difflib import get_close_matches

from model.errors import Problem
from model.intake.columns import TableKind
from model.intake.folder import TABLE_KINDS
from model.intake.rows import TypedRow, typed_rows
from model.intake.tables import SeasonTables, TextTable
from model.reference.lookup import crop_names

# The nearest names are looked for so often; a file of thousands of unknown names gets the
# faults of the rest without them, and an answer within seconds.
MOST_NEAREST = 50
MOST_LISTED = 5


@dataclass
class Desk:
    """Rows of every table, and the problems that lie on the desk."""

    tables: SeasonTables
    rows: dict[str, list[TypedRow]] = field(default_factory=dict)
    problems: list[Problem] = field(default_factory=list)
    _at_fault: set[str] = field(default_factory=set)
    _names: dict[tuple[str, str], Mapping[str, str] | None] = field(default_factory=dict)
    _nearest_left: int = MOST_NEAREST

    def __post_init__(self) -> None:
        """Type every table once."""
        self._put(self.tables.problems)
        for kind in TABLE_KINDS:
            table = self.tables.tables.get(kind.file)
            if table is not None:
                self.rows[kind.file], problems = typed_rows(kind, table)
                self._put(problems)

    def check_sizes(self) -> None:
        """Put the faults of tables that must be there, or have too few or too many rows."""
        for kind in TABLE_KINDS:
            self._check_size(kind, self.tables.tables.get(kind.file))

    def _check_size(self, kind: TableKind, table: TextTable | None) -> None:
        rows = 0 if table is None else len(table.rows)
        wanted = f"each row is {kind.row_is}"
        if table is None and kind.required and not self.at_fault(kind.file):
            self.add_of_file(kind.file, "the file is missing", wanted)
        elif table is not None and rows < kind.least_rows:
            self.add_of_file(kind.file, "it has no row", wanted)
        elif rows > kind.most_rows:
            self.add_of_file(
                kind.file, f"it has {rows:,} rows", f"at most {kind.most_rows:,} are read"
            )

    def _put(self, problems: Iterable[Problem]) -> None:
        for problem in problems:
            self.problems.append(problem)
            self._at_fault.add(problem.file)

    def of(self, file: str) -> list[TypedRow]:
        """Give the sound rows of a table; none when it is not there."""
        return self.rows.get(file, [])

    def at_fault(self, file: str) -> bool:
        """Say whether a file has any fault, so that what follows from it is not told again."""
        return file in self._at_fault

    def names(self, file: str, heading: str) -> Mapping[str, str] | None:
        """Map each name of a column, in small letters, to its spelling.

        Names in faulty rows count too, so that one fault tells once. None when the column
        could not be read, so that nothing can be said about its names.
        """
        key = (file, heading)
        if key not in self._names:
            self._names[key] = self._column(file, heading)
        return self._names[key]

    def _column(self, file: str, heading: str) -> Mapping[str, str] | None:
        table = self.tables.tables.get(file)
        if table is None:
            return None if self.at_fault(file) else {}
        if heading not in table.headings:
            return None
        place = table.headings.index(heading)
        names: dict[str, str] = {}
        for _, cells in table.rows:
            name = " ".join(cells[place].split()) if place < len(cells) else ""
            if name:
                names.setdefault(name.lower(), name)
        return names

    def add(self, row: TypedRow, found: str, wanted: str) -> None:
        """Put a fault of a row on the desk."""
        self._put([row.problem(found, wanted)])

    def add_of_file(self, file: str, found: str, wanted: str) -> None:
        """Put a fault of a whole file on the desk."""
        self._put([Problem(file, 0, found, wanted)])

    def known(self, row: TypedRow, heading: str, file: str, column: str) -> str | None:
        """Give the name in a cell if another table holds it (whatever its capitals).

        None when it does not, which is then a fault on the desk, or when the other table
        could not be read, which is one already.
        """
        names = self.names(file, column)
        return None if names is None else self.match(row, heading, row.text(heading), file, names)

    def match(
        self, row: TypedRow, heading: str, name: str, file: str, names: Mapping[str, str]
    ) -> str | None:
        """Give the known spelling of a name, or put a fault with the nearest on the desk.

        ``names`` maps small letters to spellings.
        """
        own = names.get(name.lower())
        if own is None:
            listed = self._nearest(name.lower(), names)
            found = f"{heading} {name!r} is not in {file}" if name else f"{heading} is empty"
            self.add(row, found, f"use one of: {listed}")
        return own

    def _nearest(self, small: str, names: Mapping[str, str]) -> str:
        near: list[str] = []
        if self._nearest_left > 0:
            self._nearest_left -= 1
            near = get_close_matches(small, list(names), n=3, cutoff=0.5)
        if near:
            return ", ".join(dict.fromkeys(names[close] for close in near))
        some = list(dict.fromkeys(names.values()))
        more = ", ..." if len(some) > MOST_LISTED else ""
        return ", ".join(some[:MOST_LISTED]) + more or "nothing yet"

    def crop(self, row: TypedRow, name: str) -> str | None:
        """Give a crop's own name, or put a fault with the nearest names on the desk."""
        return self.match(row, "crop", name, "reference/crops.csv", crop_names())

    def in_order(self, row: TypedRow) -> bool:
        """Check that a stretch of dates does not end before it begins."""
        begins, ends = row.day("begins"), row.day("ends")
        if begins and ends and ends < begins:
            self.add(row, f"it ends on {ends}, before it begins on {begins}", "swap the two dates")
            return False
        return True

    def in_time(self, row: TypedRow, heading: str, last: date | None) -> bool:
        """Check that a date is not after the last day of the last garden season, if known."""
        day = row.day(heading)
        if day and last and day > last:
            wanted = f"mend the date, or add its season: the last one ends on {last}"
            self.add(row, f"{heading} is {day}, after every season", wanted)
            return False
        return True
