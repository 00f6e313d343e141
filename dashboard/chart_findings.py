"""What each chart of a plan finds, in one sentence that stands above it as its title."""

from collections.abc import Iterable
from datetime import date, timedelta

import pandas as pd

from dashboard.lasting import GONE, PAST
from dashboard.units import units_of, weight
from dashboard.words import about, capital, count, day, listed, short_day
from model import TIGHT

# Judgement: a week in which a quarter of the portions wanted is missing is felt at table.
FILLED = 0.75
# Judgement: with half of the want fresh, a week is short of something but not hungry.
FRESH_ENOUGH = 0.5
WHOLE = 0.995
FRESH = ("fresh", "new crop")
NONE_LEFT = 0.5
WEEK, LAST_DAY = timedelta(days=7), timedelta(days=6)


def supply_holes(supply: pd.DataFrame) -> pd.DataFrame:
    """Give the stretches in which over a quarter of the portions wanted is missing.

    Weeks in which nothing is wanted, as when everyone is away, end no stretch.

    Returns
    -------
    One row a stretch: ``begins``, ``ends`` (the Monday after), ``short_portions``,
    ``wanted_portions``, ``fresh_portions``.
    """
    rows: list[dict[str, object]] = []
    weeks = _by_week(supply)
    wanting = weeks[weeks["wanted_portions"] > 0]
    short = wanting["portions"] < FILLED * wanting["wanted_portions"]
    for _, own in wanting[short].groupby((~short).cumsum()[short]):
        missing = own["wanted_portions"].sum() - own["portions"].sum()
        rows.append(
            {
                "begins": own.index[0],
                "ends": own.index[-1] + WEEK,
                "short_portions": missing,
                "wanted_portions": own["wanted_portions"].sum(),
                "fresh_portions": own["fresh"].sum(),
            }
        )
    names = ["begins", "ends", "short_portions", "wanted_portions", "fresh_portions"]
    return pd.DataFrame(rows, columns=names)


def supply_finding(supply: pd.DataFrame, holes: pd.DataFrame, *, counted: bool = True) -> str:
    """Say when most is missing from the plate and how much, or how full it stays.

    Where the shelf was never ``counted``, nobody knows what fills the weeks before the harvest.
    """
    weeks = _by_week(supply)
    if not counted and (holes["begins"] == weeks.index[0]).any():
        until = day(holes["ends"].iloc[0] - timedelta(days=1))
        return f"Nothing is counted yet: count your shelf, which may fill the weeks to {until}"
    if holes.empty:
        part = (weeks["portions"] / weeks["wanted_portions"])[weeks["wanted_portions"] > 0]
        if part.empty or part.min() >= WHOLE:
            return "No gap: every week all the portions wanted are there"
        least = f"least in the week of {day(part.idxmin())}: {part.min():.0%} of the portions"
        return f"No gap: three quarters of the plate or more every week, {least}"
    worst = holes.loc[holes["short_portions"].idxmax()]
    hungry = worst["fresh_portions"] < FRESH_ENOUGH * worst["wanted_portions"]
    name = "The hungry gap" if hungry else "The plate is short"
    missing = f"{worst['short_portions'] / worst['wanted_portions']:.0%} of the portions missing"
    others = f"; {count(len(holes) - 1, 'smaller gap')}" if len(holes) > 1 else ""
    until = day(worst["ends"] - timedelta(days=1))
    gap = f"{_from(worst['begins'], worst['ends'])} to {until}, {missing}{others}"
    return f"{name} in an ordinary year: {gap}"


