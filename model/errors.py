"""What can go wrong, in the household's words.

PlanningError
├── SeasonProblems     the season's tables hold faults; all of them are listed
├── NotInTables        the reference tables know no such name
├── NoTestedProcess    a jar is refused; the ways that remain are named
│   └── NoAltitude     it is refused only because the altitude is not known
├── StoreError         what is kept cannot be opened, read or written
│   └── DamagedStore   only a copy of it can be used
├── CannotWrite        a correction or an undo cannot be: its rows were changed since
└── NoPlan             the solver stopped without a plan
"""

from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path


class PlanningError(Exception):
    """Base of every error that this package raises on purpose.

    >>> issubclass(model.NoTestedProcess, model.PlanningError)
    True
    """


@dataclass(frozen=True, slots=True)
class Problem:
    """One fault in the household's tables: where it is, what was found, what is wanted.

    ``row`` counts as a spreadsheet does: the heading is row 1. 0 means the whole file.

    >>> str(model.Problem("beds.csv", 3, "area 'ten' is no number", "give square metres"))
    "beds.csv row 3: area 'ten' is no number; give square metres"
    """

    file: str
    row: int
    found: str
    wanted: str

    @property
    def where(self) -> str:
        """Name the place as a person would look for it."""
        return f"{self.file} row {self.row}" if self.row else self.file

    def __str__(self) -> str:
        """Say the fault in one sentence."""
        return f"{self.where}: {self.found}; {self.wanted}"


class SeasonProblems(PlanningError):
    """Every fault that was found in a season, at once.

    >>> print(model.SeasonProblems([model.Problem("beds.csv", 0, "the file is missing", "add it")]))
    1 problem in the season:
      - beds.csv: the file is missing; add it
    """

    def __init__(self, problems: Iterable[Problem]) -> None:
        """Keep the faults in the order of file and row."""
        self.problems = tuple(sorted(set(problems), key=lambda p: (p.file, p.row, p.found)))
        count = len(self.problems)
        head = f"{count} problem{'s' if count != 1 else ''} in the season:"
        super().__init__("\n".join([head, *(f"  - {problem}" for problem in self.problems)]))


class NotInTables(PlanningError):
    """A name that the reference tables do not hold, with the nearest that they do.

    >>> str(model.NotInTables("product", "tomatos", ["tomatoes"]))
    "no product 'tomatos' in the tables; did you mean tomatoes?"
    """

    def __init__(self, kind: str, name: str, nearest: Iterable[str]) -> None:
        """Say the kind of thing looked for and what lies near it."""
        self.kind, self.name, self.nearest = kind, name, tuple(nearest)
        near = f"; did you mean {', '.join(self.nearest)}?" if self.nearest else ""
        super().__init__(f"no {kind} {name!r} in the tables{near}")


class NoTestedProcess(PlanningError):
    """A jar that has no tested process here, with the safe ways that remain.

    >>> error = model.NoTestedProcess("a dense pack", ["freeze"])
    >>> error.reason, error.ways
    ('a dense pack', ('freeze',))
    """

    def __init__(self, reason: str, ways: Iterable[str]) -> None:
        """Keep the reason and the ways apart, so that a screen can show both."""
        self.reason, self.ways = reason, tuple(ways)
        super().__init__(f"{reason}. Ways that remain: {', '.join(self.ways) or 'none known'}")


class NoAltitude(NoTestedProcess):
    """A jar that has a tested process, but no figure as long as the altitude is not known."""


class StoreError(PlanningError):
    """A store that cannot be used as it is: which file, what was found, what would help.

    >>> str(model.StoreError(Path("kept.sqlite"), "it cannot be read", "choose another file"))
    'kept.sqlite: it cannot be read; choose another file'
    """

    def __init__(self, path: Path, found: str, wanted: str = "") -> None:
        """Say it in one sentence."""
        self.path, self.found, self.wanted = path, found, wanted
        super().__init__("; ".join(part for part in (f"{path}: {found}", wanted) if part))


class DamagedStore(StoreError):
    """A store that is damaged or gone; a copy of it can be brought back.

    >>> str(model.DamagedStore(Path("kept.sqlite"), "it is damaged"))
    'kept.sqlite: it is damaged'
    """


class CannotWrite(PlanningError):
    """A correction or an undo that cannot be written as it is, and why."""


class NoPlan(PlanningError):
    """The solver ended without a plan; its own word for it is in the message.

    >>> str(model.NoPlan("Infeasible"))
    'Infeasible'
    """
