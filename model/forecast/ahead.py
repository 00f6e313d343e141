"""What was picked before it was due: it comes off what is still to come."""

from datetime import date, timedelta

import numpy as np

from model.forecast.growth import PickingDates
from model.forecast.picked import logged_kg
from model.season.arrays import Floats, Ints
from model.season.frosts import TENTH
from model.season.garden import GardenSeason
from model.season.season import Season

# Common practice, no source: a lift that is brought forward, and not a later sowing's.
EARLY = timedelta(weeks=4)


def within_a_good_year(
    season: Season,
    year: GardenSeason,
    crop_of: Ints,
    whole_kg: Floats,
    to_come_kg: Floats,
    today: date,
) -> Floats:
    """Give the share of what is to come that a year as good as one in ten still gives; (C,).

    What was picked so far comes off it: a crop that is over, though it was expected later, is
    not expected once more. Of what is lifted once all that was lifted comes off already.

    Parameters
    ----------
    whole_kg : shape (B,), what each planting gives in an ordinary year.
    to_come_kg : shape (B, W).
    """
    logged = logged_kg(season, year, today)
    picked = np.array([logged.get(crop.name, 0.0) for crop in season.crops])
    good, to_come = np.zeros_like(picked), np.zeros_like(picked)
    cv = np.array([crop.season_cv for crop in season.crops])
    np.add.at(good, crop_of, whole_kg * (1.0 + TENTH * cv[crop_of]))
    np.add.at(to_come, crop_of, to_come_kg.sum(axis=1))
    once = np.array([crop.shape == "single lift" for crop in season.crops], dtype=bool)
    known = ~once & (picked > 0) & (to_come > 0)
    share = np.ones_like(picked)
    share[known] = np.clip((good - picked)[known] / to_come[known], 0.0, 1.0)
    return share


def share_to_come(
    dates: tuple[PickingDates, ...],
    to_come_kg: Floats,
    crop_of: Ints,
    ahead_kg: Floats,
    today: date,
) -> Floats:
    """Give the share of what is to come that was not picked ahead of its time; shape (B, W).

    What is lifted once comes off the lifts due within four weeks, the first of them first.
    Of what is picked again and again it comes off this week alone: whether the crop is early
    or large is not known yet.

    Parameters
    ----------
    to_come_kg : shape (B, W), as expected before today's pickings were known.
    crop_of : shape (B,), indices into the crops.
    ahead_kg : shape (C,).
    """
    share, ahead = np.ones_like(to_come_kg), ahead_kg.copy()
    for b in sorted(range(len(dates)), key=lambda one: dates[one].first):
        once = dates[b].shape == "single lift"
        if once and dates[b].first > today + EARLY:
            continue
        weeks = slice(None) if once else slice(1)
        kg = to_come_kg[b, weeks].sum()
        used = min(kg, ahead[crop_of[b]])
        if used > 0:
            ahead[crop_of[b]] -= used
            share[b, weeks] = 1.0 - used / kg
    return share
