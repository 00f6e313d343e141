"""What the book's stock comes to today: less what is usually eaten since, shrink and spoilage.

A household writes down little. What it wrote as eaten has left the book already; only what it
usually eats beyond that is taken off too.
"""

from collections.abc import Mapping
from dataclasses import replace
from datetime import date

import numpy as np

from model.season.arrays import Floats, SeasonArrays
from model.season.ledger import Ledger, Standing
from model.season.record import EATEN
from model.season.unseen_seals import ONE_DAY
from model.season.weeks import Weeks, monday_of

LEAST_UNITS = 1e-6


def portions_eaten(books: Mapping[str, Ledger], arrays: SeasonArrays, since: Weeks) -> Floats:
    """Give the portions written down as eaten since the last count of each preserve; (F, W)."""
    eaten = np.zeros((len(arrays.foods), len(since)))
    for r, name in enumerate(arrays.preserves):
        book = books[name]
        for entry in book.since_count:
            week = since.index(entry.day)
            if entry.kind == EATEN and 0 <= week < len(since):
                eaten[arrays.food_of_preserve[r], week] -= entry.units * arrays.portions[r]
    return eaten


def unseen_share(
    seen: tuple[Standing, ...], arrays: SeasonArrays, since: Weeks, today: date
) -> Floats:
    """Give the part of each week of which nobody knows what was eaten of each food; (F, W).

    A sight stands for the end of its day, and today is still to come.
    """
    share = np.zeros((len(arrays.foods), len(since)))
    first: dict[int, date] = {}
    for one in seen:
        food = int(arrays.food_of_preserve[arrays.preserves.index(one.preserve)])
        first[food] = min(one.since, first.get(food, one.since))
    for food, day in first.items():
        share[food] = np.array(since.days_inside(day + ONE_DAY, today - ONE_DAY)) / 7
    return share


def standing_today(
    seen: tuple[Standing, ...], arrays: SeasonArrays, since: Weeks, still_wanted: Floats
) -> tuple[tuple[Standing, ...], tuple[Standing, ...]]:
    """Run the book's stock forward over the weeks since it was seen, to the last one's Monday.

    Gives what stands there, and what by the book stands there past its keeping: nobody eats of
    that, and it is there until somebody takes it out.

    Parameters
    ----------
    since : the weeks from the oldest sight to today's, that one included.
    still_wanted : shape (F, weeks), portions of each food that fresh food left wanting, less
        what was written down as eaten; below 0 where more was, which later weeks make up for.

    Each food is taken from all its preserves alike, and of each the oldest first.
    """
    rows = np.array([arrays.preserves.index(one.preserve) for one in seen], dtype=int)
    units = np.array([one.units for one in seen], dtype=float)
    over = np.zeros(len(seen))
    age = np.array([(since.first - monday_of(one.put_up)).days // 7 for one in seen], dtype=int)
    begins = np.array([since.index(one.since) for one in seen], dtype=int)
    food = arrays.food_of_preserve[rows]
    oldest_first = np.argsort(-age, kind="stable")
    owed = np.zeros(len(arrays.foods))
    for week in range(len(since)):
        there = begins <= week
        if week:
            kept = 1.0 - arrays.loss_per_week[rows[there]]
            units[there] *= kept
            over[there] *= kept
        past = there & (age + week >= arrays.keeps_weeks[rows])
        over[past] += units[past]
        units[past] = 0.0
        owed += still_wanted[:, week]
        for f in np.flatnonzero(owed > 0):
            of_food = (food == f) & there
            portions = units[of_food] @ arrays.portions[rows[of_food]]
            share = min(1.0, owed[f] / portions) if portions > 0 else 0.0
            for r in np.unique(rows[of_food]):
                _take(units, oldest_first[(rows[oldest_first] == r) & there[oldest_first]], share)
        owed = np.minimum(owed, 0.0)
    return _with(seen, units), _with(seen, over)


def _with(seen: tuple[Standing, ...], units: Floats) -> tuple[Standing, ...]:
    return tuple(
        replace(one, units=float(left))
        for one, left in zip(seen, units, strict=True)
        if left > LEAST_UNITS
    )


def _take(units: Floats, batches: np.ndarray, share: float) -> None:
    """Take a share of a preserve from its batches in order, in place."""
    wanted = share * units[batches].sum()
    for batch in batches:
        taken = min(units[batch], wanted)
        units[batch] -= taken
        wanted -= taken
