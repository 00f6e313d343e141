"""The working behind a figure: at most five lines of arithmetic, each with where it is from."""

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date

from model.outlook.arithmetic import Sum
from model.reference.lookup import setting_called
from model.reference.read import source_title, table

MOST_LINES = 5
# A figure gathered from many sources names the first of them.
MOST_TITLES = 2
FROM_NOTES, FROM_SETTING, PUBLISHED, PLAN, YEARS = "notes", "setting", "published", "plan", "years"
PUBLISHED_STATUS = "published"
# Keys of sources that publish nothing.
_JUDGED = frozenset(("judgement", "practice", "needs-uncertainty"))

Told = Callable[[date], str]


@dataclass(frozen=True, slots=True)
class Source:
    """Where a figure is from.

    ``key`` is a table of the notes, a setting, keys of the published sources, or words;
    ``row`` names the row of the notes; ``status`` says how sure a figure of the reference
    tables is.

    >>> model.workings.Source(model.workings.FROM_SETTING, "lean_share").words
    'what makes a week lean'
    """

    kind: str
    key: str = ""
    row: str = ""
    status: str = PUBLISHED_STATUS

    @property
    def judgement(self) -> bool:
        """Say whether it is a judgement value, that the household may change."""
        judged = self.kind == PUBLISHED and (
            self.status != PUBLISHED_STATUS or set(self.key.split(";")) <= _JUDGED
        )
        return self.kind == FROM_SETTING or judged

    @property
    def words(self) -> str:
        """Name the source for the eye."""
        if self.kind == FROM_NOTES:
            called = self.key.removesuffix(".csv").replace("_", " ")
            return f"your notes: {called}" + (f", {self.row}" if self.row else "")
        if self.kind == FROM_SETTING:
            return setting_called(self.key)
        if self.kind == PUBLISHED:
            status = "" if self.status == PUBLISHED_STATUS else f" ({self.status})"
            keys = self.key.split(";")
            more = f"; and {len(keys) - MOST_TITLES} more" if len(keys) > MOST_TITLES else ""
            return f"{source_title(';'.join(keys[:MOST_TITLES]))}{more}{status}"
        return self.key


THE_PLAN = Source(PLAN, "the plan, in an ordinary year")


def of_years(years: int) -> Source:
    """Give the simulated years as a source."""
    return Source(YEARS, f"{years} simulated years")


def of_reference(name: str, status: str = "status", **cells: str) -> Source | None:
    """Give the source of a row of a reference table; None where there is no such row."""
    for row in table(name):
        if all(row[column] == text for column, text in cells.items()):
            return Source(PUBLISHED, row["source"], status=row.get(status, PUBLISHED_STATUS))
    return None


@dataclass(frozen=True, slots=True)
class WorkingLine:
    """One line: words with days among them, and where its figures are from."""

    parts: tuple[str | date, ...]
    sources: tuple[Source, ...]

    def told(self, day: Told) -> str:
        """Give the line with its days written by ``day``."""
        return "".join(day(part) if isinstance(part, date) else part for part in self.parts)


@dataclass(frozen=True, slots=True)
class Working:
    """How a figure came about: what it is, as it is shown, and the lines.

    Raises ValueError for more than five lines, or none.

    >>> model.workings.seals_working(planned).what
    'jars that do not seal'
    >>> model.workings.Working("nothing", "", ())
    Traceback (most recent call last):
        ...
    ValueError: a working of 0 lines
    """

    what: str
    shown: str | date
    lines: tuple[WorkingLine, ...]

    def __post_init__(self) -> None:
        """Check the number of lines."""
        if not 0 < len(self.lines) <= MOST_LINES:
            raise ValueError(f"a working of {len(self.lines)} lines")


def line(
    words: Sum | str | tuple[str | date, ...], *sources: Source | None, of: str = "", ends: str = ""
) -> WorkingLine:
    """Give a line; ``of`` names what it is about before the sum, ``ends`` says more after it."""
    parts = words.words if isinstance(words, Sum) else words
    known = tuple(dict.fromkeys(source for source in sources if source is not None))
    told = (parts,) if isinstance(parts, str) else parts
    return WorkingLine((*((f"{of}: ",) if of else ()), *told, *((ends,) if ends else ())), known)
