"""Next year's first draft: how many of what, from what was used and what the household said."""

import math
from dataclasses import dataclass
from datetime import date

import pandas as pd

from model.outlook.review_table import NONE_LEFT, review_table, reviewed, shelf_runs
from model.planning import PlannedSeason
from model.season.record import NOT_AGAIN, RAN_OUT, RIGHT, TOO_MUCH

CHANGES = 3
COLUMNS = (
    *("preserve", "food", "unit", "verdict", "used_units", "missing_weeks", "carry_units"),
    *("before_units", "next_units", "difference_portions", "working"),
)


@dataclass(frozen=True, slots=True)
class _Use:
    """How a preserve was used in a year: units, days it stood there, days it was missed."""

    units: float
    words: str
    stood: int
    missing: int
    carried: float

    @property
    def told(self) -> str:
        """Give the use in words; where it has several parts, their sum too."""
        return f"{self.words} = {self.units:g}" if " + " in self.words else self.words


def next_year_table(planned: PlannedSeason, year: str) -> pd.DataFrame:
    """One row a preserve of the review: sealed units to aim at next year, with the working.

    Used is what was eaten, given away or went unknown. Whatever ran out is stretched over the
    weeks it was missing, of what was too much the carry-over is taken off, and nothing is
    aimed at where the carry-over is a year's use. ``before_units`` is what was meant this
    year, or what was filled. ``carry_units`` stand there at the new crop at this year's pace.
    """
    case = planned.case
    season = case.season
    begins, ends = reviewed(season, year, case.today)
    rows = []
    for row in review_table(case, year).to_dict("records"):
        own = season.preserve(row["preserve"])
        gone = max(0.0, -row["unknown_units"])
        parts = ((row["eaten_units"], "eaten"), (row["given_units"], "given"))
        said = [f"{units:g} {word}" for units, word in (*parts, (gone, "gone unknown")) if units]
        runs = shelf_runs(case.books[own.name], begins, ends)
        used = row["eaten_units"] + row["given_units"] + gone
        stood, missing = _days(runs)
        left = row["left_units"]
        to_come = case.forecast.new_crop.get(own.food, ends)
        pace = used / stood if stood else 0.0
        carried = max(0.0, left - pace * max(0, (to_come - ends).days))
        use = _Use(used, " + ".join(said) or "none used", stood, missing, carried)
        aim, working = _draft(row["verdict"], use)
        before = row["filled_units"] if pd.isna(row["meant_units"]) else row["meant_units"]
        rows.append(
            {
                "preserve": own.name,
                "food": own.food,
                "unit": own.unit,
                "verdict": row["verdict"],
                "used_units": used,
                "missing_weeks": missing / 7,
                "carry_units": carried,
                "before_units": before,
                "next_units": aim,
                "difference_portions": (aim - before) * own.portions,
                "working": working,
            }
        )
    return pd.DataFrame(rows, columns=list(COLUMNS))


def largest_changes(draft: pd.DataFrame) -> pd.DataFrame:
    """Keep the three rows of ``next_year_table`` that change the most portions, largest first."""
    changed = draft[draft["difference_portions"] != 0]
    order = changed["difference_portions"].abs().sort_values(ascending=False, kind="stable").index
    return changed.loc[order].head(CHANGES).reset_index(drop=True)


def _days(runs: list[tuple[date, date, float]]) -> tuple[int, int]:
    """Count the days on which some stood there, and those without any after the first of them."""
    stood = missing = 0
    for first, last, units in runs:
        days = (last - first).days + 1
        if units > NONE_LEFT:
            stood += days
        elif stood:
            missing += days
    return stood, missing


def _draft(verdict: str, use: _Use) -> tuple[int, str]:
    """Give the sealed units to aim at and how they were worked out."""
    whole = math.ceil(use.units - NONE_LEFT)
    if verdict == NOT_AGAIN:
        return 0, NOT_AGAIN
    if use.units > 0 and use.carried >= use.units:
        words = f"{use.carried:.0f} still there at the new crop, a year's use is {use.units:g}"
        return 0, f"{words}: none"
    if verdict == TOO_MUCH:
        aim = max(0, math.ceil(use.units - use.carried - NONE_LEFT))
        return aim, f"{use.told}, less {use.carried:.0f} still there: {aim}"
    if verdict == RAN_OUT and use.missing and use.stood:
        aim = math.ceil(use.units * (use.stood + use.missing) / use.stood - NONE_LEFT)
        weeks = f"in {use.stood / 7:.0f} weeks, {use.missing / 7:.0f} more were without"
        return aim, f"{use.told} {weeks}: {aim}"
    kept = "" if verdict in (RIGHT, "") else ", and the book shows no week without"
    return whole, f"{use.told}{kept}: {whole}"
