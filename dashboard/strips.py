"""Shares by week and month as strips, each with the words at its end, and what they find."""

from collections.abc import Mapping
from datetime import date, timedelta

import pandas as pd

from dashboard.tables import WEEK, with_dates
from dashboard.words import chance, day, listed
from model import TIGHT

# Less would be told as none.
LEAST_SHARE = 0.005

LIKELY = 0.5
ROOM, JARS = ("shelf", "freezer", "root store", "crock"), ("jars",)


def limit_strips(limits: pd.DataFrame, kinds: tuple[str, ...]) -> pd.DataFrame:
    """Give the weeks of the limits of some kinds, the fullest first, each with its peak."""
    own = limits[limits["kind"].isin(kinds)]
    strips = pd.DataFrame(
        {
            "name": own["limit"].str.removeprefix("jars: "),
            "begins": own["week"],
            "ends": [monday + WEEK for monday in own["week"]],
            "share": own["share"],
        }
    )
    peaks = _peaks(own)
    names = peaks["limit"].str.removeprefix("jars: ")
    labels = [f"{_part(row.share)} on {day(row.week)}" for row in peaks.itertuples()]
    return _told(strips, TIGHT, dict(zip(names, labels, strict=True)))


def room_finding(limits: pd.DataFrame, kinds: tuple[str, ...], what: str) -> str:
    """Say what is fullest and when, or what runs out from which week; blank without any."""
    peaks = _peaks(limits[limits["kind"].isin(kinds)])
    if peaks.empty:
        return ""
    full = peaks[peaks["share"] >= TIGHT]
    if full.empty:
        row = peaks.iloc[0]
        name = row["limit"].removeprefix("jars: ")
        if row["share"] < LEAST_SHARE:
            return f"No {what} is used"
        return (
            f"No {what} is filled up; fullest: {name}, {_part(row['share'])} on {day(row['week'])}"
        )
    names = [
        f"{row.limit.removeprefix('jars: ')} ({day(_first_full(limits, row.limit))})"
        for row in full.itertuples()
    ]
    return f"Filled up, and from when: {listed(names)}"


def month_strips(short: pd.DataFrame) -> pd.DataFrame:
    """Give the chance of each food in each month, what runs short most first."""
    strips = pd.DataFrame(
        {
            "name": short["food"],
            "begins": short["month"],
            "ends": [_next_month(month) for month in short["month"]],
            "share": short["chance_short"],
        }
    )
    chances = short.groupby("food", sort=False)["chance_short"].agg(["max", "sum"])
    worst = chances.sort_values(["max", "sum"], ascending=False, kind="stable")["max"]
    return _told(strips, LIKELY, {food: chance(share) for food, share in worst.items()})


def _told(strips: pd.DataFrame, full_from: float, labels: Mapping[str, str]) -> pd.DataFrame:
    """Give strips in the order of their labels, marked where they count as full."""
    order = {name: place for place, name in enumerate(labels)}
    told = strips.assign(
        share=strips["share"].clip(upper=1.0),
        full=["yes" if share >= full_from else "no" for share in strips["share"]],
        label=strips["name"].map(labels),
    )
    told = told.sort_values("name", key=lambda names: names.map(order), kind="stable")
    return with_dates(told, "begins", "ends")


def months_finding(short: pd.DataFrame) -> str:
    """Say in which months most foods are more likely to run short than not."""
    likely = short[short["chance_short"] >= LIKELY].groupby("month")["food"].nunique()
    if likely.empty:
        return "In no month is any food more likely to run short than not"
    month, foods = likely.idxmax(), likely.max()
    every = short["food"].nunique()
    return f"Hardest month: {month:%B %Y}, when {foods} of {every} foods likely run short"


def _peaks(limits: pd.DataFrame) -> pd.DataFrame:
    fullest = limits.loc[limits.groupby("limit", sort=False)["share"].idxmax()]
    return fullest.sort_values("share", ascending=False, kind="stable")


def _first_full(limits: pd.DataFrame, limit: str) -> date:
    own = limits[(limits["limit"] == limit) & (limits["share"] >= TIGHT)]
    return own["week"].min()


def _part(share: float) -> str:
    return "full" if share >= TIGHT else f"{share:.0%}"


def _next_month(month: date) -> date:
    return (month + timedelta(days=31)).replace(day=1)
