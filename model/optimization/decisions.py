"""Which decisions a case has: what can be picked, put up and opened, and in which weeks."""

import numpy as np

from model.case import Case
from model.optimization.variables import Variables
from model.season.arrays import Bools, Floats, Ints, SeasonArrays, with_this_week

# Weeks in which a crop gives less than this are not worth a decision of their own.
LEAST_KG = 1e-6


def most_harvest(case: Case) -> Floats:
    """Give the most each crop can give in each week, at the largest amounts; shape (C, W)."""
    return case.forecast.kg_by_crop(case.forecast.most, len(case.arrays.crops))


def last_weeks_sum(weekly: Floats, spans: Ints, before: Floats) -> Floats:
    """Sum each row over a week and the ``span - 1`` weeks before it; shape of ``weekly``.

    ``before`` (rows, H) are the weeks before the first, the newest last.
    """
    earlier = before.shape[1]
    summed: Floats = np.cumsum(np.concatenate([before, weekly], axis=1), axis=1)
    less = np.zeros_like(summed)
    for row, span in enumerate(spans.astype(int)):
        less[row, span:] = summed[row, : summed.shape[1] - span]
    within: Floats = np.maximum(summed - less, 0.0)[:, earlier:]
    return within


def held_from_before(case: Case) -> Floats:
    """Give what was picked before and may still be held; shape (C, W + 1).

    Column 0 is the moment before the first week, column ``w + 1`` the end of week ``w``. The
    newest of it is of the first week itself: what does not hold a week is used in it, but for
    what was picked so late that it still is good.
    """
    earlier = case.before_kg.shape[1]
    newest_first = np.cumsum(case.before_kg[:, ::-1], axis=1)
    totals = np.concatenate([np.zeros((len(newest_first), 1)), newest_first], axis=1)
    spans = case.arrays.hold_weeks
    weeks = np.arange(len(case.weeks) + 1)
    held: Floats = np.take_along_axis(
        totals, np.clip(spans[:, None] - weeks[None, :], 0, earlier), axis=1
    )
    held[:, 1] += case.arrays.good_next_week_kg
    return held


def to_hand(case: Case, harvest: Floats) -> Bools:
    """Mark the weeks in which something of a crop is to hand, fresh or still held."""
    return picked_lately(case, harvest, case.arrays.hold_weeks) > LEAST_KG


def picked_lately(case: Case, harvest: Floats, spans: Ints) -> Floats:
    """Sum for each crop and week what was picked in the last ``spans`` weeks; shape (C, W).

    In week 1 with what was picked so late in week 0 that it still is good.
    """
    picked, earlier = with_this_week(harvest, case.before_kg)
    lately = last_weeks_sum(picked, spans, earlier)
    lately[:, 1:2] += case.arrays.good_next_week_kg[:, None]
    return lately


def can_put_up(case: Case, harvest: Floats) -> Bools:
    """Mark the weeks in which at least half a unit of a preserve could be put up.

    A picking is put up within the weeks that the settings allow, if it holds so long; what
    is lifted for the store is put away while it stands.
    """
    arrays = case.arrays
    within = np.minimum(arrays.hold_weeks, round(case.season.settings.put_up_within_weeks))
    standing = np.array([crop.shape == "single lift" for crop in case.season.crops], dtype=bool)
    spans = np.where(standing, arrays.hold_weeks, within)
    recent = picked_lately(case, harvest, spans)
    possible = np.ones((len(arrays.preserves), len(arrays.weeks)), dtype=bool)
    for r in range(len(arrays.preserves)):
        for c in np.flatnonzero(arrays.fresh_kg[r]):
            possible[r] &= recent[c] >= 0.5 * arrays.fresh_kg[r, c]
    return possible & _before_new_crop(arrays, case.demand.cover_until)


