"""The list on the cupboard's door: what stands where, what to eat first, a box for every jar."""

from collections.abc import Sequence
from datetime import date, timedelta

import pandas as pd

from dashboard.paper.sheet import Sheet
from dashboard.units import units_of
from dashboard.words import day, local
from model import CHILLED, HEADINGS, KEEPS, Season

MOST_BOXES = 60
REFRIGERATOR = "Refrigerator: within a few days, or throw away"
CAUTION = (
    "Before opening: look, tilt and smell, only ever to reject a jar. "
    "Nothing here says that one is safe."
)
SHARES = [6.4, 2.2, 2.8, 8.4]


def cupboard_list(
    season: Season, first: pd.DataFrame, today: date, eaten: Sequence[str] = ()
) -> bytes:
    """Give the list as PDF, from the eat-first table, in its order within each place.

    ``eaten`` is what the book still has though it was likely eaten since somebody saw it.

    What has to be looked at before anybody takes of it stands in blocks of its own after the
    rest, without boxes. More than ``MOST_BOXES`` jars, and what is not kept in jars or packs,
    stand as a number only.
    """
    title = "The cupboard: in each place eat first what is on top"
    sheet = Sheet(season, title, f"as of {day(today)} · strike out what is taken", today)
    sheet.text(CAUTION, bold=True)
    rows, head = list(first.itertuples()), [*SHARES[:2], sum(SHARES[2:])]
    ready = [(row, _place(season, row)) for row in rows if not row.before_taking]
    if ready:
        left = HEADINGS["standing_units"].words.lower()
        sheet.cells(["", left, "best until (quality)"], head)
    for place in sorted({place for _, place in ready}):
        sheet.heading(place)
        for row, stands in ready:
            if stands == place:
                _making(sheet, season, row, today)
    for told in dict.fromkeys(row.before_taking for row in rows if row.before_taking):
        sheet.heading(f"{HEADINGS['before_taking'].words}: {told}")
        for row in rows:
            if row.before_taking == told:
                where = f"{_place(season, row)}, put up {day(row.put_up_on)}"
                sheet.cells([*_named(season, row), where], head)
    if eaten:
        sheet.heading("Likely eaten, though the book still has it: look, and count")
        sheet.bullets([local(words) for words in eaten])
    elif first.empty:
        sheet.line("By the book nothing stands here.")
    return sheet.pdf()


def _place(season: Season, row: tuple) -> str:
    return REFRIGERATOR if row.condition == CHILLED else season.preserve(row.preserve).place


def _named(season: Season, row: tuple) -> list[str]:
    name = f"{local(row.preserve)}, {row.put_up_on:%b %Y}"
    return [name, units_of(row.standing_units, row.unit, season.units)]


def _making(sheet: Sheet, season: Season, row: tuple, today: date) -> None:
    """Write one making, with its condition in place of a month unless it keeps."""
    best = today + timedelta(weeks=row.weeks_left)
    told = f"{best:%b %Y}" if row.condition == KEEPS else row.condition
    number = round(row.standing_units)
    boxed = season.preserve(row.preserve).in_pieces and number <= MOST_BOXES
    sheet.tally([*_named(season, row), told], SHARES, number if boxed else 0)
