"""Outlook tables made ready for the eye: our words, two significant figures, dates."""

from collections.abc import Container
from datetime import timedelta

import pandas as pd

from dashboard.units import amount, in_own, part_units, units_of, weight, weight_with, weights
from dashboard.words import about, day, hours
from model import TIGHT, PlannedSeason

WEEK = timedelta(days=7)
LEAST_KG = 0.05
A_GRAM = 0.001
LEAST_DRAWN_KG = 0.02
REST_WEEKS = 4
MOVED_PORTIONS = 5


def jar_rows(preserves: pd.DataFrame, units: str) -> pd.DataFrame:
    """Give what to put up, the most first: on average, at most, and by the rule of thumb."""
    return pd.DataFrame(
        [
            {
                "preserve": row.preserve,
                "mean_fill": _units_or_none(row.mean_fill, row.unit, units),
                "to_fill": _units_or_none(row.to_fill, row.unit, units),
                "by_hand_fill": _units_or_none(row.by_hand_fill, row.unit, units),
                "why_short": short_reason(row.reason),
            }
            for row in preserves.sort_values("to_fill", ascending=False).itertuples()
        ]
    )


def count_rows(preserves: pd.DataFrame, units: str) -> pd.DataFrame:
    """Give what the plan counts on of each preserve, and why it differs from the rule of thumb."""
    return pd.DataFrame(
        [
            {
                "preserve": row.preserve,
                "sealed_needed": _units_or_none(row.sealed_needed, row.unit, units),
                "carried_over": _units_or_none(row.carried_over, row.unit, units),
                "loads": f"{row.loads}" if row.loads else "",
                "bad_year_fill": _units_or_none(row.bad_year_fill, row.unit, units),
                "chance_filled": f"{row.chance_filled:.0%}" if row.to_fill else "",
                "reason": row.reason,
            }
            for row in preserves.itertuples()
        ]
    )


def short_reason(reason: str) -> str:
    """Give the first words of a reason, which name it; the working holds the rest."""
    return reason.partition(":")[0].partition(",")[0]


def _units_or_none(number: float, unit: str, units: str) -> str:
    return units_of(number, unit, units) if number else "none"


def or_blank(kg: float, units: str, least_kg: float = LEAST_KG) -> str:
    """Give a weight in words, none where there is hardly any."""
    return weight(kg, units) if kg >= least_kg else ""


def strips(harvest: pd.DataFrame, units: str) -> pd.DataFrame:
    """Give the harvest as strips: each week's share of the crop's heaviest week, and words."""
    shown = harvest[harvest["expected_kg"] > LEAST_DRAWN_KG].copy()
    shown["share"] = shown["expected_kg"] / shown.groupby("crop")["expected_kg"].transform("max")
    shown["week_end"] = [monday + WEEK for monday in shown["week"]]
    likely = zip(shown["low_kg"], shown["high_kg"], strict=True)
    shown["likely_kg"] = [weights(low, high, units) for low, high in likely]
    shown["expected_kg"] = [weight(kg, units) for kg in shown["expected_kg"]]
    return with_dates(shown, "week", "week_end").drop(columns=["low_kg", "high_kg"])


def week_rows(weeks: pd.DataFrame) -> pd.DataFrame:
    """Give the weeks of the kitchen with their ends, and whether their hours are used up."""
    shown = weeks.copy()
    shown["week_end"] = [monday + WEEK for monday in shown["week"]]
    shown["middle"] = [monday + WEEK / 2 for monday in shown["week"]]
    used = shown["hours"] >= TIGHT * shown["free_hours"]
    shown["full"] = ["yes" if full else "no" for full in used & (shown["hours"] > 0)]
    return with_dates(shown, "week", "week_end", "middle").drop(columns="expected_kg")


def working_weeks(weeks: pd.DataFrame) -> pd.DataFrame:
    """Give the weeks up to a month after the last in which there is kitchen work."""
    busy = weeks.index[weeks["hours"] > 0]
    return weeks.loc[: busy[-1] + REST_WEEKS] if len(busy) else weeks.head(0)


def with_dates(frame: pd.DataFrame, *names: str) -> pd.DataFrame:
    """Turn columns of days into the kind that charts draw."""
    shown = frame.copy()
    for name in names:
        shown[name] = pd.to_datetime(shown[name])
    return shown


def picking_rows(fresh: pd.DataFrame, units: str, once: Container[str] = ()) -> pd.DataFrame:
    """Give what is picked this week, what was there before and what becomes of both.

    ``once`` are the crops that are lifted once: what is over of them may be in the ground still.
    """
    rows = pd.DataFrame(
        [
            {
                "crop": row.crop,
                "expected_likely": _with_likely(row, units),
                "before_kg": or_blank(row.before_kg, units),
                "eaten_kg": or_blank(row.eaten_kg, units),
                "put_up_kg": or_blank(row.put_up_kg, units),
                "rest": _rest(row, units, "over" if row.crop in once else "give away"),
            }
            for row in fresh.itertuples()
        ]
    )
    return rows if rows["before_kg"].any() else rows.drop(columns="before_kg")


