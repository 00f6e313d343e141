"""When each food runs short: the chance of it by month, over the simulated years."""

from collections.abc import Iterator
from dataclasses import replace
from datetime import date

import numpy as np
import pandas as pd

from model.outlook.lasting import level_of, present_stretch, weeks_short, winter_stretch
from model.planning import PlannedSeason
from model.season.arrays import Bools

COLUMNS = ("food", "month", "chance_short")


def short_months_table(planned: PlannedSeason) -> pd.DataFrame:
    """One row a food and month in which it is wanted: the chance that it runs short.

    A food is short in a month when in one of its weeks less than the notes' ``lean_share`` of what
    is wanted can be eaten, or all that is kept of it is past keeping. A week belongs to the month
    of its Monday, ``month`` is that month's first day, ``chance_short`` the share of the simulated
    years.

    >>> print(*model.short_months_table(planned))
    food month chance_short
    """
    case, lived = planned.case, planned.years
    share, foods = case.season.settings.lean_share, case.arrays.foods
    every, weeks = np.arange(len(foods)), lived.met.shape[2]
    short = weeks_short(lived, every, 0, weeks, share)
    bare = weeks_short(replace(lived, met=lived.fresh), every, 0, weeks, share)
    for f, week in _past_keeping(planned):
        short[:, f, week] |= bare[:, f, week]
    asked: Bools = np.asarray((lived.wanted(every, 0, weeks) > 1e-6).any(axis=0))
    months = [monday.replace(day=1) for monday in case.weeks.mondays]
    rows: list[tuple[str, date, float]] = []
    for month in dict.fromkeys(months):
        own = np.array([one == month for one in months])
        rows += [
            (foods[f], month, float(short[:, f, own].any(axis=1).mean()))
            for f in np.flatnonzero(asked[:, own].any(axis=1))
        ]
    return pd.DataFrame(rows, columns=list(COLUMNS))


def _past_keeping(planned: PlannedSeason) -> Iterator[tuple[int, int]]:
    """Give the foods of which all is past keeping before a stretch ends, and from which week."""
    for f in range(len(planned.case.arrays.foods)):
        for stretch in (present_stretch(planned, f), winter_stretch(planned, f)):
            week = level_of(planned, f, *stretch).past_from(stretch[0]) if stretch else None
            if week is not None:
                yield f, week
