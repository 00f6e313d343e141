"""What to buy in so that the winter to come is covered, by when, and what would do instead."""

import math
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, timedelta

import numpy as np
import pandas as pd

from model.outlook.lasting import lasting, winter_stretch
from model.planning import PlannedSeason

COLUMNS = (
    *("food", "short_portions", "preserve", "units", "crop", "buy_kg", "buy_by", "buy_hours"),
    *("less_portions", "less_from"),
)


@dataclass(frozen=True, slots=True)
class _Way:
    """A preserve that can still be put up this season, what it covers, and the day to buy by."""

    row: int
    short: float
    buy_by: date


def buy_in_table(planned: PlannedSeason) -> pd.DataFrame:
    """One row a food that the winter runs short of and crop to buy in for it.

    The shortfall is the plan's, in an ordinary year. It is covered with the preserve of the
    food that covers most of it while it keeps, of those whose crops are still in season;
    ``buy_by`` is the end of the crop's peak week, or of the last one in which it is put up,
    whichever is first. ``less_portions`` a week from ``less_from`` on would do instead; blank
    where it does not keep to the new crop.

    >>> print(*model.buy_in_table(planned))
    food short_portions preserve units crop buy_kg buy_by buy_hours less_portions less_from
    """
    case, arrays = planned.case, planned.case.arrays
    rows: list[dict[str, object]] = []
    for f, food in enumerate(arrays.foods):
        way = max(_ways(planned, f), key=lambda way: way.short, default=None)
        if way is None:
            continue
        own = case.season.preserves[way.row]
        if way.short < own.portions:
            continue
        units = math.ceil(way.short / own.portions / arrays.sealed_share[way.row] - 1e-6)
        last = lasting(planned, f)
        loads = math.ceil(units / own.units_per_load) if own.units_per_load else 0
        minutes = units * own.minutes_per_unit + loads * own.minutes_per_load
        less = max(0.0, last.wanted_portions - last.level_portions)
        rows += [
            {
                "food": food,
                "short_portions": way.short,
                "preserve": own.name,
                "units": units,
                "crop": part.crop,
                "buy_kg": units * part.kg,
                "buy_by": way.buy_by,
                "buy_hours": minutes / 60,
                "less_portions": less if last.keeps_until is None else None,
                "less_from": last.begins,
            }
            for part in own.ingredients
        ]
    return pd.DataFrame(rows, columns=list(COLUMNS))


def _ways(planned: PlannedSeason, food: int) -> Iterator[_Way]:
    """Give the preserves that a food can be covered with, those most is made of first."""
    plan, arrays = planned.plan, planned.case.arrays
    stretch = winter_stretch(planned, food)
    if stretch is None:
        return
    begins, ends = stretch
    short = plan.wanted[food] - np.minimum(plan.met[food], plan.wanted[food])
    rows = np.flatnonzero(arrays.food_of_preserve == food)
    for r in sorted(rows, key=lambda r: -arrays.share_of_food[r]):
        harvest = plan.harvest_kg[int(arrays.fresh_kg[r].argmax())]
        if harvest.max() <= 0:
            continue
        filling = np.flatnonzero(plan.put_up[r] > 0)
        last = min([int(harvest.argmax()), *filling[-1:]])
        covers = slice(begins, min(ends, last + int(arrays.keeps_weeks[r])))
        day = planned.case.weeks.monday(last) + timedelta(days=6)
        yield _Way(int(r), float(short[covers].sum()), day)
