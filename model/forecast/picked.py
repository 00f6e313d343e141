"""What should have been picked by now, and what of it is still in hand or in the ground."""

from collections.abc import Mapping
from datetime import date, timedelta

import numpy as np

from model.forecast.growth import PickingDates, expected_week_shares, picked_by
from model.forecast.setbacks import setbacks_of
from model.season.arrays import Floats
from model.season.garden import GardenSeason, Planting
from model.season.holding import MOST_STANDING_WEEKS, hold_weeks
from model.season.season import Season
from model.season.weeks import Weeks, monday_of

BEFORE_WEEKS = MOST_STANDING_WEEKS - 1


def expected_by(
    season: Season, planting: Planting, dates: PickingDates, whole_kg: float, today: date
) -> float:
    """Give the kilograms that an ordinary year gives before today, with its setbacks."""

    def share(day: date) -> float:
        span = 7.0 if dates.shape == "single lift" else dates.length_days
        return float(picked_by(dates.shape, np.array([(day - dates.first).days / span]))[0])

    picked, left, since = 0.0, 1.0, 0.0
    for setback in setbacks_of(season, planting, today):
        reached = share(setback.noticed)
        picked, since = picked + left * (reached - since), reached
        left *= 1.0 - setback.share_lost
    return whole_kg * (picked + left * (share(today) - since))


def logged_kg(season: Season, year: GardenSeason, today: date) -> dict[str, float]:
    """Give the kilograms of each crop that the log of a garden year holds, today's among them."""
    logged: dict[str, float] = {}
    for picking in season.pickings:
        if year.begins <= picking.day <= min(today, year.ends):
            logged[picking.crop] = logged.get(picking.crop, 0.0) + picking.kg
    return logged


def picked_before(
    season: Season,
    year: GardenSeason,
    plantings: tuple[Planting, ...],
    dates: tuple[PickingDates, ...],
    whole_kg: Floats,
    weeks: Weeks,
) -> tuple[Floats, Floats]:
    """Give what was picked up to today and not counted since; shape (C, H).

    The second answer is what was picked ahead of its time, shape (C,): of crops that are lifted
    once all that was lifted beyond what should have been by now; of others what was picked this
    week beyond what its days gave. What was put up and not logged was picked too.

    What the log says; of crops that are lifted once also what should have been lifted by now
    and was not logged, because it stands where it grew. A count of what a crop goes into covers
    all before it, and what was put up since is taken off.
    The newest column is of this week, today's pickings among it: they lie in the kitchen, and
    come off what is still expected of the week. What was picked early in it and by its days is
    past was used or is lost, and is not there. What was picked late in a week and by its days
    still is good stands in the oldest column that is still used.

    Parameters
    ----------
    whole_kg : shape (B,), what each planting gives in an ordinary year.
    """
    names = [crop.name for crop in season.crops]
    begins = weeks.first - timedelta(weeks=BEFORE_WEEKS)
    counted = {name: season.counted_on(weeks.today, name) or date.min for name in names}
    before = np.zeros((len(names), BEFORE_WEEKS + 1))
    late = np.zeros_like(before)
    logged, this_week = np.zeros(len(names)), np.zeros(len(names))
    for picking in season.pickings:
        if not (year.begins <= picking.day <= weeks.today and picking.crop in names):
            continue
        logged[names.index(picking.crop)] += picking.kg
        this_week[names.index(picking.crop)] += picking.kg * (picking.day >= weeks.first)
        if picking.day > counted[picking.crop] and picking.day >= begins:
            week = (monday_of(picking.day) - begins).days // 7
            before[names.index(picking.crop), week] += picking.kg
            holds_until = picking.day + timedelta(days=season.crop(picking.crop).hold_days)
            # on its last day a picking still goes into a pot, but not into the next week
            if holds_until > weeks.today or (week == BEFORE_WEEKS and holds_until == weeks.today):
                late[names.index(picking.crop), week] += picking.kg
    unlogged, unlogged_this_week = _put_up_since(season, before, begins, weeks, counted)
    ahead = this_week + unlogged_this_week
    for b, planting in enumerate(plantings):
        c = names.index(planting.crop)
        reached = expected_by(season, planting, dates[b], whole_kg[b], weeks.today)
        if season.crops[c].shape != "single lift":
            ahead[c] -= reached - expected_by(season, planting, dates[b], whole_kg[b], weeks.first)
            continue
        due = _due_by_week(dates[b], weeks, begins, counted[planting.crop])
        missing = max(0.0, reached - logged[c])
        logged[c] = max(0.0, logged[c] - reached)
        if due.sum() > 0:
            before[c] += missing * due / due.sum()
        stood = before[c].sum()
        used = min(unlogged[c], stood)
        before[c] *= 1.0 - used / stood if stood else 1.0
        unlogged[c] -= used
        ahead[c] = logged[c] + unlogged[c]
    for c, name in enumerate(names):
        oldest = max(0, BEFORE_WEEKS + 1 - hold_weeks(season, name))
        if season.crops[c].shape != "single lift":
            before[c, -1] = min(before[c, -1], late[c, -1])
        good = np.minimum(before[c, :oldest], late[c, :oldest])
        before[c, :oldest] -= good
        before[c, oldest] += good.sum()
    return before, np.maximum(ahead, 0.0)


def _put_up_since(
    season: Season, before: Floats, begins: date, weeks: Weeks, counted: Mapping[str, date]
) -> tuple[Floats, Floats]:
    """Take what was put up since the counts off what was picked, in place; (C, H).

    The oldest that was still good on the day went into the jars first; what is past its days
    then was used or is lost, and only makes up what is missing.

    Gives what was put up beyond what was logged, in all and this week; shape (C,) each.
    """
    beyond, this_week = np.zeros(len(before)), np.zeros(len(before))
    for batch in season.record.batches:
        for part in season.preserve(batch.preserve).ingredients:
            if batch.again_of or not max(begins, counted[part.crop]) < batch.put_up <= weeks.today:
                continue
            c, used = season.crops.index(season.crop(part.crop)), batch.filled * part.kg
            last = (monday_of(batch.put_up) - begins).days // 7
            good = max(0, last + 1 - hold_weeks(season, part.crop))
            for week in (*range(good, last + 1), *range(good)):
                gone = min(before[c, week], used)
                before[c, week] -= gone
                used -= gone
            beyond[c] += used
            this_week[c] += used if batch.put_up >= weeks.first else 0.0
    return beyond, this_week


def _due_by_week(dates: PickingDates, weeks: Weeks, begins: date, counted: date) -> Floats:
    """Give the shares due in each week up to today, after the last stock-take; shape (H,)."""
    until_now = expected_week_shares(dates, Weeks(begins, BEFORE_WEEKS + 1))
    until_now[-1] -= expected_week_shares(dates, weeks)[0]
    due: Floats = np.maximum(until_now, 0.0)
    mondays = [begins + timedelta(weeks=week) for week in range(BEFORE_WEEKS + 1)]
    due[[monday < monday_of(counted) if counted > date.min else False for monday in mondays]] = 0.0
    return due