def _before_new_crop(arrays: SeasonArrays, cover_until: Ints) -> Bools:
    ends = cover_until[arrays.food_of_preserve]
    before: Bools = np.arange(len(arrays.weeks))[None, :] < ends[:, None]
    return before


def add_areas(case: Case, variables: Variables) -> None:
    """Add the block ``area`` (B): how much of each planting, between its least and most."""
    forecast = case.forecast
    every = np.ones(len(forecast.plantings), dtype=bool)
    variables.add("area", "B", every, lower=forecast.least, upper=forecast.most)


def add_decisions(case: Case, variables: Variables) -> None:
    """Add every block of decisions of a case.

    Blocks: area (B) planting amounts, on_hand, eaten and spare (C, W) kilograms, put_up and
    loads (R, W), opened, shelf, past and given (R, W) units, met (F, W, K) portions by
    worth, fresh (F, W) wanted portions eaten fresh, beyond, reserve and wished (R).
    """
    arrays, needs = case.arrays, case.demand
    add_areas(case, variables)
    harvest = most_harvest(case)
    present = to_hand(case, harvest)
    spans = np.maximum(arrays.hold_weeks - 1, 0)
    held = picked_lately(case, harvest, spans) > LEAST_KG
    held &= arrays.hold_weeks[:, None] > 1
    held[:, 0] |= arrays.good_next_week_kg > LEAST_KG
    eatable = np.zeros_like(present)
    eaten_as = arrays.food_of_crop >= 0
    eatable[eaten_as] = needs.most[arrays.food_of_crop[eaten_as]] > 0
    variables.add("on_hand", "CW", held)
    variables.add("eaten", "CW", present & eatable)
    variables.add("spare", "CW", present)

    makes = can_put_up(case, harvest)
    variables.add("put_up", "RW", makes)
    variables.add("loads", "RW", makes & (arrays.units_per_load > 0)[:, None])
    ever = (np.cumsum(makes, axis=1) > 0) | (arrays.opening_units > 0)[:, None]
    stands = ever & _before_new_crop(arrays, needs.cover_until)
    most_opened = arrays.most_portions_a_week / arrays.portions
    variables.add("opened", "RW", stands, upper=np.broadcast_to(most_opened[:, None], stands.shape))
    variables.add("shelf", "RW", stands)
    variables.add("past", "RW", stands)
    variables.add("given", "RW", stands & (arrays.gifts > 0), upper=arrays.gifts)

    widths = worth_steps(case)
    variables.add("met", "FWK", widths > 0, upper=widths)
    variables.add("fresh", "FW", needs.wanted > 0, upper=needs.wanted)
    rows = np.ones(len(arrays.preserves), dtype=bool)
    variables.add("beyond", "R", rows)
    variables.add("reserve", "R", rows & _keeps_over(case), upper=reserve_units(case))
    wished = np.nan_to_num(arrays.target, nan=0.0)
    variables.add("wished", "R", wished > 0, upper=wished)


def worth_steps(case: Case) -> Floats:
    """Give the portions of each food in each week by falling worth; shape (F, W, 5).

    Half of the want, the next three tenths, its last fifth, and what goes beyond it in two
    halves, so that what has to be used up is spread over the weeks.
    """
    wanted, more = case.demand.wanted, case.demand.most - case.demand.wanted
    steps = [0.5 * wanted, 0.3 * wanted, 0.2 * wanted, 0.5 * more, 0.5 * more]
    return np.stack(steps, axis=2)


def reserve_units(case: Case) -> Floats:
    """Give the units of each preserve worth having in hand at the new crop; shape (R,)."""
    arrays = case.arrays
    own_want = arrays.share_of_food * case.kept_want[arrays.food_of_preserve]
    units: Floats = case.season.settings.margin_share * own_want / arrays.portions
    return units


def _keeps_over(case: Case) -> Bools:
    """Mark what keeps a year or more: a reserve of anything else is eaten by rot."""
    keeps: Bools = case.arrays.keeps_weeks >= 50
    return keeps
