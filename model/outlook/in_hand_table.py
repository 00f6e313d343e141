"""What is to hand this week: how long it holds, what it is worth in winter, and how it may wait."""

from collections.abc import Mapping
from datetime import date, timedelta

import numpy as np
import pandas as pd

from model.planning import PlannedSeason
from model.reference.lookup import holding, way_to_wait
from model.season.season import Season

LEAST_KG = 0.2
COLUMNS = (
    *("crop", "in_hand_kg", "picked_on", "hold_days_low", "hold_days_high", "hold_where"),
    *("kept_portions_a_kg", "way_to_wait"),
)

# Judgement: what lies on a table was picked within so long, where the log has nothing newer.
LATELY = timedelta(days=14)


def in_hand_table(
    planned: PlannedSeason, pile_kg: Mapping[str, float] | None = None
) -> pd.DataFrame:
    """One row a crop to hand this week, that first which loses most by waiting.

    Of what is to hand ``pile_kg``, by crop, says the weight where it was weighed.
    Waiting a day costs ``kept_portions_a_kg / hold_days_low``: what a kilogram gives on average
    in the preserves the plan still puts up, in portions times liking over 5, by how soon it
    spoils. What no preserve is planned of comes last, by how soon it spoils.

    >>> print(*model.in_hand_table(planned))
    crop in_hand_kg picked_on hold_days_low hold_days_high hold_where kept_portions_a_kg way_to_wait
    """
    case, plan = planned.case, planned.plan
    to_hand = case.before_kg.sum(axis=1) + plan.harvest_kg[:, 0]
    for crop, kg in (pile_kg or {}).items():
        to_hand[case.arrays.crops.index(crop)] = kg
    rows = []
    for c in np.flatnonzero(to_hand >= LEAST_KG):
        crop = case.arrays.crops[c]
        holds = holding(crop)
        rows.append(
            {
                "crop": crop,
                "in_hand_kg": float(to_hand[c]),
                "picked_on": _picked_on(
                    case.season,
                    crop,
                    case.today,
                    holds.days_high,
                    weighed=bool((pile_kg or {}).get(crop)),
                ),
                "hold_days_low": holds.days_low,
                "hold_days_high": holds.days_high,
                "hold_where": holds.where,
                "kept_portions_a_kg": _kept_a_kg(planned, int(c)),
                "way_to_wait": way_to_wait(crop),
            }
        )
    table = pd.DataFrame(rows, columns=list(COLUMNS))
    a_day = -table["kept_portions_a_kg"] / table["hold_days_low"]
    ranked = table.assign(a_day=a_day).sort_values(
        ["a_day", "hold_days_low", "crop"], ignore_index=True
    )
    return ranked.drop(columns="a_day")


def _picked_on(season: Season, crop: str, today: date, days_high: int, *, weighed: bool) -> date:
    """Give the day of the oldest picking that may still lie there, else today.

    What was ``weighed`` lies there: where no picking is as fresh as it should be, it is of the
    last one.
    """
    since = today - timedelta(days=days_high)
    picked = [p.day for p in season.pickings if p.crop == crop and p.day <= today]
    days = [day for day in picked if day >= since]
    if weighed and not days:
        days = sorted(day for day in picked if day >= today - LATELY)[-1:]
    stored = [
        batch.put_up
        for batch in season.record.batches
        if crop in season.preserve(batch.preserve).crops and batch.put_up <= today
    ]
    last = max(stored, default=date.min)
    return min((day for day in days if day > last), default=today)


def _kept_a_kg(planned: PlannedSeason, c: int) -> float:
    """Give the portions, times liking over 5, of a kilogram in the preserves still planned."""
    case, units = planned.case, planned.plan.put_up.sum(axis=1)
    of_it = case.arrays.fresh_kg[:, c] > 0
    kg = float((case.arrays.fresh_kg.sum(axis=1) * units)[of_it].sum())
    liked = np.array([own.liking / 5 for own in case.season.preserves])
    worth = float((case.arrays.portions * liked * units)[of_it].sum())
    return worth / kg if kg > 0 else 0.0
