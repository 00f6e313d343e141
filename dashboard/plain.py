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
_NUMBERS = (int, float, np.integer, np.floating)


def plain(text: str) -> str:
    """Give a text as Markdown that shows it as it is."""
    return _ACTED_ON.sub(lambda found: f"{found[0][:-1]}\\{found[0][-1]}", text)


def written(frame: pd.DataFrame) -> str:
    """Give a table as one text of Markdown; what is blank or unknown stays blank.

    One text is there much sooner than a table each of whose cells is a text of its own. The
    first words of a cell may be in bold: ``**sort first**: it sprouts``.
    """
    told = [[_cell(value) for value in frame[name]] for name in frame.columns]
    rows = [
        [plain(str(name)) for name in frame.columns],
        ["---"] * len(told),
        *zip(*told, strict=True),
    ]
    return "\n".join(f"| {' | '.join(row)} |" for row in rows)


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
