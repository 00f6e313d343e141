"""Text tables before any meaning: headings, rows, and the row numbers people see."""

from collections.abc import Mapping
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class TextTable:
    """One CSV as text; ``rows`` pairs a spreadsheet row number with its cells by heading."""

    headings: tuple[str, ...]
    rows: tuple[tuple[int, Mapping[str, str]], ...]


@dataclass(frozen=True, slots=True)
class SeasonTables:
    """Every table of a season by file name, such as ``beds.csv``."""

    tables: Mapping[str, TextTable]
