"""How much to plant by the rule of thumb: jars back to kilograms, kilograms back to plants.

``amount = (jars to fill x kg a jar + kg eaten fresh) x (1 + margin) / yield``, cut to the beds
by taking from what is liked least. Common practice; the margins of 10-25 % and 50 % for
staples are customary. Source: needs-hand-method (the budgets of tests/published).
"""

import numpy as np

from model.case import Case
from model.cover import CoverWindow
from model.forecast.beds import bed_occupancy
from model.season.arrays import Floats

MARGINS = (0.0, 0.1, 0.25, 0.5)


def hand_amounts(case: Case, windows: tuple[CoverWindow, ...], margin: float) -> Floats:
    """Give the amount of every planting; shape (B,), each within its own limits."""
    arrays, forecast = case.arrays, case.forecast
    filled = np.array([window.hand_rule.to_fill for window in windows], dtype=float)
    wanted_kg = filled @ arrays.fresh_kg + _fresh_kg(case)
    expected = forecast.kg_per_unit.sum(axis=1) * forecast.amounts
    by_crop = np.zeros(len(arrays.crops))
    np.add.at(by_crop, forecast.crop_of, expected)
    grow = np.where(by_crop > 0, wanted_kg * (1 + margin) / np.maximum(by_crop, 1e-9), 1.0)
    amounts = forecast.amounts * grow[forecast.crop_of]
    return _fitted(case, np.clip(amounts, forecast.least, forecast.most))


def _fresh_kg(case: Case) -> Floats:
    """Give the kilograms of each crop that are wanted fresh while it is picked; shape (C,)."""
    arrays, forecast = case.arrays, case.forecast
    harvest = forecast.kg_by_crop(forecast.amounts, len(arrays.crops))
    portions = harvest * arrays.portions_per_kg[:, None]
    fresh = np.zeros(len(arrays.crops))
    for c, f in enumerate(arrays.food_of_crop):
        if f >= 0:
            same = portions[arrays.food_of_crop == f].sum(axis=0)
            share = np.divide(portions[c], same, out=np.zeros_like(same), where=same > 0)
            picked = same > 0
            fresh[c] = (case.demand.wanted[f] * share)[picked].sum() / arrays.portions_per_kg[c]
    return fresh


def _fitted(case: Case, amounts: Floats) -> Floats:
    """Take from what is liked least until every bed holds what stands in it."""
    arrays, forecast = case.arrays, case.forecast
    liked = np.zeros(len(arrays.crops))
    for c, f in enumerate(arrays.food_of_crop):
        liked[c] = arrays.food_worth[f] if f >= 0 else 0.0
    for r, f in enumerate(arrays.food_of_preserve):
        main = int(arrays.fresh_kg[r].argmax())
        liked[main] = max(liked[main], arrays.food_worth[f])
    order = sorted(
        range(len(forecast.plantings)),
        key=lambda b: (liked[forecast.crop_of[b]], forecast.plantings[b].crop, b),
    )
    fitted = amounts.copy()
    occupied = bed_occupancy(case.season, forecast)
    for bed, place in enumerate(case.season.beds):
        for b in order:
            over = float((occupied[bed] @ fitted).max(initial=0.0)) - place.area_m2
            each = float(occupied[bed, :, b].max(initial=0.0))
            if over > 1e-9 and each > 0:
                fitted[b] = max(forecast.least[b], fitted[b] - over / each)
    return fitted
