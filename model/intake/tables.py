"""Text tables before any meaning: headings, rows, and the row numbers people see."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from model.errors import Problem, SeasonProblems
from model.intake.columns import TableKind
from model.intake.plain_text import taken_in


@dataclass(frozen=True, slots=True)
class TextTable:
    """One table as text; ``rows`` pairs a spreadsheet row number with its cells.

    Read from a file, a row has a cell for every heading, or more where that is its fault.

    >>> notes.tables["beds.csv"].rows[0]
    (2, ('south bed', '90', 'full sun'))
    """

    headings: tuple[str, ...]
    rows: tuple[tuple[int, tuple[str, ...]], ...]


@dataclass(frozen=True, slots=True)
class SeasonTables:
    """Every table of a season by file name, such as ``beds.csv``, and the files at fault.

    A file that could not be read has its fault in ``problems`` and no table.

    >>> notes.problems, "beds.csv" in notes.tables
    ((), True)
    """

    tables: Mapping[str, TextTable]
    problems: tuple[Problem, ...]


def table_of(kind: TableKind, lines: Iterator[Sequence[str]]) -> TextTable:
    """Make a table of the lines of a file, the headings first; blank rows are left out.

    Raises SeasonProblems when there are no headings, one stands twice, a row is repeated word
    for word in a table whose rows have no name of their own, or there are too many rows.
    """
    headings = _without_blank_end([taken_in(cell) for cell in next(lines, ())])
    if not headings:
        raise SeasonProblems([Problem(kind.file, 0, "it is empty", "the first row is headings")])
    problems = list(_heading_problems(kind.file, headings))
    if problems:
        raise SeasonProblems(problems)
    rows = tuple(_rows(kind, lines, len(headings)))
    if not kind.unique and _complete(kind, headings):
        problems = list(_repeated(kind.file, rows))
    if problems:
        raise SeasonProblems(problems)
    return TextTable(headings, rows)


def _without_blank_end(cells: list[str]) -> tuple[str, ...]:
    while cells and not cells[-1]:
        cells.pop()
    return tuple(cells)


def _rows(
    kind: TableKind, lines: Iterator[Sequence[str]], width: int
) -> Iterator[tuple[int, tuple[str, ...]]]:
    """Give the rows that hold anything; stops with a fault at the first one too many."""
    kept = 0
    for number, line in enumerate(lines, start=2):
        cells = _without_blank_end([taken_in(cell) for cell in line])
        if cells:
            kept += 1
            if kept > kind.most_rows:
                found = f"it has more than {kind.most_rows:,} rows"
                wanted = f"at most {kind.most_rows:,} are read"
                raise SeasonProblems([Problem(kind.file, 0, found, wanted)])
            yield number, cells + ("",) * (width - len(cells))


def _heading_problems(name: str, headings: tuple[str, ...]) -> Iterator[Problem]:
    if len(headings) == 1 and (";" in headings[0] or "\t" in headings[0]):
        found = "the cells are not separated by commas"
        yield Problem(name, 1, found, "save it as CSV with commas, and with points in numbers")
    for heading in sorted(set(headings)):
        if heading and headings.count(heading) > 1:
            yield Problem(name, 1, f"the heading {heading[:80]!r} stands twice", "keep one")


def _complete(kind: TableKind, headings: tuple[str, ...]) -> bool:
    """Say whether no column is missing that tells rows apart."""
    return all(
        any(
            heading == column.heading or (column.measure and heading.startswith(column.heading))
            for heading in headings
        )
        for column in kind.columns
        if column.required
    )


def _repeated(file: str, rows: Sequence[tuple[int, tuple[str, ...]]]) -> Iterator[Problem]:
    """List rows that stand there before: more often copied twice than happened twice."""
    first: dict[tuple[str, ...], int] = {}
    for number, cells in rows:
        before = first.setdefault(cells, number)
        if before != number:
            wanted = "delete it; if it happened twice, write the sum, or tell them apart by a note"
            yield Problem(file, number, f"it is row {before} again, word for word", wanted)
