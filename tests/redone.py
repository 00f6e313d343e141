"""A working redone by a person with a calculator: only what is printed is known."""

import re
from collections.abc import Iterator
from datetime import date
from decimal import Decimal, localcontext
from math import ceil, floor

import pandas as pd

from model import about
from model.outlook.working import Working

TOKEN = re.compile(r"\(|\)|(?<= )[x/+^-](?= )|\d+(?:\.\d+)?")
NUMBER = re.compile(r"-?\d[\d,]*(?:\.\d+)?")
AS_PYTHON = {"x": "*", "^": "**"}


def told(working: Working) -> list[str]:
    """Give the lines; a day is no number."""
    return [one.told(lambda _: "that day") for one in working.lines]


def results(working: Working) -> Iterator[float]:
    """Redo every sum and give what it says it comes to; fails where it comes to something else."""
    for text in told(working):
        left, equals, right = text.partition(" = ")
        if not equals:
            continue
        said = NUMBER.match(right)
        assert said, text
        value, decimals = redo(left), len(said[0].partition(".")[2])
        off = abs(value - float(said[0].replace(",", "")))
        assert off <= 0.5 * 10**-decimals + 1e-7, (text, value)
        yield float(said[0].replace(",", ""))


def redo(left: str) -> float:
    """Work out the left side of a sum; what a line is about stands before a colon."""
    tokens = [AS_PYTHON.get(token, token) for token in TOKEN.findall(left.rpartition(": ")[2])]
    value = float(pd.eval(" ".join(tokens), engine="python"))
    with localcontext() as context:
        context.prec = 12
        value = float(+Decimal(value))
    if "rounded up" in left:
        value = ceil(value)
    elif "rounded down" in left:
        value = floor(value)
    elif "rounded" in left:
        value = floor(value + 0.5)
    return max(0, value) if "never below none" in left else value


def comes_to(working: Working) -> bool:
    """Say whether one of the sums comes to the figure shown.

    A day is no sum; what stands in the notes, and is worked out of nothing, is said as it is.
    """
    found = list(results(working))
    if isinstance(working.shown, date):
        return bool(found)
    if not found:
        return told(working)[0].startswith(working.shown)
    said = NUMBER.search(working.shown)
    assert said, working.shown
    shown, decimals = float(said[0].replace(",", "")), len(said[0].partition(".")[2])
    near = 0.5 * 10**-decimals + 1e-9
    return any(abs(result - shown) <= near or about(result) == said[0] for result in found)
