"""Answers to questions made ready for the eye: a glut, one more, hedges, ways to plant."""

from datetime import datetime
from typing import Any

import pandas as pd

from dashboard.day_findings import clock
from dashboard.units import US, in_own, units_of, weight
from dashboard.words import about, chance, hours, in_own_days, short_day
from model import DaySheet

LEAST_PORTIONS, LEAST_KG, NEARLY = 0.5, 0.05, 0.5
EAT, CURED = "eat", "cure, then store"


def glut_rows(steps: pd.DataFrame, sheet: DaySheet, units: str) -> pd.DataFrame:
    """Give the parts of a pile in order, the work as the day goes and with when it is done.

    What of it is bruised is told where anything is.
    """
    done = {load.product.name: load.ends for load in sheet.loads}
    cured = {load.product.name for load in sheet.loads if load.cures}
    made = dict[str, float]()
    for load in sheet.loads:
        made[load.product.name] = made.get(load.product.name, 0.0) + load.units
    worked = steps["minutes"] > 0
    work = steps[worked].sort_values(
        "preserve", key=lambda names: names.map(done).fillna(sheet.finish), kind="stable"
    )
    fresh = steps[~worked]
    eaten = fresh["action"] == EAT
    rows = []
    for row in pd.concat([fresh[eaten], work, fresh[~eaten]]).itertuples():
        worked_on = row.minutes > 0
        ends = done.get(str(row.preserve))
        rows.append(
            {
                "crop": row.crop,
                "action": CURED if row.preserve in cured else row.action,
                "kg_words": weight(row.kg, units),
                "bruised_words": weight(row.bruised_kg, units) if row.bruised_kg > LEAST_KG else "",
                "preserve": row.preserve,
                "put_up": units_of(row.units, row.unit, units) if worked_on else "",
                "loads": f"{row.loads}" if row.loads else "",
                "minutes": hours(row.minutes) if worked_on else "",
                "done_at": _done(row, ends, made.get(str(row.preserve), 0.0), sheet, units),
            }
        )
    told = pd.DataFrame(rows)
    some = bool(rows) and told["bruised_words"].any()
    return told if some else told.drop(columns="bruised_words", errors="ignore")


def _done(row: Any, ends: datetime | None, made: float, sheet: DaySheet, units: str) -> str:
    """Give when it is done; what freezer or dryer do not take in one day is done on another."""
    if ends is None:
        return "on another day" if row.minutes > 0 else ""
    told = clock(ends, sheet.begins)
    if made >= row.units - NEARLY:
        return told
    return f"{told} for {units_of(made, row.unit, units)}, the rest on another day"


def idle_limits(found: pd.DataFrame) -> list[str]:
    """Name the limits of which one more brings nothing."""
    best = found.groupby("limit", sort=False)["steps"].max()
    return [in_own_days(str(limit)) for limit in best[best == 0].index]


def more_rows(found: pd.DataFrame, units: str) -> pd.DataFrame:
    """Give what one more of each limit brings, in words, where it brings anything."""
    return pd.DataFrame(
        [
            {
                "limit": in_own_days(row.limit),
                "step": _own_words(row.step, units),
                "when": short_day(row.week),
                "brings": _brings(row.steps, row.portions, row.jars),
            }
            for row in found[found["steps"] > 0].itertuples()
        ]
    )


def _own_words(step: str, units: str) -> str:
    """Say what a metric step comes to in a household of US units."""
    for metric, unit in {"square metre": "m2", "litre": "litre", "more kg": "kg"}.items():
        own, word = in_own(1.0, unit, units)
        if step.endswith(metric) and units == US:
            return f"{step} ({about(own)} {word})"
    return step


def _brings(steps: int, portions: float, jars: float) -> str:
    if steps == 0:
        return "nothing"
    parts = []
    if portions >= LEAST_PORTIONS:
        parts.append(f"{about(portions)} portions")
    if abs(jars) >= LEAST_PORTIONS:
        number = about(abs(jars))
        noun = "jar" if number == "1" else "jars"
        parts.append(f"{number} more {noun}" if jars > 0 else f"with {number} fewer {noun} to fill")
    brought = ", ".join(parts) or "next to nothing"
    return brought if steps == 1 else f"nothing until {steps} at once: {brought}"


def hedge_rows(found: pd.DataFrame, units: str) -> pd.DataFrame:
    """Give the hedges with what they take and what they do."""
    rows = []
    for row in found.itertuples():
        ground, unit = in_own(row.area_m2, "m2", units)
        rows.append(
            {
                "hedge": row.hedge,
                "ground": f"{about(ground)} {unit}" if row.area_m2 else "",
                "kitchen": f"{about(row.hours)} h",
                "chance_lasts": chance(row.chance_lasts),
                "mean_portions": f"{row.mean_portions:,.0f}",
                "bad_year_portions": f"{row.bad_year_portions:,.0f}",
            }
        )
    return pd.DataFrame(rows)


def way_rows(found: pd.DataFrame) -> pd.DataFrame:
    """Give the ways with what came of them; the differences with their ranges."""
    rows = []
    for row in found.itertuples():
        used = pd.isna(row.more_portions)
        rows.append(
            {
                "way": row.way,
                "mean_portions": f"{row.mean_portions:,.0f}",
                "difference": "in use"
                if used
                else f"{row.more_portions:+.0f} ({row.more_low:+.0f} to {row.more_high:+.0f})",
                "bad_year_portions": f"{row.bad_year_portions:,.0f}",
                "bad_difference": "in use"
                if used
                else f"{row.bad_more_portions:+.0f} "
                f"({row.bad_more_low:+.0f} to {row.bad_more_high:+.0f})",
                "weeks_short": about(row.weeks_short),
                "left_portions": about(row.left_portions),
                "kitchen": f"{about(row.hours)} h",
            }
        )
    return pd.DataFrame(rows)
