"""Harvest expected against picked: rows and findings, crop by crop and for one crop's season."""

from datetime import date

import pandas as pd

from dashboard.units import weight, weights
from dashboard.words import about, capital, count, day
from model import in_own

LEAST_KG = 0.05
# Judgement: within a twentieth nobody calls a harvest early or poor.
LIKE = 0.05
MOST_SHARE = 2.0
BEHIND, EARLY, UNLOGGED = "behind", "too early to say", "nothing logged"
MEANS = {
    BEHIND: "Behind: a quarter or more is missing of what was due by now.",
    "on track": "On track: within a quarter of what was due by now.",
    "ahead": "Ahead: a quarter or more above what was due by now.",
    "ahead or early": (
        "Ahead or early: a quarter or more above what was due by now, and what ripens at once may "
        "only have come sooner."
    ),
}
COLUMNS = ["crop", "expected_share", "low_share", "high_share", "picked_share"]


def picked_now(table: pd.DataFrame, progress: pd.DataFrame, today: date) -> pd.DataFrame:
    """Give where each crop of the season stands: what was expected by now, its range, the verdict.

    Parameters
    ----------
    table : ``picked_table`` of the model; ``progress`` : its ``progress_table``.
    """
    if table.empty or progress.empty:
        return pd.DataFrame()
    table = table.assign(day=pd.to_datetime(table["day"]))
    whole = table.groupby("crop")["expected_kg"].max().rename("whole_kg")
    known = table[table["day"] <= pd.Timestamp(today)]
    now = known.drop_duplicates("crop", keep="last").drop(columns="picked_kg")
    standing = progress[["crop", "picked_kg", "status", "judged_from"]]
    rows = now.merge(standing, on="crop").merge(whole, on="crop")
    rows = rows[rows["whole_kg"] > LEAST_KG]
    for name in ("expected", "low", "high", "picked"):
        share = rows[f"{name}_kg"] / rows["whole_kg"]
        rows[f"{name}_share"] = share.clip(upper=MOST_SHARE)
    return rows.sort_values("picked_share", ascending=False, ignore_index=True, kind="stable")


def picked_rows(now: pd.DataFrame, units: str) -> pd.DataFrame:
    """Give the same in words and in the household's own units, with what stands at each row."""
    likely = zip(now["low_kg"], now["high_kg"], strict=True)
    expected = [weight(kg, units) for kg in now["expected_kg"]]
    rows = now[[*COLUMNS, "status"]].assign(
        expected_so_far_kg=expected,
        likely_kg=[weights(low, high, units) for low, high in likely],
        picked_kg=[weight(kg, units) for kg in now["picked_kg"]],
        behind=["yes" if status == BEHIND else "no" for status in now["status"]],
    )
    numbers = [about(in_own(kg, "kg", units)[0]) for kg in now["expected_kg"]]
    due = now["expected_kg"] > LEAST_KG
    return rows.assign(
        label=[
            f"{picked}, {kg if any_due else 'none'} due"
            for picked, kg, any_due in zip(rows["picked_kg"], numbers, due, strict=True)
        ]
    )


def picked_finding(now: pd.DataFrame, units: str) -> str:
    """Name the crop that is furthest behind, or else ahead, by how much, and count its like."""
    judged = now[~now["status"].isin([EARLY, UNLOGGED])]
    if now["status"].eq(UNLOGGED).all():
        due = weight(now["expected_kg"].sum(), units)
        return f"No picking was written down; an ordinary year gives {due} by now"
    if judged.empty:
        crops = count(len(now), "crop")
        return f"Too early to say: {crops} have only begun" if len(now) > 1 else "Too early to say"
    off = judged["picked_kg"] - judged["expected_kg"]
    behind = judged[judged["status"] == BEHIND]
    row = judged.loc[off[behind.index].idxmin() if len(behind) else off.abs().idxmax()]
    others = len(behind) - 1
    more = f"; {others} more behind" if others > 0 else ""
    return crop_finding(row["crop"], row["picked_kg"], row["expected_kg"], units) + more


def crop_finding(crop: str, picked_kg: float, expected_kg: float, units: str) -> str:
    """Say what was picked of a crop, against what an ordinary year gives by now."""
    told = f"{capital(crop)}: {weight(picked_kg, units)} picked"
    if expected_kg <= LEAST_KG:
        return f"{told}, before any was expected" if picked_kg > 0 else f"{told}, none expected yet"
    off = picked_kg / expected_kg - 1.0
    if abs(off) <= LIKE:
        return f"{told}, as expected by now"
    way = "more" if off > 0 else "less"
    return f"{told}, {abs(off):.0%} {way} than the {weight(expected_kg, units)} expected by now"


def standing_words(row: pd.Series) -> str:
    """Say what may be concluded of a crop now, and else from when on."""
    if row["status"] == UNLOGGED:
        return "No picking of this season is in the log."
    if row["status"] == EARLY:
        due = row["expected_kg"] / row["whole_kg"]
        return (
            f"Too early to say: {due:.0%} of an ordinary season was due by now. It can be said "
            f"from about {day(row['judged_from'])}, when a sixth of it is."
        )
    return MEANS[row["status"]]


def crop_days(table: pd.DataFrame, crop: str, units: str) -> tuple[pd.DataFrame, str]:
    """Give the days of one crop's season in the household's own unit, and that unit's name."""
    own = table[table["crop"] == crop].copy()
    unit = in_own(1.0, "kg", units)[1]
    for name in ("expected_kg", "low_kg", "high_kg", "picked_kg"):
        own[name.replace("_kg", "")] = [in_own(kg, "kg", units)[0] for kg in own[name]]
    own["day"] = pd.to_datetime(own["day"])
    return own, unit


def day_figures(table: pd.DataFrame, crop: str, units: str) -> pd.DataFrame:
    """Give the figures of one crop's season in words."""
    own = table[table["crop"] == crop]
    likely = zip(own["low_kg"], own["high_kg"], strict=True)
    return pd.DataFrame(
        {
            "day": own["day"],
            "expected_so_far_kg": [weight(kg, units) for kg in own["expected_kg"]],
            "likely_kg": [weights(low, high, units) for low, high in likely],
            "picked_kg": ["" if pd.isna(kg) else weight(kg, units) for kg in own["picked_kg"]],
        }
    )


def worst_first(now: pd.DataFrame) -> list[str]:
    """Give the crops for a chooser, the one furthest behind in kilograms first."""
    off = (now["picked_kg"] - now["expected_kg"]).sort_values(kind="stable")
    return list(now.loc[off.index, "crop"])
