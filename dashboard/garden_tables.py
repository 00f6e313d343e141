"""Tables of the garden for the eye: what to plant, what to sow now, what it should give."""

from datetime import date, timedelta
from typing import Any

import pandas as pd

from dashboard.tables import or_blank
from dashboard.units import amount, weight
from dashboard.words import day, short_day

YEAR = timedelta(days=365)
LEAST_SPARE_KG = 0.5
# What the notes call a planting of which nothing is left to do.
OUT = "planted out"
# A sowing as late as this is still worth doing in most springs: a judgement.
LATE_SOWING, SOON_SOWING = timedelta(weeks=2), timedelta(days=13)


def garden_rows(plantings: pd.DataFrame, today: date, units: str) -> pd.DataFrame:
    """Give what to plant, where and when, by date; what to give away only where there is any."""
    rows = pd.DataFrame(
        [
            {
                "crop": row.crop,
                "amount": amount(row.amount, row.per, units) if row.amount else "none",
                "bed": row.bed,
                "start_short": _started(row, today) if row.amount else "",
                "first_short": short_day(row.first_picking)
                if row.amount and row.first_picking
                else "",
                "spare_kg": or_blank(row.spare_kg, units, LEAST_SPARE_KG),
            }
            for row in sorted(plantings.itertuples(), key=_when_started)
        ]
    )
    return rows if rows["spare_kg"].any() else rows.drop(columns="spare_kg")


def _when_started(row: tuple) -> tuple[bool, date]:
    """Give the day of the first work; what stands for years or is not grown comes after it."""
    when = row.sown or row.start
    return not row.amount or when is None or _stands(row), when or date.max


def _stands(row: tuple) -> bool:
    """Say whether it was planted for years, and is picked again."""
    return bool(row.start and row.first_picking and row.first_picking - row.start > YEAR)


def _started(row: tuple, today: date) -> str:
    """Give the day of sowing, or else of planting; with the year where it is not the season's."""
    if row.start is None:
        return ""
    if _stands(row):
        return f"{row.start:%b %Y}"
    if row.sown is not None and row.sown < row.start:
        if row.done:
            return f"sown {short_day(row.sown)}"
        late = " or now" if row.sown < today < row.start else ""
        return f"sow {short_day(row.sown)}{late}"
    other_year = row.first_picking and row.first_picking.year != row.start.year
    return day(row.start) if other_year else short_day(row.start)


def yield_rows(plantings: pd.DataFrame, units: str) -> pd.DataFrame:
    """Give what each planting should yield, and what stands behind the figure."""
    return pd.DataFrame(
        [
            {
                "crop": row.crop,
                "bed": row.bed,
                "amount": amount(row.amount, row.per, units),
                "written": amount(row.written, row.per, units),
                "start": row.start,
                "expected_kg": weight(row.expected_kg, units),
                "own_seasons": row.own_seasons,
                "family_before": row.family_before,
            }
            for row in plantings.itertuples()
        ]
    )


def sow_now_rows(plantings: pd.DataFrame, today: date, units: str) -> pd.DataFrame:
    """Give what is to be sown or planted out by the end of next week, what is late first.

    What was written down as done is over. Much never is: a day that is over is told as long as
    it is not far back.
    """
    first = today - LATE_SOWING
    last = today - timedelta(days=today.weekday()) + SOON_SOWING
    due = [
        (when, task, row)
        for row in plantings.itertuples()
        if row.amount
        for when, task in _steps_to_do(row)
        if first <= when <= last
    ]
    return pd.DataFrame(
        [
            {
                "task": task,
                "crop": row.crop,
                "amount": amount(row.amount, row.per, units),
                "bed": row.bed,
                "start_when": short_day(when)
                if when >= today
                else f"{short_day(when)}: now, if it was not done",
            }
            for when, task, row in sorted(due, key=lambda one: one[0])
        ],
        columns=["task", "crop", "amount", "bed", "start_when"],
    )


def _steps_to_do(row: Any) -> list[tuple[date, str]]:
    """Give the days and words of what is still to be done: sowing, planting out, both, neither."""
    if row.done == OUT:
        return []
    raised = row.start is not None and row.start != row.sown
    sow = "sow, to plant out later" if raised else "sow"
    steps = [(row.sown, sow)] if row.sown is not None and not row.done else []
    if raised:
        steps.append((row.start, "plant out"))
    return steps
