"""The desk where a season is put together: typed rows, names in use, faults found so far."""

from collections.abc import Iterable
from dataclasses import dataclass, field
from difflib import get_close_matches

from model.errors import NotInTables, Problem
from model.intake.folder import TABLE_KINDS
from model.intake.rows import TypedRow, typed_rows
from model.intake.tables import SeasonTables
from model.reference.lookup import crop as find_crop


@dataclass
class Desk:
    """Rows of every table, and the problems that lie on the desk."""

    tables: SeasonTables
    rows: dict[str, list[TypedRow]] = field(default_factory=dict)
    problems: list[Problem] = field(default_factory=list)

    def __post_init__(self) -> None:
        """Type every table once."""
        for kind in TABLE_KINDS:
            table = self.tables.tables.get(kind.file)
            if table is not None:
                rows, problems = typed_rows(kind, table)
                self.rows[kind.file] = rows
                self.problems += problems

    def of(self, file: str) -> list[TypedRow]:
        """Give the sound rows of a table; none when it is not there."""
        return self.rows.get(file, [])

    def names(self, file: str, heading: str) -> list[str]:
        """Give every name a column holds, in faulty rows too, so that one fault tells once."""
        table = self.tables.tables.get(file)
        if table is None:
            return []
        cells = (" ".join(cells.get(heading, "").split()) for _, cells in table.rows)
        return [cell for cell in dict.fromkeys(cells) if cell]

    def add(self, row: TypedRow, found: str, wanted: str) -> None:
        """Put a fault of a row on the desk."""
        self.problems.append(row.problem(found, wanted))

    def known(self, row: TypedRow, heading: str, file: str, column: str) -> str | None:
        """Give the name in a cell if another table holds it (whatever its capitals)."""
        return self.match(row, heading, row.text(heading), file, self.names(file, column))

    def match(
        self, row: TypedRow, heading: str, name: str, file: str, names: Iterable[str]
    ) -> str | None:
        """Give the known spelling of a name, or put a fault with the nearest on the desk."""
        by_small = {known.lower(): known for known in names}
        if name.lower() in by_small:
            return by_small[name.lower()]
        near = (
            get_close_matches(name.lower(), list(by_small), n=3, cutoff=0.5) or list(by_small)[:5]
        )
        listed = ", ".join(by_small[small] for small in near) or "nothing yet"
        self.add(row, f"{heading} {name!r} is not in {file}", f"use one of: {listed}")
        return None

    def crop(self, row: TypedRow, name: str) -> str | None:
        """Give a crop's own name, or put a fault with the nearest names on the desk."""
        try:
            return find_crop(name).name
        except NotInTables as error:
            near = ", ".join(error.nearest) or "see reference/crops.csv"
            self.add(row, f"crop {name!r} is not known", f"the nearest are: {near}")
            return None