def hours_finding(weeks: pd.DataFrame) -> str:
    """Name the week whose free hours are used up most, and what is left or over."""
    working = weeks[weeks["hours"] > 0]
    if working.empty:
        return "No kitchen work in these weeks"
    used = working["hours"] / working["free_hours"].clip(lower=1e-9)
    tightest = working.assign(used=used.round(3)).sort_values(["used", "hours"], kind="stable")
    row = tightest.iloc[-1]
    over = row["hours"] - row["free_hours"]
    if row["hours"] < TIGHT * row["free_hours"]:
        rest = f"{about(-over)} h to spare"
    else:
        rest = f"{about(over)} h over" if over > (1 - TIGHT) * row["free_hours"] else "all used"
    loads = f", {count(row['loads'], 'canner load')}" if row["loads"] else ""
    hours = f"{about(row['hours'])} of {about(row['free_hours'])} h"
    return f"Tightest week: {day(row['week'])}, {hours}{loads}: {rest}"


def lasts_finding(foods: pd.DataFrame) -> str:
    """Say how many foods do not reach their new crop, and which end first."""
    own = foods[foods["other"]]
    short = own[own["enough"] == "no"]
    if short.empty:
        just = (own["enough"] == "likely").sum()
        almost = f", {just} of them just about" if just else ""
        return f"All foods ({len(own)}) reach their new crop{almost}"
    firsts = []
    for standing, how in ((GONE, "eaten up"), (PAST, "past keeping")):
        gone = short[short["standing"] == standing]
        until = gone["lasts_until"].min()
        if len(gone):
            same = listed(gone[gone["lasts_until"] == until]["food"], 2)
            firsts.append((until, f"{same} {how} by {short_day(until)}"))
    told = "".join(f", {words}" for _, words in sorted(firsts))
    does = "does" if len(short) == 1 else "do"
    return f"{len(short)} of {count(len(own), 'food')} {does} not reach the new crop{told}"


def harvest_finding(harvest: pd.DataFrame, units: str) -> str:
    """Name the week in which most is picked, and how much of how many crops."""
    if not harvest["expected_kg"].sum():
        return "Nothing is to be picked in these weeks"
    picked = harvest[harvest["expected_kg"] > 0]
    heaviest = picked.groupby("week")["expected_kg"].sum().idxmax()
    then = picked[picked["week"] == heaviest]
    much = weight(then["expected_kg"].sum(), units)
    return f"Heaviest picking: week of {day(heaviest)}, {much} of {count(len(then), 'crop')}"


def shelf_finding(portions: pd.DataFrame, stock: pd.DataFrame, units: str) -> str:
    """Say when most of a food stands on the shelf, how much, and when it is gone by the plan.

    Parameters
    ----------
    portions : one row a day of one food: ``food``, ``day``, ``plan_portions``.
    stock : one row a preserve of it and day: ``day``, ``unit``, ``jars`` in that unit.
    """
    name = capital(portions["food"].iloc[0])
    by_day = portions.set_index("day")["plan_portions"]
    if by_day.max() < NONE_LEFT:
        return f"{name}: none on the shelf by the plan"
    peak = by_day.idxmax()
    most = stock[(stock["day"] == peak) & (stock["jars"] > 0)].groupby("unit")["jars"].sum()
    much = listed(units_of(number, unit, units) for unit, number in most.items())
    after = by_day[by_day.index > peak]
    gone = _first(after[after < NONE_LEFT].index)
    until = f", none left from {day(gone)}" if gone else ""
    return f"{name}: most about {day(peak)} ({much}){until}"


def _by_week(supply: pd.DataFrame) -> pd.DataFrame:
    """Give the weeks with their portions from all sources, what is fresh of them, and the want."""
    fresh = supply["portions"].where(supply["source"].isin(FRESH), 0.0)
    weeks = supply.assign(fresh=fresh).groupby("week")
    sums = weeks[["portions", "fresh"]].sum()
    return sums.assign(wanted_portions=weeks["wanted_portions"].first())


def _from(begins: date, ends: date) -> str:
    """Give a first day, with its year only where the last has another one."""
    same = begins.year == (ends - timedelta(days=1)).year
    return short_day(begins) if same else day(begins)


def _first(days: Iterable[date]) -> date | None:
    return next(iter(days), None)
