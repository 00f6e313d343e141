"""How a preserve was used in a year, and how many to aim at in the next one."""

import math
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date

import pandas as pd

from model.case import Case
from model.outlook.review_table import NONE_LEFT, review_table, reviewed, shelf_runs
from model.season.kitchen import Preserve
from model.season.record import NOT_AGAIN, RAN_OUT, TOO_MUCH


@dataclass(frozen=True, slots=True)
class Use:
    """A year's use of a preserve: units by where they went, and days.

    ``stood`` are the days on which some stood there, ``missing`` those without after the first
    of them, ``left`` what stands there at the end, ``days_to_come`` the days to its new crop.
    """

    eaten: float
    given: float
    unknown: float
    stood: int
    missing: int
    left: float
    days_to_come: int

    @property
    def units(self) -> float:
        """Give what was used: what went unknown counts."""
        return self.eaten + self.given + self.unknown

    @property
    def carried(self) -> float:
        """Give what will still stand there at the new crop, at this year's pace."""
        pace = self.units / self.stood if self.stood else 0.0
        return max(0.0, self.left - pace * self.days_to_come)


@dataclass(frozen=True, slots=True)
class Draft:
    """A preserve's first draft: its use, the verdict, what was meant or filled this year."""

    preserve: Preserve
    verdict: str
    use: Use
    before: float

    @property
    def enough_there(self) -> bool:
        """Say whether a year's use is still there at the new crop."""
        return self.use.units > 0 and self.use.carried >= self.use.units

    @property
    def stretched(self) -> bool:
        """Say whether its use is stretched over the weeks it was missing."""
        return self.verdict == RAN_OUT and bool(self.use.missing and self.use.stood)

    @property
    def aim(self) -> int:
        """Give the sealed units to aim at."""
        if self.verdict == NOT_AGAIN or self.enough_there:
            return 0
        wanted = self.use.units
        if self.verdict == TOO_MUCH:
            wanted -= self.use.carried
        elif self.stretched:
            wanted *= (self.use.stood + self.use.missing) / self.use.stood
        return max(0, math.ceil(wanted - NONE_LEFT))


def drafts(case: Case, year: str) -> Iterator[Draft]:
    """Give the draft of every preserve of the year's review."""
    season = case.season
    begins, ends = reviewed(season, year, case.today)
    for row in review_table(case, year).to_dict("records"):
        own = season.preserve(row["preserve"])
        stood, missing = _days(shelf_runs(case.books[own.name], begins, ends))
        to_come = case.forecast.new_crop.get(own.food, ends)
        use = Use(
            eaten=row["eaten_units"],
            given=row["given_units"],
            unknown=max(0.0, -row["unknown_units"]),
            stood=stood,
            missing=missing,
            left=row["left_units"],
            days_to_come=max(0, (to_come - ends).days),
        )
        before = row["filled_units"] if pd.isna(row["meant_units"]) else row["meant_units"]
        yield Draft(own, row["verdict"], use, before)


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
