"""One text cell becomes a value, or a fault: what was found and what is wanted.

Readers raise ``ValueError(found, wanted)``; the row adds where.
"""

import math
import re
from collections.abc import Callable, Mapping
from datetime import date, datetime
from difflib import get_close_matches
from fractions import Fraction

from model.intake.columns import Column
from model.intake.units import inside, outside
from model.safety.altitude import altitude_ft
from model.season.weeks import YearDay

Value = str | float | bool | date | datetime | YearDay | Fraction | tuple[str, ...] | None

_ISO = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}")
_MOMENT = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}T[0-9]{2}:[0-9]{2}[+-][0-9]{2}:[0-9]{2}")
_TWO_WAYS = re.compile(r"([0-9]{1,2})[/.-]([0-9]{1,2})[/.-]([0-9]{4})")
_DECIMAL_COMMA = re.compile(r"[-+]?[0-9]*,[0-9]+")
_MONTH_DAY = re.compile(r"([0-9]{2})-([0-9]{2})")
# What a name may hold: nothing that a page, a chart, a table or a sheet would act on.
_NAME = re.compile(r"""^(?![-+=@])[^<>\[\]{}*`~|$\\!#=@^"\x00-\x1f\x7f]{1,80}$""")
_YES_NO = {"yes": True, "no": False}


def read_cell(column: Column, unit: str, text: str) -> Value:
    """Give the value of a cell in the unit used inside; raises ValueError(found, wanted)."""
    if not text:
        if column.required and not column.measure:
            raise ValueError("is empty", f"fill it in: {column.meaning}")
        return None
    if column.kind == "altitude":
        return _read_altitude(text, unit)
    if column.kind == "quantity":
        quantity = inside(column.measure, unit, _plain(text))
        limits = [outside(column.measure, unit, end) for end in (column.least, column.most)]
        return _within(column, text, quantity, limits)
    return _READERS[column.kind](column, text)


def _read_text(column: Column, text: str) -> str:
    name = " ".join(text.split())
    if not _NAME.match(name):
        found = f"is {name[:80]!r}"
        raise ValueError(
            found,
            "write up to 80 letters, digits, spaces and - , . ' / ( ), beginning with a letter",
        )
    if name.lower() in column.reserved:
        raise ValueError(f"is {name!r}", "choose another name: this one already has a meaning")
    return name


def _read_names(column: Column, text: str) -> tuple[str, ...]:
    return tuple(_read_text(column, name) for name in text.split(";") if name.strip())


def read_day(text: str) -> date:
    """Read a date such as 2027-04-03; raises ValueError(found, wanted)."""
    wanted = "write a date as year-month-day, such as 2027-04-03"
    if not _ISO.fullmatch(text):
        raise ValueError(f"is {text!r}{_read_in_two_ways(text)}", wanted)
    try:
        day = date.fromisoformat(text)
    except ValueError:
        raise ValueError(f"is {text!r}: there is no such day", wanted) from None
    if not 1900 <= day.year <= 2200:
        raise ValueError(f"is {text!r}", "give a year from 1900 to 2200")
    return day


def _read_in_two_ways(text: str) -> str:
    """Say which two days a date such as 03/04/2027 may be; blank where it is one at most."""
    match = _TWO_WAYS.fullmatch(text)
    if match is None:
        return ""
    first, second, year = (int(part) for part in match.groups())
    if first == second or not (1 <= first <= 12 and 1 <= second <= 12):
        return ""
    one, other = f"{year}-{second:02d}-{first:02d}", f"{year}-{first:02d}-{second:02d}"
    return f", which can be read as {one} or as {other}"


def _read_moment(_: Column, text: str) -> datetime:
    """Read a moment with its offset from UTC: a bare clock time is two moments in autumn."""
    wanted = "write it as 2027-08-16T19:40+01:00, with the offset of its clock"
    if not _MOMENT.fullmatch(text):
        raise ValueError(f"is {text!r}", wanted)
    read_day(text[:10])
    try:
        return datetime.fromisoformat(text)
    except ValueError:
        raise ValueError(f"is {text!r}: there is no such moment", wanted) from None


def _read_month_day(_: Column, text: str) -> YearDay:
    match = _MONTH_DAY.fullmatch(text)
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


def _plain(text: str) -> float:
    try:
        number = float(text)
    except ValueError:
        number = math.nan
    if _DECIMAL_COMMA.fullmatch(text):
        wanted = "write a plain number with a point, such as 3.5, and no comma"
        raise ValueError(f"is {text!r}", wanted)
    if not math.isfinite(number) or "_" in text:
        raise ValueError(f"is {text!r}", "write a plain number, such as 3.5")
    return number


def _within(column: Column, text: str, number: float, limits: list[float]) -> float:
    if not column.least <= number <= column.most:
        least, most = limits
        raise ValueError(f"is {text!r}", f"give {_figure(least)} to {_figure(most)}")
    return number


def _figure(limit: float) -> str:
    return f"{limit:,.0f}" if abs(limit) >= 1000 else f"{limit:.4g}"


def _read_number(column: Column, text: str) -> float:
    return _within(column, text, _plain(text), [column.least, column.most])


def _read_whole(column: Column, text: str) -> float:
    number = _read_number(column, text)
    if number != round(number):
        raise ValueError(f"is {text!r}", "write a whole number")
    return number


def _read_altitude(text: str, unit: str) -> Fraction:
    try:
        return altitude_ft(f"{text} {unit}")
    except ValueError as error:
        found, _, wanted = str(error).partition("; ")
        raise ValueError(found, wanted) from None


_READERS: Mapping[str, Callable[[Column, str], Value]] = {
    "text": _read_text,
    "names": _read_names,
    "date": lambda _, text: read_day(text),
    "moment": _read_moment,
    "month_day": _read_month_day,
    "yes_no": _read_yes_no,
    "choice": _read_choice,
    "number": _read_number,
    "whole": _read_whole,
}
