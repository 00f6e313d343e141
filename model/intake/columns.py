"""What a column of the household's tables may hold, and what a table is made of."""

from dataclasses import dataclass

# Bounds what is read of a table that grows by the day or the year; thirty years fit in.
MOST_ENTRIES = 20_000


@dataclass(frozen=True, slots=True)
class Column:
    """One column: its heading (without unit), kind and limits.

    ``kind`` is text, names (joined by ``;``), date, moment, month_day, number, whole, yes_no,
    choice, quantity or altitude (exact feet). A quantity's or altitude's heading ends in
    one of the units of ``measure``; its limits are in the first of them, the unit used
    inside. ``reserved`` are names in small letters that already mean something else.
    """

    heading: str
    kind: str
    meaning: str
    required: bool = True
    least: float = 0.0
    most: float = 1e6
    choices: tuple[str, ...] = ()
    measure: str = ""
    reserved: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class TableKind:
    """One file of a season: what a row is, whether it must be there, which columns name it.

    It has ``least_rows`` to ``most_rows`` rows; ``MOST_ENTRIES`` where it grows with the years.
    """

    file: str
    row_is: str
    columns: tuple[Column, ...]
    required: bool = True
    unique: tuple[str, ...] = ()
    least_rows: int = 0
    most_rows: int = 500


def text_column(
    heading: str, meaning: str, *, required: bool = True, reserved: tuple[str, ...] = ()
) -> Column:
    """Describe a column of words; ``reserved`` ones, in small letters, are refused."""
    return Column(heading, "text", meaning, required, reserved=reserved)


def date_column(heading: str, meaning: str, *, required: bool = True) -> Column:
    """Describe a column of ISO dates."""
    return Column(heading, "date", meaning, required)


def number_column(
    heading: str, meaning: str, least: float, most: float, *, required: bool = True
) -> Column:
    """Describe a column of numbers within limits."""
    return Column(heading, "number", meaning, required, least, most)


def whole_column(
    heading: str, meaning: str, least: float, most: float, *, required: bool = True
) -> Column:
    """Describe a column of whole numbers within limits."""
    return Column(heading, "whole", meaning, required, least, most)


def choice_column(
    heading: str, meaning: str, choices: tuple[str, ...], *, required: bool = True
) -> Column:
    """Describe a column that takes one of a few words."""
    return Column(heading, "choice", meaning, required, choices=choices)


def quantity_column(
    heading: str,
    measure: str,
    meaning: str,
    most: float,
    *,
    least: float = 0.0,
    required: bool = True,
) -> Column:
    """Describe a column with a unit in its heading; limits in the unit used inside."""
    return Column(heading, "quantity", meaning, required, least, most, measure=measure)


def temperature_column(heading: str, meaning: str) -> Column:
    """Describe a column of air temperatures, in degrees C or F."""
    return Column(heading, "quantity", meaning, least=-90.0, most=60.0, measure="temperature")
