"""A case with several weeks to a period: smaller, for choosing what to plant over many years.

The families of constraints take a case and read the number of its weeks; given periods they
build the same program over them. What is finer than a period (a picking that holds four
days) is taken to fit inside one.
"""

from dataclasses import replace

import numpy as np

from model.case import Case
from model.season.arrays import Floats, Ints, SeasonArrays
from model.season.weeks import Weeks


def in_periods(case: Case, span: int) -> Case:
    """Give a case whose every period is ``span`` weeks; the last one may be shorter."""
    count = -(-len(case.weeks) // span)
    weeks = Weeks(case.weeks.first, count)
    forecast, demand = case.forecast, case.demand
    return replace(
        case,
        arrays=_arrays(case.arrays, weeks, span),
        forecast=replace(
            forecast,
            weeks=weeks,
            kg_per_unit=summed(forecast.kg_per_unit, span),
            occupies=np.maximum.reduceat(forecast.occupies, _starts(case, span), axis=1),
        ),
        demand=replace(
            demand,
            usual=summed(demand.usual, span),
            wanted=summed(demand.wanted, span),
            most=summed(demand.most, span),
            cover_until=_ceil(demand.cover_until, span),
        ),
        before_kg=_before(case.before_kg, span),
        fresh=summed(case.fresh, span),
    )


def _before(before_kg: Floats, span: int) -> Floats:
    """Sum what was picked before over periods; the newest of it is of the first period itself."""
    earlier = summed(before_kg[:, -2::-1], span)[:, ::-1]
    return np.concatenate([earlier, before_kg[:, -1:]], axis=1)


def summed(weekly: Floats, span: int) -> Floats:
    """Sum the last axis over periods of ``span`` weeks."""
    sums: Floats = np.add.reduceat(weekly, np.arange(0, weekly.shape[-1], span), axis=-1)
    return sums


def _starts(case: Case, span: int) -> Ints:
    return np.arange(0, len(case.weeks), span)


def _ceil(weeks: Ints, span: int) -> Ints:
    periods: Ints = -(-weeks // span)
    return periods


def _arrays(arrays: SeasonArrays, weeks: Weeks, span: int) -> SeasonArrays:
    last = np.minimum(np.arange(len(weeks)) * span + span, len(arrays.weeks)) - 1
    return replace(
        arrays,
        weeks=weeks,
        hold_weeks=_ceil(arrays.hold_weeks, span),
        good_next_week_kg=np.zeros_like(arrays.good_next_week_kg),
        keeps_weeks=np.maximum(1, arrays.keeps_weeks // span),
        ready_after_weeks=arrays.ready_after_weeks // span,
        loss_per_week=1.0 - (1.0 - arrays.loss_per_week) ** span,
        most_portions_a_week=arrays.most_portions_a_week * span,
        freezer_kg_a_week=summed(arrays.freezer_kg_a_week, span),
        dryer_kg_a_week=arrays.dryer_kg_a_week * span,
        kitchen_minutes=summed(arrays.kitchen_minutes, span),
        gifts=summed(arrays.gifts, span),
        opening_left=arrays.opening_left[:, last],
    )
