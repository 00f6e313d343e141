"""What the record says, as the first sentence of a page."""

from datetime import date

import pandas as pd

from dashboard.units import units_of
from dashboard.words import count, day, listed
from model import KEEPS, QUALITY, Season

COUNT_DUE_WEEKS = 7


def larder_headline(season: Season, first: pd.DataFrame, today: date) -> str:
    """Say what to look at or eat first, and whether a count is due."""
    doubtful = first[~first["condition"].isin([KEEPS, QUALITY])]
    if first.empty:
        told = "By the book the larder is empty."
    elif len(doubtful):
        names = listed(dict.fromkeys(doubtful["preserve"]))
        told = f"**Look first at {names}**: {doubtful.iloc[0]['why_first']}."
    else:
        row = first.iloc[0]
        told = f"**Eat first: {row['preserve']}**, {row['why_first']}."
    counted = season.counted_on(today)
    if counted is None:
        return f"{told} It was never counted: ten minutes with a pencil make every figure sure."
    weeks = (today - counted).days // 7
    if weeks >= COUNT_DUE_WEEKS:
        return f"{told} A count is due: the last was {count(weeks, 'week')} ago."
    return told


def log_headline(season: Season, waiting: int, today: date) -> str:
    """Say what waits to be written down."""
    last = max((picking.day for picking in season.pickings if picking.day <= today), default=None)
    picked = f"Last picking written down: {day(last)}." if last else "No picking written down yet."
    if not waiting:
        return picked
    seals = count(waiting, "batch waits", "batches wait")
    return f"**{seals} for a look at the seals.** {picked}"


def review_headline(review: pd.DataFrame, changes: pd.DataFrame, year: str, units: str) -> str:
    """Say how many jars were filled, what ran out, and the largest changes for next year."""
    jars = review[review["unit"] == "jar"]
    filled, sealed = jars["filled_units"].sum(), jars["sealed_units"].sum()
    out = list(review[review["ran_out"].notna()]["preserve"])
    parts = [f"No jars were filled in {year}."]
    if filled:
        were = "jar was" if filled == 1 else "jars were"
        parts = [f"In {year} **{filled:.0f} {were} filled** and {sealed:.0f} came onto the shelf."]
    if out:
        parts.append(f"Ran out: {listed(out)}.")
    if not changes.empty:
        told = [
            f"{row.preserve} {units_of(row.next_units, row.unit, units)} "
            f"(this year {units_of(row.before_units, row.unit, units)})"
            for row in changes.itertuples()
        ]
        parts.append(f"What would change most next year: {listed(told)}.")
    return " ".join(parts)
