"""Jar sizes by volume, and the tested size that covers a jar.

A time tested for a larger jar is never too short for a smaller one, so a jar takes the
tested size that is equal or next larger; a jar above every tested size has none.
"""

import re
from collections.abc import Iterable
from fractions import Fraction
from functools import cache

from model.reference.read import table

ML_PER_FL_OZ = Fraction("29.5735295625")
_VOLUME = re.compile(
    r"\s*([0-9]{1,9}(?:[.][0-9]{1,9})?)\s*(ml|cl|l|litres?|liters?|fl\.?\s*oz|oz)\s*(?:jar)?\s*",
    re.IGNORECASE,
)


@cache
def tested_sizes() -> dict[str, Fraction]:
    """Map the tested jar sizes to their volumes in ml, smallest first."""
    return {row["jar"]: Fraction(row["volume_ml"]) for row in table("jar_sizes")}


@cache
def _names() -> dict[str, str]:
    names = {}
    for row in table("jar_sizes"):
        for name in (row["jar"], *row["also_called"].split(";")):
            names[name.lower()] = row["jar"]
    return names


def jar_ml(text: str) -> Fraction:
    """Read a jar such as ``pint``, ``500 ml`` or ``0.9 l`` as exact millilitres.

    Raises ValueError when it names no size.
    """
    name = text.strip().lower().removesuffix(" jar")
    named = _names().get(name) or _names().get(name.rstrip("s"))
    if named is not None:
        return tested_sizes()[named]
    match = _VOLUME.fullmatch(text)
    if match is None or Fraction(match[1]) <= 0:
        known = ", ".join(tested_sizes())
        raise ValueError(
            f"{text[:40]!r} is not a jar size; write {known}, or a volume such as 500 ml"
        )
    number, unit = Fraction(match[1]), match[2].lower()
    if unit == "ml":
        return number
    if unit == "cl":
        return number * 10
    return number * 1000 if unit.startswith("l") else number * ML_PER_FL_OZ


def covering_size(volume_ml: Fraction, tested: Iterable[str]) -> str | None:
    """Give the smallest of the tested sizes that is at least as large as a jar, in ml, if any."""
    sizes = tested_sizes()
    large_enough = [size for size in tested if sizes[size] >= volume_ml]
    return min(large_enough, key=sizes.__getitem__, default=None)
