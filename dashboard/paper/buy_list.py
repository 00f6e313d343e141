"""The buy list on paper: by which day what must be in the house, and how much of it."""

from datetime import date

import pandas as pd

from dashboard.paper.sheet import Sheet
from dashboard.words import day, local
from model import HEADINGS, Season

SHARES = {"in_house_by": 2.7, "what": 4.0, "to_buy": 3.0, "used_for": 5.0}
KEEP_TO = (
    "Jars, lids and packs are those of the plan, which keeps to the jars that are there. Acid is "
    "the published amount a jar. How much else goes in stands only in the tested recipe."
)


def buy_list(season: Season, rows: pd.DataFrame, today: date) -> bytes:
    """Give the list as PDF, from its rows in the household's own units, each with a box to tick."""
    sheet = Sheet(season, "Buy list", f"by the plan of {day(today)}", today)
    shares = list(SHARES.values())
    sheet.head([HEADINGS[name].words for name in SHARES], shares)
    for row in rows[list(SHARES)].to_dict("records"):
        sheet.cells([local(words) for words in row.values()], shares, box=True)
    if rows.empty:
        sheet.line("By the plan nothing has to be bought.")
    sheet.heading("What stands behind it")
    sheet.text(KEEP_TO)
    return sheet.pdf()
