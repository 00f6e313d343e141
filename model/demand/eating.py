"""Portions wanted of each food in each week, from people, habits, guests and absences."""

from dataclasses import dataclass
from datetime import date

import numpy as np

from model.season.arrays import Bools, Floats, Ints
from model.season.household import Food
from model.season.season import Season
from model.season.weeks import Weeks

FRUIT_GROUPS = ("fruit", "juice", "jam")


@dataclass(frozen=True, eq=False)
class Demand:
    """What is wanted of each food.

    Parameters
    ----------
    usual : shape (F, W), portions wanted in every week.
    wanted : shape (F, W), the same, 0 from the week of the food's new crop on.
    most : shape (F, W), portions that the household will eat at most.
    cover_until : shape (F,), the week of the new crop: the first one not to be covered.
    """

    usual: Floats
    wanted: Floats
    most: Floats
    cover_until: Ints


def adults_at_table(season: Season, weeks: Weeks, food: Food) -> Floats:
    """Give the adult equivalents at the table in each week; shape (W,).

    An absence or a guest changes only the days it touches; days that are over have nobody.
    """
    fruit = food.group in FRUIT_GROUPS
    adults = np.zeros(len(weeks))
    to_come = np.ones((len(weeks), 7), dtype=bool)
    to_come[0, : weeks.days_over] = False
    for eater in season.eaters:
        scale = eater.fruit_scale if fruit else eater.vegetable_scale
        gone = np.zeros((len(weeks), 7), dtype=bool)
        for away in season.away:
            if away.who in (eater.name, "everyone"):
                gone |= _days(weeks, away.begins, away.ends)
        adults += scale * (to_come & ~gone).mean(axis=1)
    for guests in season.guests:
        there = to_come & _days(weeks, guests.begins, guests.ends)
        adults += guests.adults * there.mean(axis=1)
    return adults


def _days(weeks: Weeks, begins: date, ends: date) -> Bools:
    first = (begins - weeks.first).days
    last = (ends - weeks.first).days
    days = np.arange(len(weeks) * 7).reshape(len(weeks), 7)
    inside: Bools = (days >= first) & (days <= last)
    return inside


def usual_portions(season: Season, weeks: Weeks, food: Food, adults: Floats) -> Floats:
    """Give the portions of a food that the notes want, for adults at the table; shape (W,)."""
    habit = next(habit for habit in season.habits if habit.name == food.habit)
    factor = np.array([habit.factor(monday) for monday in weeks.mondays])
    portions: Floats = food.portions_a_week * adults * factor
    return portions


def demand(
    season: Season, weeks: Weeks, cover_until: Ints, own_use: Floats | float = 1.0
) -> Demand:
    """Give the portions wanted of each food, up to the week of its new crop.

    Parameters
    ----------
    own_use : shape (F, W) or one for all, times what the notes say, as counts have shown.
    """
    usual = np.zeros((len(season.foods), len(weeks)))
    most = np.zeros_like(usual)
    for f, food in enumerate(season.foods):
        adults = adults_at_table(season, weeks, food)
        usual[f] = usual_portions(season, weeks, food, adults)
        most[f] = food.most_a_week * adults
    usual *= own_use
    most = np.maximum(most, usual)
    covered = np.arange(len(weeks)) < cover_until[:, None]
    return Demand(usual, usual * covered, most * covered, cover_until)
