"""Sentences, numbers and dates as people read them.

Forecasts never carry more than two significant figures; chances are told in tenths.
"""

import math
from collections.abc import Iterable
from datetime import date

KG_PER_LB = 0.45359237
M2_PER_FT2 = 0.09290304
PLATE = "whole plate"


def day(when: date) -> str:
    """Give a date without doubt: 3 Apr 2027."""
    return f"{when.day} {when:%b %Y}"


def day_or(when: date | None, otherwise: str) -> str:
    """Give a date, or other words where there is none."""
    return otherwise if when is None or when != when else day(when)  # noqa: PLR0124 - NaT


def enough_words(enough: str) -> str:
    """Give the words for whether a food lasts until its new crop."""
    return {"yes": "enough", "likely": "just about", "no": "gives out"}[enough]


def short_day(when: date) -> str:
    """Give a date inside a year that is clear from its place: 3 Apr."""
    return f"{when.day} {when:%b}"


def about(number: float) -> str:
    """Give a forecast to two significant figures, without needless noughts."""
    if not math.isfinite(number) or number == 0:
        return "0"
    digits = 1 - math.floor(math.log10(abs(number)))
    rounded = round(number, digits)
    return (
        f"{rounded:,.0f}"
        if digits <= 0
        else f"{rounded:.{min(digits, 2)}f}".rstrip("0").rstrip(".")
    )


def weight(kg: float, units: str) -> str:
    """Give a weight in the household's own unit."""
    return f"{about(kg / KG_PER_LB)} lb" if units == "US" else f"{about(kg)} kg"


def area(m2: float, units: str) -> str:
    """Give an area in the household's own unit."""
    return f"{about(m2 / M2_PER_FT2)} ft²" if units == "US" else f"{about(m2)} m²"


def amount(number: float, per: str, units: str) -> str:
    """Give how much is planted, in its own unit."""
    if per == "plant":
        plants = math.ceil(number - 1e-9)
        return f"{plants} plant{'s' if plants != 1 else ''}"
    if per == "m of row":
        return (
            f"{about(number / 0.3048)} ft of row" if units == "US" else f"{about(number)} m of row"
        )
    return area(number, units)


def chance(share: float) -> str:
    """Give a chance in tenths of years."""
    tenths = round(share * 10)
    if share <= 0.005:
        return "hardly ever"
    if tenths == 0:
        return "under 1 year in 10"
    if share >= 0.995:
        return "nearly always"
    return "over 9 years in 10" if tenths == 10 else f"{tenths} years in 10"


def count(number: float, one: str, many: str = "") -> str:
    """Give a number with its noun in the right form."""
    whole = round(number)
    return f"{whole:,} {one if whole == 1 else many or one + 's'}"


def listed(names: Iterable[str], most: int = 4) -> str:
    """Join names as in a sentence; more than ``most`` are counted."""
    all_names = list(names)
    shown = all_names[:most]
    if len(all_names) > most:
        shown = [*all_names[: most - 1], f"{len(all_names) - most + 1} more"]
    if len(shown) < 2:
        return "".join(shown)
    return f"{', '.join(shown[:-1])} and {shown[-1]}"


def hours(minutes: float) -> str:
    """Give kitchen time in hours and minutes."""
    whole = round(minutes)
    if whole < 60:
        return f"{whole} min"
    return f"{whole // 60} h {whole % 60:02d}" if whole % 60 else f"{whole // 60} h"


def part_units(number: float, unit: str) -> str:
    """Give part of a jar or pack as people say it: half a jar, 2 1/2 jars, or one a fortnight."""
    if unit in ("kg", "litre"):
        return units_of(number, unit)
    halves = round(2 * number)
    noun = {"jar": "jar", "pack": "pack"}.get(unit, "bag")
    if halves == 0:
        return f"one {noun} in {round(1 / number)} weeks"
    if halves == 1:
        return f"half a {noun}"
    whole = f"{halves // 2}½" if halves % 2 else f"{halves // 2}"
    return f"{whole} {noun if halves == 2 else noun + 's'}"


def units_of(number: float, unit: str) -> str:
    """Give a number of jars, packs, kilograms or litres with the right noun."""
    if unit in ("kg", "litre"):
        return f"{about(number)} {'kg' if unit == 'kg' else 'litres'}"
    whole = round(number)
    noun = {"jar": "jar", "pack": "pack"}.get(unit, unit.removeprefix("100 g "))
    return f"{whole} {noun if whole == 1 else noun + 's'}"
