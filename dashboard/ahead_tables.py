"""Tables of what lies ahead: last days to sow, what to buy, how to make it reach."""

import math
from functools import partial
from typing import Any

import pandas as pd

from dashboard.units import amount, in_own, weight
from dashboard.words import about, chance, count, day, day_or, hours, in_own_days, short_day

# What evidence is called when there is one of it.
ONE_OF = {
    "own seasons": "own season",
    "own batches": "own batch",
    "stretches between counts": "stretch between counts",
}


def sowing_rows(sowing: pd.DataFrame, units: str) -> pd.DataFrame:
    """Give the last days to start each crop, by the chance that it is still picked."""
    days = ("latest_nine", "latest_five", "latest_two")
    years = {when.year for name in days for when in sowing[name] if when is not None}
    told = short_day if len(years) == 1 else day
    shown = pd.DataFrame(
        {
            "crop": [
                row.crop if row.start_by == "sow" else f"{row.crop} ({row.start_by})"
                for row in sowing.itertuples()
            ]
        }
    )
    for name in days:
        shown[name] = ["" if when is None else told(when) for when in sowing[name]]
    shown["chance_today"] = [
        "too early" if pd.isna(share) else chance(share) for share in sowing["chance_today"]
    ]
    shown["free_bed"] = [_room(row, units) for row in sowing.itertuples()]
    return shown


def _room(row: Any, units: str) -> str:
    """Name the bed with the most room, and say how many others have some."""
    if not row.free_bed:
        return ""
    more = row.beds_free - 1
    others = f", and {count(more, 'other')}" if more else ""
    return f"{row.free_bed} {amount(row.free_m2, 'm2', units)}{others}"


def sizes_told(sizes: pd.DataFrame) -> pd.DataFrame:
    """Keep the sowings for which another size is best than just any one."""
    return sizes[sizes["load_kg"].notna() | (sizes["sowings"] > 1)]


def sowing_size_rows(sizes: pd.DataFrame, units: str) -> pd.DataFrame:
    """Give the sowings that should ripen together for a load, or be spread, with the reason."""
    told = sizes_told(sizes)
    return pd.DataFrame(
        {
            "crop": [f"{row.crop} ({row.bed})" for row in told.itertuples()],
            "amount": [amount(row.amount, row.per, units) for row in told.itertuples()],
            "sow_as": [_sown_so(row, units) for row in told.itertuples()],
        }
    )


def _sown_so(row: Any, units: str) -> str:
    if row.sowings == 1:
        one = amount(row.load_amount, row.per, units)
        return (
            f"all together: {weight(row.at_once_kg, units)} ripen at once, a full load of "
            f"{row.preserve} takes {weight(row.load_kg, units)}; {one} fill one"
        )
    part_kg = row.heaviest_kg / row.sowings
    over = f"; even so {weight(part_kg, units)} come" if part_kg > row.used_week_kg + 0.5 else ""
    heaviest, used = (weight(kg, units) for kg in (row.heaviest_kg, row.used_week_kg))
    return (
        f"in {row.sowings} parts, {row.days_apart:g} days apart: its heaviest week gives "
        f"{heaviest}, of which {used} are used{over}"
    )


def away_rows(away: pd.DataFrame, units: str) -> pd.DataFrame:
    """Give the days to sow instead so that the crop is not ripe while everyone is away."""
    return pd.DataFrame(
        {
            "crop": away["crop"],
            "start_now": [
                f"{start} {day(when)}"
                for start, when in zip(away["start_by"], away["start_now"], strict=True)
            ],
            "start_then": [day(when) for when in away["start_then"]],
            "saved_kg": [
                f"{weight(row.saved_kg, units)} of {weight(row.ripens_away_kg, units)}"
                for row in away.itertuples()
            ],
            "chance_then": [chance(share) for share in away["chance_then"]],
            "away_from": [
                f"{day(row.away_from)} to {day(row.away_until)}" for row in away.itertuples()
            ],
        }
    )


