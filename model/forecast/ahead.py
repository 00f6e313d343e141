"""What was picked before it was due: it comes off what is still to come."""

from datetime import date, timedelta

import numpy as np

from model.forecast.growth import PickingDates
from model.season.arrays import Floats, Ints

# Common practice, no source: a lift that is brought forward, and not a later sowing's.
EARLY = timedelta(weeks=4)


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