def _with_likely(row: tuple, units: str) -> str:
    """Give what is expected, and in brackets what is likely; blank where nothing is."""
    if row.high_kg < A_GRAM:
        return ""
    return weight_with(row.expected_kg, row.low_kg, row.high_kg, units)


def _rest(row: tuple, units: str, over: str) -> str:
    """Say what is held and what is given away, or over."""
    held, spare = or_blank(row.held_kg, units), or_blank(row.spare_kg, units)
    parts = [f"hold {held}" if held else "", f"{over} {spare}" if spare else ""]
    return ", ".join(part for part in parts if part)


def opening_rows(openings: pd.DataFrame, units: str) -> pd.DataFrame:
    """Give what to take from the shelf this week, what is past its best first, then the most."""
    best = openings["why"].str.startswith("past its best")
    shown = openings.assign(later=~best).sort_values(
        ["later", "portions"], ascending=[True, False], kind="stable"
    )
    return pd.DataFrame(
        [
            {
                "preserve": row.preserve,
                "opened": part_units(row.opened, row.unit, units),
                "portions": about(row.portions),
                "why": row.why,
            }
            for row in shown.itertuples()
        ]
    )


def batch_rows(batches: pd.DataFrame, units: str) -> pd.DataFrame:
    """Give what is put up this week, with loads and time."""
    return pd.DataFrame(
        [
            {
                "preserve": _cured_first(row),
                "jars": put_up_words(row, units),
                "loads": f"{row.loads}" if row.loads else "",
                "fresh_kg": weight(row.fresh_kg, units),
                "minutes": hours(row.minutes),
            }
            for row in batches.sort_values("minutes", ascending=False).itertuples()
        ]
    )


def put_up_words(row: tuple, units: str) -> str:
    """Give what a batch makes; what is weighed is no more than the harvest that goes into it."""
    return units_of(row.units if row.unit == "kg" else row.jars, row.unit, units)


def _cured_first(row: tuple) -> str:
    return f"{row.preserve}, cure first" if row.cure_until_low else row.preserve


def limit_rows(limits: pd.DataFrame, units: str) -> pd.DataFrame:
    """Give what is used of the limits, in the household's units."""
    rows = []
    for row in limits.itertuples():
        used, unit = in_own(row.used, row.unit, units)
        available = in_own(row.available, row.unit, units)[0]
        rows.append(
            {
                "limit": row.limit,
                "week": row.week,
                "used": about(used),
                "available": about(available),
                "unit": unit,
            }
        )
    return pd.DataFrame(rows)


def shelf_rows(stock: pd.DataFrame, units: str) -> pd.DataFrame:
    """Give the stock of preserves from day to day, in the household's units and with dates."""
    shown = with_dates(stock, "day")
    for name in ("jars", "low", "high"):
        shown[name] = [
            in_own(number, unit, units)[0]
            for number, unit in zip(shown[name], shown["unit"], strict=True)
        ]
    return shown


def compared_jars(jars: pd.DataFrame, units: str) -> pd.DataFrame:
    """Give what is put up before and after a change, in the household's units."""
    rows = []
    for row in jars.itertuples():
        before, unit = in_own(row.before, row.unit, units)
        after = in_own(row.after, row.unit, units)[0]
        rows.append(
            {
                "preserve": row.preserve,
                "before": round(before),
                "after": round(after),
                "difference": f"{round(after) - round(before):+d}",
                "unit": unit,
                "reason": row.reason,
            }
        )
    return pd.DataFrame(rows)


def changed_plantings(before: PlannedSeason, after: PlannedSeason) -> pd.DataFrame:
    """Give the plantings of which the plan grows more or less after a change."""
    units, rows = after.case.season.units, []
    pairs = zip(
        before.case.forecast.plantings, before.plan.amounts, after.plan.amounts, strict=True
    )
    for planting, was, now in pairs:
        old, new = (amount(float(much), planting.per, units) for much in (was, now))
        if old != new:
            rows.append({"crop": planting.crop, "bed": planting.bed, "before": old, "after": new})
    return pd.DataFrame(rows, columns=["crop", "bed", "before", "after"])


def compared_foods(foods: pd.DataFrame) -> pd.DataFrame:
    """Give the foods that last shorter or longer, or are eaten less or more, after a change."""
    later = foods["lasts_before"] != foods["lasts_after"]
    moved = later | ((foods["met_before"] - foods["met_after"]).abs() >= MOVED_PORTIONS)
    shown = foods[moved].drop(columns="new_crop")
    for name in ("met_before", "met_after"):
        shown[name] = [about(portions) for portions in shown[name]]
    for name in ("lasts_before", "lasts_after"):
        shown[name] = [day(when) for when in shown[name]]
    return shown
