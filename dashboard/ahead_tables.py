"""Tables of what lies ahead: last days to sow, what to buy in, how to make it reach."""

from functools import partial

import pandas as pd

from dashboard.units import weight
from dashboard.words import about, chance, count, day, day_or

# What evidence is called when there is one of it.
ONE_OF = {
    "own seasons": "own season",
    "own batches": "own batch",
    "stretches between counts": "stretch between counts",
}


def sowing_rows(sowing: pd.DataFrame) -> pd.DataFrame:
    """Give the last days to start each crop, by the chance that it is still picked."""
    shown = sowing[["crop"]].copy()
    shown["start_by"] = sowing["start_by"]
    for name in ("latest_nine", "latest_five", "latest_two"):
        shown[name] = [day_or(when, "") for when in sowing[name]]
    shown["chance_today"] = [chance(share) for share in sowing["chance_today"]]
    shown["free_beds"] = sowing["free_beds"]
    return shown


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
            "less_portions": [
                "" if pd.isna(part) else f"{about(part)} from {day_or(when, 'now')}"
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
            "ration": rations["ration"],
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
        kg = row.unit.startswith("kg ")
        told = partial(weight, units=units) if kg else about
        rows.append(
            {
                "learned": row.learned,
                "what": row.what,
                "unit": row.unit.removeprefix("kg ") if kg else row.unit,
                "usual": told(row.usual),
                "own": told(row.own),
                "own_range": f"{told(row.own_low)} to {told(row.own_high)}",
                "rests_on": count(row.rests_on, ONE_OF[row.evidence], row.evidence),
            }
        )
    columns = ["learned", "what", "unit", "usual", "own", "own_range", "rests_on"]
    return pd.DataFrame(rows, columns=columns)
