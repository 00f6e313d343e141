"""Words that no markup acts on: the cells of plain tables, and what else a household named.

Streamlit reads Markdown where it shows words; the names in ours are the household's own.
"""

import math
import re
from datetime import date

import numpy as np
import pandas as pd

from dashboard.words import day

_ACTED_ON = re.compile(r"[\\`*_{}\[\]<>#~$|:@]|\b[Ww]{3}\.|^\s*(?:[-+]|\d+[.)])(?=\s)")
# A number stays in one line with what it counts.
_AFTER_A_NUMBER = re.compile(r"(?<=\d) (?=\S)")
_BOLD = re.compile(r"\*\*([^*]+)\*\*([^*]*)")
# Where a line may end: a space, not one that holds a number and its unit together.
_BREAKS = re.compile(r"[ ]+")
_NUMBERS = (int, float, np.integer, np.floating)


def plain(text: str) -> str:
    """Give a text as Markdown that shows it as it is."""
    return _ACTED_ON.sub(lambda found: f"{found[0][:-1]}\\{found[0][-1]}", text)


def cells(frame: pd.DataFrame) -> pd.DataFrame:
    """Give a table as plain text; what is blank or unknown stays blank.

    The first words of a cell may be in bold: ``**sort first**: it sprouts``.
    """
    told = [[_cell(value) for value in frame[name]] for name in frame.columns]
    named = {plain(str(name)): column for name, column in zip(frame.columns, told, strict=True)}
    return pd.DataFrame(named, dtype=str)


def written(told: pd.DataFrame) -> str:
    """Give a table of ``cells`` as one text of Markdown.

    It is there much sooner than a table each of whose cells is a text of its own.
    """
    rows = [list(told.columns), ["---"] * len(told.columns), *told.to_numpy().tolist()]
    return "\n".join(f"| {' | '.join(row)} |" for row in rows)


def carded(told: pd.DataFrame) -> pd.DataFrame:
    """Give a table of ``cells`` each of which brings its heading along, all but the first.

    On a phone, where its columns would be a few letters wide, they stand one below the other.
    """
    own = told.copy()
    for name in told.columns[1:]:
        own[name] = [f":gray[{name}] {cell}" if cell else "" for cell in told[name]]
    return own


def letters_wide(told: pd.DataFrame) -> int:
    """Give how many letters wide a table is at least: its words wrap, but are not broken."""
    return sum(
        max(len(word) for cell in (name, *told[name]) for word in _BREAKS.split(cell.strip()))
        for name in told.columns
    )


def _cell(value: object) -> str:
    if value is None or value is pd.NaT:
        return ""
    if isinstance(value, (bool, np.bool_)):
        return "yes" if value else ""
    if isinstance(value, _NUMBERS):
        return "" if math.isnan(value) else f"{value:,.10g}"
    words = day(value) if isinstance(value, date) else " ".join(str(value).split())
    words = _AFTER_A_NUMBER.sub("\N{NO-BREAK SPACE}", words)
    bold = _BOLD.fullmatch(words)
    return f"**{plain(bold[1])}**{plain(bold[2])}" if bold else plain(words)
