"""The bytes of one CSV file become a text table, within bounds, or the fault of the file."""

import csv
import io
from collections.abc import Iterator

from model.errors import Problem, SeasonProblems
from model.intake.columns import TableKind
from model.intake.tables import TextTable

MOST_BYTES_A_FILE = 2_000_000


def text_table(kind: TableKind, content: bytes) -> TextTable:
    """Read the bytes of a table's file.

    Raises SeasonProblems when it is too large, no UTF-8 or no CSV, when a heading stands
    twice, or when there are more rows than such a table may have.
    """
    name = kind.file
    if len(content) > MOST_BYTES_A_FILE:
        raise _fault(name, "the file is too large", f"at most {MOST_BYTES_A_FILE:,} bytes are read")
    try:
        text = content.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        found = f"byte {error.start + 1} is not UTF-8"
        raise _fault(name, found, "save it as CSV UTF-8") from error
    if "\0" in text:
        raise _fault(name, "it holds NUL bytes", "save it as CSV UTF-8")
    lines = csv.reader(io.StringIO(text, newline=""), strict=True)
    try:
        headings = tuple(heading.strip() for heading in next(lines, ()))
        if not headings:
            raise _fault(name, "the file is empty", "the first row is headings")
        problems = list(_heading_problems(name, headings))
        if problems:
            raise SeasonProblems(problems)
        return TextTable(headings, tuple(_rows(kind, lines)))
    except csv.Error as error:
        wanted = "save it as CSV with commas and closed quotes"
        raise _fault(name, f"it is no CSV ({error})", wanted) from error


def _rows(kind: TableKind, lines: Iterator[list[str]]) -> Iterator[tuple[int, tuple[str, ...]]]:
    """Give the rows that hold anything; stops with a fault at the first one too many."""
    kept = 0
    for number, cells in enumerate(lines, start=2):
        stripped = tuple(cell.strip() for cell in cells)
        if any(stripped):
            kept += 1
            if kept > kind.most_rows:
                found = f"it has more than {kind.most_rows:,} rows"
                raise _fault(kind.file, found, f"at most {kind.most_rows:,} are read")
            yield number, stripped


def _heading_problems(name: str, headings: tuple[str, ...]) -> Iterator[Problem]:
    if len(headings) == 1 and (";" in headings[0] or "\t" in headings[0]):
        yield Problem(
            name, 1, "the cells are not separated by commas", "save it as CSV with commas"
        )
    for heading in sorted(set(headings)):
        if heading and headings.count(heading) > 1:
            yield Problem(name, 1, f"the heading {heading[:80]!r} stands twice", "keep one")


def _fault(name: str, found: str, wanted: str) -> SeasonProblems:
    return SeasonProblems([Problem(name, 0, found, wanted)])
