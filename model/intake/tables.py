"""Text tables before any meaning: headings, rows, and the row numbers people see."""

from collections.abc import Mapping
from dataclasses import dataclass

from model.errors import Problem


@dataclass(frozen=True, slots=True)
class TextTable:
    """One CSV as text; ``rows`` pairs a spreadsheet row number with its cells.

    A row may have fewer cells than there are headings, or more: that is a fault of the row.
    """

    headings: tuple[str, ...]
    rows: tuple[tuple[int, tuple[str, ...]], ...]


@dataclass(frozen=True, slots=True)
class SeasonTables:
    """Every table of a season by file name, such as ``beds.csv``, and the files at fault.

    A file that could not be read has its fault in ``problems`` and no table.
    """

    tables: Mapping[str, TextTable]
    problems: tuple[Problem, ...]
