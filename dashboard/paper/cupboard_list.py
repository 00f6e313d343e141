"""The list on the cupboard's door: what stands where, what to eat first, a box for every jar."""

from datetime import date, timedelta

import pandas as pd

from dashboard.paper.sheet import Sheet
from dashboard.units import units_of
from dashboard.words import day, local
from model import CHILLED, KEEPS, QUALITY, Season

MOST_BOXES = 60
REFRIGERATOR = "Refrigerator: within a few days, or throw away"
SHARES = [6.0, 3.0, 3.0, 3.0]


def cupboard_list(season: Season, first: pd.DataFrame, today: date) -> bytes:
    """Give the list as PDF, from the eat-first table, in its order within each place.

    More than ``MOST_BOXES`` jars, and what is not kept in jars or packs, stand as a number only.
    """
    title = "What stands in the cupboard, eat first what is on top"
    sheet = Sheet(season, title, f"as of {day(today)} · strike out what is taken", today)
    places = [
        REFRIGERATOR if row.condition == CHILLED else season.preserve(row.preserve).place
        for row in first.itertuples()
    ]
    for place in dict.fromkeys(sorted(places)):
        sheet.heading(place)
        sheet.cells(["", "there by the book", "condition", "best until (quality)"], SHARES)
        for row, stands in zip(first.itertuples(), places, strict=True):
            if stands != place:
                continue
            # Only what keeps, or kept, its quality has a month: the others are looked at first.
            best = today + timedelta(weeks=row.weeks_left)
            month = f"{best:%b %Y}" if row.condition in (KEEPS, QUALITY) else ""
            words = units_of(row.standing_units, row.unit, season.units)
            sheet.cells([local(row.preserve), words, row.condition, month], SHARES)
            number = round(row.standing_units)
            if season.preserve(row.preserve).in_pieces and number <= MOST_BOXES:
                sheet.boxes(number)
    if first.empty:
        sheet.line("By the book nothing stands here.")
    sheet.heading("Before opening")
    sheet.line(
        "Look, tilt and smell, only ever to reject a jar: nothing here says that one is safe."
    )
    return sheet.pdf()
