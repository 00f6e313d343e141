"""Quantities in the household's own units, on a screen or in a terminal; inside all is metric."""

import pandas as pd

from model.outlook.headings import HEADINGS

US = "US"
KG_PER_LB = 0.45359237
M2_PER_FT2 = 0.09290304
M_PER_FT = 0.3048
L_PER_QT = 0.946352946
L_PER_CU_FT = 28.316846592
ML_PER_FL_OZ = 29.5735295625

# Unit inside -> the word a household of US units uses, and how much of the inside unit one is.
OWN = {
    "kg": ("lb", KG_PER_LB),
    "litre": ("qt", L_PER_QT),
    "l": ("cu ft", L_PER_CU_FT),
    "ml": ("fl oz", ML_PER_FL_OZ),
    "m2": ("ft²", M2_PER_FT2),
    "m2 of bed": ("ft²", M2_PER_FT2),
    "m of row": ("ft of row", M_PER_FT),
}
# A column that names the unit of each row -> the columns of numbers in it.
_BY_ROW = {
    "per": ("amount", "written"),
    "unit": ("used", "available", "units", "needed", "there", "to_buy"),
    "jar": ("to_fill", "by_hand_fill"),
}


def in_own(number: float, unit: str, units: str) -> tuple[float, str]:
    """Give a number and its unit as the household counts them.

    ``units`` is metric or US; a unit that has no other of the household stays.

    >>> number, unit = model.in_own(10.0, "kg", model.US)
    >>> round(number, 2), unit
    (22.05, 'lb')
    """
    if units == US and unit in OWN:
        word, each = OWN[unit]
        return number / each, word
    return number, "m²" if unit.startswith("m2") else unit


def from_own(number: float, unit: str, units: str) -> float:
    """Give a number that the household wrote in its own unit in the unit used inside.

    The inverse of ``in_own``; ``unit`` is the one used inside.

    >>> round(model.from_own(10.0, "kg", model.US), 3)
    4.536
    """
    return number * OWN[unit][1] if units == US and unit in OWN else number


def in_own_words(table: pd.DataFrame, units: str) -> pd.DataFrame:
    """Give an outlook table in the household's own units, under headings that name them."""
    shown = table.copy()
    for name, numbers in _BY_ROW.items():
        if name not in table:
            continue
        for column in table.columns.intersection(list(numbers)):
            pairs = zip(table[column], table[name], strict=True)
            shown[column] = [in_own(number, unit, units)[0] for number, unit in pairs]
        shown[name] = [in_own(1.0, unit, units)[1] for unit in table[name]]
    headings = {}
    for name in table.columns:
        known = HEADINGS[name]
        each, unit = in_own(1.0, known.unit, units)
        if each != 1.0:
            shown[name] = shown[name] * each
        headings[name] = f"{known.words} ({unit})" if unit else known.words
    return shown.rename(columns=headings)