def buy_rows(buying: pd.DataFrame, units: str) -> pd.DataFrame:
    """Give what to buy in, until when, and how much less a week would do instead."""
    less = zip(buying["less_portions"], buying["less_from"], strict=True)
    return pd.DataFrame(
        {
            "food": buying["food"],
            "crop": buying["crop"],
            "buy_kg": [weight(kg, units) for kg in buying["buy_kg"]],
            "buy_by": [day_or(when, "") for when in buying["buy_by"]],
            "preserve": buying["preserve"],
            "buy_hours": [hours(60 * one) for one in buying["buy_hours"]],
            "less_portions": [
                "" if pd.isna(part) else f"{about(part)} a week from {day_or(when, 'now')}"
                for part, when in less
            ],
        }
    )


def ration_rows(rations: pd.DataFrame) -> pd.DataFrame:
    """Give the smallest change for each food that would give out, with its chances."""
    return pd.DataFrame(
        {
            "food": rations["food"],
            "lasts_until": [day_or(when, "") for when in rations["lasts_until"]],
            "ration": [in_own_days(words) for words in rations["ration"]],
            "chance_before": [chance(share) for share in rations["chance_before"]],
            "chance_after": [
                "" if pd.isna(share) else chance(share) for share in rations["chance_after"]
            ],
        }
    )


def learned_rows(learned: pd.DataFrame, units: str) -> pd.DataFrame:
    """Give what the record has taught beside the usual figure; yields in the own weight."""
    rows = []
    for row in learned.itertuples():
        kg, unit, each = row.unit.startswith("kg "), row.unit, 1.0
        if kg:
            each, word = in_own(1.0, unit.removeprefix("kg a "), units)
            unit = f"a {word}"
        told = partial(_weight_of, each=each, units=units) if kg else about
        rows.append(
            {
                "learned": row.learned,
                "what": row.what,
                "unit": unit,
                "usual": told(row.usual),
                "own": told(row.own) if row.rests_on else "as usual",
                "own_range": f"{told(row.own_low)} to {told(row.own_high)}",
                "rests_on": count(row.rests_on, ONE_OF[row.evidence], row.evidence)
                if row.rests_on
                else f"nothing: {row.left_out} left out",
            }
        )
    columns = ["learned", "what", "unit", "usual", "own", "own_range", "rests_on"]
    return pd.DataFrame(rows, columns=columns)


def _weight_of(kg: float, each: float, units: str) -> str:
    """Give a weight of one of the household's own units, of which ``each`` are one inside."""
    return weight(kg / each, units)


def buy_list_rows(buying: pd.DataFrame, units: str) -> pd.DataFrame:
    """Give what is to be bought: until when, how much, what for."""
    short = buying[[number is None or number > 0 for number in buying["to_buy"]]]
    return pd.DataFrame(
        {
            "in_house_by": [day(when) for when in short["in_house_by"]],
            "what": short["what"],
            "to_buy": _bought(short, "to_buy", units),
            "used_for": short["used_for"],
        }
    )


def in_house_rows(buying: pd.DataFrame, units: str) -> pd.DataFrame:
    """Give what the plan needs and the household has enough of."""
    enough = buying[[number == 0 for number in buying["to_buy"]]]
    return pd.DataFrame(
        {
            "what": enough["what"],
            "needed": _bought(enough, "needed", units),
            "there": _bought(enough, "there", units),
            "used_for": enough["used_for"],
        }
    )


def _bought(rows: pd.DataFrame, name: str, units: str) -> list[str]:
    """Say how much is bought: what is counted or measured out is never rounded down."""
    return [
        bought_words(number, unit, units)
        for number, unit in zip(rows[name], rows["unit"], strict=True)
    ]


def bought_words(number: float | None, unit: str, units: str) -> str:
    """Say how much of one thing is bought."""
    if number is None:
        return "as the recipe says"
    if unit == "plant":
        return amount(number, unit, units)
    if unit in ("m2 of bed", "m of row"):
        return f"enough for {amount(number, unit, units)}"
    own, word = in_own(number, unit, units)
    if unit in ("jar", "pack", "lid", "100 g bag"):
        return count(math.ceil(own - 1e-6), word.removeprefix("100 g "))
    return (
        f"{math.ceil(4 * own - 1e-6) / 4:,g} {word}" if own < 10 else f"{math.ceil(own):,} {word}"
    )
