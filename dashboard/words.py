"""Sentences, numbers and dates as people read them.

Forecasts never carry more than two significant figures; chances are told in tenths.
"""

import re
from collections.abc import Callable, Iterable
from contextvars import ContextVar
from datetime import date, datetime, timedelta
from functools import partial
from typing import Literal

import pandas as pd

from model import about as model_about
from model import household, in_tongue

PLATE = "whole plate"
DAY_FIRST, MONTH_FIRST, YEAR_FIRST = household.DATE_FORMS
# What stands on a label or was published keeps its name.
NIGHT_BEGINS, NIGHT_ENDS = 22, 6
AS_WRITTEN = ("batch", "product", "jar", "source")
about = model_about
DayForm = Literal["DD/MM/YYYY", "MM/DD/YYYY", "YYYY-MM-DD"]
_TYPED: dict[str, DayForm] = {
    DAY_FIRST: "DD/MM/YYYY",
    MONTH_FIRST: "MM/DD/YYYY",
    YEAR_FIRST: "YYYY-MM-DD",
}
_ISO_DAY = re.compile(r"\b\d{4}-\d\d-\d\d\b")
_date_form = ContextVar("date_form", default=DAY_FIRST)
_tongue = ContextVar("tongue", default="UK")


def day(when: date) -> str:
    """Give a date without doubt, as the household writes it: 3 Apr 2027."""
    return {
        DAY_FIRST: f"{when.day} {when:%b %Y}",
        MONTH_FIRST: f"{when:%b} {when.day}, {when:%Y}",
        YEAR_FIRST: f"{when:%Y-%m-%d}",
    }[_date_form.get()]


def in_own_days(words: str) -> str:
    """Write the days within a sentence of the model's as the household writes them."""
    return _ISO_DAY.sub(lambda found: day(date.fromisoformat(found[0])), words)


def write_as(date_form: str, tongue: str) -> None:
    """Write all dates and words of this run of the page as the household does."""
    _date_form.set(date_form)
    _tongue.set(tongue)


def local(text: str) -> str:
    """Give a name or a sentence in the household's US or UK words; never what is stored."""
    return in_tongue(text, _tongue.get())


def speaker() -> Callable[[str], str]:
    """Give ``local`` as it speaks now, for a chooser that asks again after the page has run."""
    return partial(in_tongue, tongue=_tongue.get())


def named(table: pd.DataFrame) -> pd.DataFrame:
    """Give a table for the eye, its names in the household's words."""
    texts = table.select_dtypes(["object", "str"]).columns.difference(AS_WRITTEN)
    own = {
        name: [local(cell) if isinstance(cell, str) else cell for cell in table[name]]
        for name in texts
    }
    return table.assign(**own)


def tooltip_day() -> str:
    """Give a chart's format of a day, in the form dates are written in."""
    forms = {DAY_FIRST: "%-d %b %Y", MONTH_FIRST: "%b %-d, %Y", YEAR_FIRST: "%Y-%m-%d"}
    return forms[_date_form.get()]


def typed_day() -> DayForm:
    """Give the order in which a day is typed, that in which dates are written."""
    return _TYPED[_date_form.get()]


def tick_day() -> str:
    """Give a chart's format of a day whose year is clear from its place."""
    return "%-d %b" if _date_form.get() == DAY_FIRST else "%b %-d"


def day_or(when: date | None, otherwise: str) -> str:
    """Give a date, or other words where there is none."""
    return otherwise if when is None or when != when else day(when)  # noqa: PLR0124 - NaT


def plate_words(share: float) -> str:
    """Name the part of the plate that has to be filled for the plate to count as lasting."""
    return "half the plate" if share == 0.5 else f"{share:.0%} of the plate"


def counted_words(counted: date | None, today: date, part: tuple[int, int] = (1, 1)) -> str:
    """Say when the shelf was last counted, and how long ago that is.

    ``part``: of how many preserves that should have stood there, how many were; both at least 1.
    """
    if counted is None:
        return "Shelf never counted: known by what was put up, where that was written down"
    weeks = (today - counted).days // 7
    ago = f"{count(weeks, 'week')} ago" if weeks else "within the week"
    seen, there = part
    if seen < there:
        return f"Shelf partly counted ({seen} of {there}) on {day(counted)} ({ago})"
    return f"Shelf counted {day(counted)} ({ago})"


def short_day(when: date) -> str:
    """Give a date inside a year that is clear from its place: 3 Apr."""
    if _date_form.get() == DAY_FIRST:
        return f"{when.day} {when:%b}"
    return f"{when:%b} {when.day}"


def chance(share: float) -> str:
    """Give a chance in tenths of years."""
    tenths = round(share * 10)
    if share <= 0.005:
        return "hardly ever"
    if tenths == 0:
        return "under 1 year in 10"
    if share >= 0.995:
        return "nearly always"
    return "over 9 years in 10" if tenths == 10 else f"{count(tenths, 'year')} in 10"


def morning_of(look: datetime) -> date | None:
    """Give the day on whose morning one looks who would else have to in the night; None by day."""
    if NIGHT_ENDS <= look.hour < NIGHT_BEGINS:
        return None
    return look.date() + timedelta(days=look.hour >= NIGHT_BEGINS)


def at_clock(moment: datetime) -> str:
    """Give a clock time and its day, of a year that is clear from its place."""
    return f"{moment:%H:%M} on {short_day(moment)}"


def count(number: float, one: str, many: str = "") -> str:
    """Give a number with its noun in the right form."""
    whole = round(number)
    return f"{whole:,} {one if whole == 1 else many or one + 's'}"


def listed(names: Iterable[str], most: int = 4) -> str:
    """Join names as in a sentence; more than ``most`` are counted.

    Where a name itself holds an ``and``, a comma goes before the last one.
    """
    all_names = list(names)
    shown = all_names[:most]
    if len(all_names) > most:
        shown = [*all_names[: most - 1], f"{len(all_names) - most + 1} more"]
    if len(shown) < 2:
        return "".join(shown)
    last = ", and " if any(" and " in name for name in shown) else " and "
    return f"{', '.join(shown[:-1])}{last}{shown[-1]}"


def capital(text: str) -> str:
    """Begin a text with a capital; names and months within it keep theirs."""
    return text[:1].upper() + text[1:]


def pieces(number: float, one: str) -> str:
    """Give a number of containers as people say it; of scales the name stays as it is."""
    return f"{number:g} {one if number <= 1 else several(one)}"


def several(one: str) -> str:
    """Give the word for several of a container or unit; what is read off a scale has no plural."""
    if one in ("kg", "lb", "qt"):
        return one
    return f"{one}{'es' if one.endswith(('ch', 'sh', 's', 'x')) else 's'}"


def hours(minutes: float) -> str:
    """Give kitchen time in hours and minutes."""
    whole = round(minutes)
    if whole < 60:
        return f"{whole} min"
    return f"{whole // 60} h {whole % 60:02d}" if whole % 60 else f"{whole // 60} h"
