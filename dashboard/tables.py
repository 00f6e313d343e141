"""Outlook tables made ready for the eye: our words, two significant figures, dates."""

from datetime import timedelta

import pandas as pd

from dashboard.words import (
    PLATE,
    about,
    amount,
    chance,
    day,
    day_or,
    enough_words,
    hours,
    part_units,
    short_day,
    units_of,
    weight,
)

WEEK = timedelta(days=7)
# a food is said to last when it does in eight years of ten, the household's "almost always"
ENOUGH = ((0.8, "yes"), (0.5, "likely"), (0.0, "no"))


def garden_rows(plantings: pd.DataFrame, units: str) -> pd.DataFrame:
    """Give the plantings as people read them."""
    rows = plantings.itertuples()
    return pd.DataFrame(
        [
            {
                "crop": row.crop,
                "amount": amount(row.amount, row.per, units),
                "expected_kg": weight(row.expected_kg, units),
                "written": amount(row.written, row.per, units),
                "bed": row.bed,
                "start": row.start,
                "first_picking": row.first_picking,
                "own_seasons": row.own_seasons,
            }
            for row in rows
        ]
    )


def jar_rows(preserves: pd.DataFrame) -> pd.DataFrame:
    """Give the jars to fill, those most filled first, with the hand rule beside them."""
    shown = preserves.sort_values("to_fill", ascending=False)
    return pd.DataFrame(
        [
            {
                "preserve": row.preserve,
                "to_fill": units_of(row.to_fill, row.unit) if row.to_fill else "none",
                "by_hand": units_of(row.by_hand, row.unit) if row.by_hand else "none",
                "reason": row.reason,
                "sealed_needed": row.sealed_needed,
                "carried_over": row.carried_over,
                "loads": f"{row.loads}" if row.loads else "",
            }
            for row in shown.itertuples()
        ]
    )


def lasting_rows(foods: pd.DataFrame) -> pd.DataFrame:
    """Add whether each food lasts and the words beside its bar; the plate first, then by date."""
    shown = foods.copy()
    shown["enough"] = [
        next(word for least, word in ENOUGH if share >= least) for share in shown["chance_lasts"]
    ]
    shown["label"] = [
        short_day(until) if enough == "no" else enough_words(enough)
        for enough, until in zip(shown["enough"], shown["lasts_until"], strict=True)
    ]
    dates = ("begins", "lasts_low", "lasts_until", "lasts_high", "new_crop", "keeps_until")
    for name in dates:
        shown[name] = pd.to_datetime(shown[name])
    shown["other"] = shown["food"] != PLATE
    return shown.sort_values(["other", "lasts_until"], ignore_index=True, kind="stable")


def lasting_words(foods: pd.DataFrame) -> pd.DataFrame:
    """Give how long each food lasts, in words."""
    return pd.DataFrame(
        [
            {
                "food": row.food,
                "lasts_until": day(row.lasts_until) if row.enough == "no" else "the new crop",
                "lasts_low": day(row.lasts_low),
                "new_crop": day_or(row.new_crop, "none planted"),
                "chance_lasts": chance(row.chance_lasts),
                "level_portions": about(row.level_portions),
                "keeps_until": day_or(row.keeps_until, ""),
                "met_portions": about(row.met_portions),
                "wanted_portions": about(row.wanted_portions),
            }
            for row in foods.itertuples()
        ]
    )


def shortfall_rows(foods: pd.DataFrame) -> pd.DataFrame:
    """Give the portions that each food falls short of the want, the most first."""
    short = foods[foods["wanted_portions"] - foods["met_portions"] >= 1].copy()
    short["short_portions"] = short["wanted_portions"] - short["met_portions"]
    return pd.DataFrame(
        [
            {
                "food": row.food,
                "short_portions": about(row.short_portions),
                "wanted_portions": about(row.wanted_portions),
                "lasts_until": day(row.lasts_until),
                "new_crop": day_or(row.new_crop, "none planted"),
            }
            for row in short.sort_values("short_portions", ascending=False).itertuples()
        ]
    )


def strips(harvest: pd.DataFrame, units: str) -> pd.DataFrame:
    """Give the harvest as strips: each week's share of the crop's heaviest week."""
    shown = harvest[harvest["expected_kg"] > 0.02].copy()
    shown["share"] = shown["expected_kg"] / shown.groupby("crop")["expected_kg"].transform("max")
    shown["week_end"] = [monday + WEEK for monday in shown["week"]]
    shown["kg_words"] = [weight(kg, units) for kg in shown["expected_kg"]]
    return with_dates(shown, "week", "week_end")


def week_rows(weeks: pd.DataFrame) -> pd.DataFrame:
    """Give the weeks with their ends, and whether their hours are used up."""
    shown = weeks.copy()
    shown["week_end"] = [monday + WEEK for monday in shown["week"]]
    used = shown["hours"] >= 0.97 * shown["free_hours"]
    shown["full"] = ["yes" if full else "no" for full in used & (shown["hours"] > 0)]
    return with_dates(shown, "week", "week_end")


def with_dates(frame: pd.DataFrame, *names: str) -> pd.DataFrame:
    """Turn columns of days into the kind that charts draw."""
    shown = frame.copy()
    for name in names:
        shown[name] = pd.to_datetime(shown[name])
    return shown


def picking_rows(fresh: pd.DataFrame, units: str) -> pd.DataFrame:
    """Give what is picked this week and what becomes of it."""
    return pd.DataFrame(
        [
            {
                "crop": row.crop,
                "expected_kg": weight(row.expected_kg, units),
                "range_kg": f"{weight(row.low_kg, units)} to {weight(row.high_kg, units)}",
                "eaten_kg": _or_none(row.eaten_kg, units),
                "put_up_kg": _or_none(row.put_up_kg, units),
                "spare_kg": _or_none(row.spare_kg, units),
            }
            for row in fresh.itertuples()
        ]
    )


def _or_none(kg: float, units: str) -> str:
    return weight(kg, units) if kg >= 0.05 else ""


def opening_rows(openings: pd.DataFrame) -> pd.DataFrame:
    """Give what to take from the shelf this week, the most portions first."""
    shown = openings.sort_values("portions", ascending=False)
    return pd.DataFrame(
        [
            {
                "preserve": row.preserve,
                "food": row.food,
                "opened": part_units(row.opened, row.unit),
                "portions": about(row.portions),
            }
            for row in shown.itertuples()
        ]
    )


def batch_rows(batches: pd.DataFrame, processes: dict[str, str], units: str) -> pd.DataFrame:
    """Give what is put up this week, with loads, time and process."""
    return pd.DataFrame(
        [
            {
                "preserve": row.preserve,
                "jars": units_of(row.jars, row.unit),
                "loads": f"{row.loads}" if row.loads else "",
                "fresh_kg": weight(row.fresh_kg, units),
                "minutes": hours(row.minutes),
                "process": processes.get(row.preserve, ""),
            }
            for row in batches.sort_values("minutes", ascending=False).itertuples()
        ]
    )
