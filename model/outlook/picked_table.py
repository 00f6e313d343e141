"""What each crop should have given by each day of its season, and what was picked by then."""

from dataclasses import replace
from datetime import date, timedelta

import numpy as np
import pandas as pd

from model.forecast.harvest import forecast_harvest
from model.forecast.years import sampled_harvest
from model.planning import PlannedSeason
from model.season.arrays import Floats
from model.season.garden import Picking
from model.season.weeks import Weeks

YEARS = 300
LEAST_KG = 0.005
COLUMNS = ["crop", "day", "expected_kg", "low_kg", "high_kg", "picked_kg"]


def picked_table(planned: PlannedSeason, seed: int) -> pd.DataFrame:
    """One row a crop and day (Mondays, and today), kilograms from the season's beginning on.

    ``expected_kg`` is what an ordinary year gives before that day, with the setbacks noticed
    by then; ``low_kg`` and ``high_kg`` hold eight in ten of simulated years as they lay ahead
    when the season began, cut by the same setbacks, and the ordinary year; ``picked_kg`` is
    from the log, and blank after today. Days before anything is picked or when all is picked
    are left out.

    >>> print(*model.picked_table(planned, seed=1))
    crop day expected_kg low_kg high_kg picked_kg
    """
    case, season = planned.case, planned.case.season
    year = case.forecast.year
    before = forecast_harvest(season, year.begins)
    generator = np.random.default_rng(seed)
    sampled = sampled_harvest(season, before, planned.plan.amounts, YEARS, generator)
    summed = np.cumsum(sampled, axis=2, dtype=float)
    edges = np.percentile(np.insert(summed, 0, 0.0, axis=2), [10, 90], axis=0)
    days = _days(before.weeks, case.today, year.ends)
    whole = replace(season, setbacks=())
    expected = [case.forecast.picked_so_far(season, day) for day in days]
    unhurt = [case.forecast.picked_so_far(whole, day) for day in days]
    logged = [p for p in season.pickings if year.begins <= p.day <= min(case.today, year.ends)]
    rows = []
    for c, crop in enumerate(case.arrays.crops):
        reached = np.array([so_far.get(crop, 0.0) for so_far in expected])
        could = np.array([so_far.get(crop, 0.0) for so_far in unhurt])
        left = np.divide(reached, could, out=np.ones_like(could), where=could > 0)
        frame = pd.DataFrame(
            {
                "crop": crop,
                "day": days,
                "expected_kg": reached,
                "low_kg": np.minimum(reached, left * _on(days, before.weeks, edges[0, c])),
                "high_kg": np.maximum(reached, left * _on(days, before.weeks, edges[1, c])),
                "picked_kg": _picked([p for p in logged if p.crop == crop], days, case.today),
            }
        )
        rows.append(frame[_worth_telling(frame, case.today)])
    told = [frame for frame in rows if not frame.empty]
    return pd.concat(told, ignore_index=True) if told else pd.DataFrame(columns=COLUMNS)


def _days(weeks: Weeks, today: date, ends: date) -> list[date]:
    """Give the Mondays up to the season's end, and today."""
    mondays = {weeks.monday(week) for week in range(1, len(weeks) + 1)}
    return sorted({day for day in mondays if day <= ends} | {min(today, ends)})


def _on(days: list[date], weeks: Weeks, reached: Floats) -> Floats:
    """Give what was reached at each Monday (W + 1 of them) on days between them; shape (D,)."""
    mondays = np.arange(len(weeks) + 1) * 7.0
    level: Floats = np.interp([(day - weeks.first).days for day in days], mondays, reached)
    return level


def _picked(own: list[Picking], days: list[date], today: date) -> Floats:
    """Give what was picked before each day, on today itself too; blank after it; shape (D,)."""
    until = [day if day < today else day + timedelta(days=1) for day in days]
    sums = [sum(picking.kg for picking in own if picking.day < day) for day in until]
    past = np.array([day <= today for day in days])
    return np.where(past, sums, np.nan)


def _worth_telling(frame: pd.DataFrame, today: date) -> pd.Series:
    """Mark the days from the last without a picking to the first by which all is picked."""
    columns = ["expected_kg", "high_kg", "picked_kg"]
    so_far = frame[columns].ffill()
    begun = (so_far > LEAST_KG).any(axis=1)
    over = (so_far >= so_far.iloc[-1] - LEAST_KG).all(axis=1)
    edge = begun.shift(-1, fill_value=False) & ~begun
    closing = begun & over & ~over.shift(1, fill_value=False)
    now = begun & (frame["day"] == today)
    return (begun & ~over) | edge | closing | now
