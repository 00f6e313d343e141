"""How much of each food the household really eats, by week of the year, learned from counts.

A factor on what the notes say is wanted: ``1 + a + g(week)``. The appetite ``a`` is shared by
all foods; ``g`` is the food's own: a level and a run through the year. All are normal with
mean 0, and an interval between two counts observes the sum of its weeks' wants times their
factors, so that what is known afterwards is a matter of linear algebra (the Kalman update).
Where a food ran out, it only says that at least so much was wanted: the moments of the cut
normal distribution are used (assumed-density filtering).

The run through the year has the covariance ``exp(-d^2 / 2 l^2)``, ``d`` the chord of the weeks'
places on a circle of 52. Its eigenfunctions are cosines and sines with variances
``2 exp(-x) I_k(x)``, ``x = (52 / 2 pi l)^2``, ``I_k`` the modified Bessel functions; beyond six
waves a year nothing is left of it.
"""

import math
from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np
from scipy.special import ive
from scipy.stats import norm

from model.learning.use_intervals import (
    YEAR_WEEKS,
    UseInterval,
    Wants,
    use_intervals,
    week_of_year,
)
from model.season.arrays import Floats
from model.season.ledger import Ledger
from model.season.season import Season
from model.season.weeks import Weeks

# Source: needs-uncertainty: a household's rate of a food differs by 25 % in a first year,
# of which the settings' appetite is the part that all foods share.
FIRST_YEAR_CV = 0.25
LEAST_FOOD_CV = 0.05
# Judgement: how far the run through the year differs from the habit that is written down,
# and over how many weeks.
RUN_CV = 0.25
RUN_WEEKS = 6.0
WAVES = 6
# Of the appetite's variance, so much is this year's alone, and cannot be learned.
THIS_YEARS_SHARE = 0.25


@dataclass(frozen=True, eq=False)
class UseRate:
    """How much of one food is eaten, times what the notes say.

    Parameters
    ----------
    factor, spread : shape (52,), by week of the year, and its standard deviation.
    covariance : shape (52, 52).
    intervals, weeks : between two counts, and the weeks in them.
    ran_out : how many of the intervals only say "at least so much".
    left_out : intervals that say nothing of eating.
    """

    food: str
    factor: Floats
    covariance: Floats
    intervals: int
    weeks: float
    ran_out: int
    left_out: int

    @property
    def spread(self) -> Floats:
        """Give the standard deviation by week of the year; shape (52,)."""
        deviation: Floats = np.sqrt(np.maximum(0.0, self.covariance.diagonal()))
        return deviation

    def over(self, wanted: Floats) -> tuple[float, float]:
        """Give the mean factor and its spread over weeks weighted by their want; shape (52,)."""
        weight = wanted / wanted.sum()
        return float(weight @ self.factor), float(np.sqrt(weight @ self.covariance @ weight))


class AppetiteCv(NamedTuple):
    """How much eating varies: of all foods together, and of each alone; ``own`` has shape (F,)."""

    shared: float
    own: Floats


@dataclass(frozen=True, eq=False)
class UseRates:
    """The use of every food, in the season's order, and how much appetite still varies.

    ``learned_cv`` is the part of ``appetite_cv`` that more counts would make less.
    """

    foods: tuple[UseRate, ...]
    appetite_cv: float
    learned_cv: float

    def factors(self, weeks: Weeks) -> Floats:
        """Give the factor on the want of each food in each week; shape (F, W), never below 0."""
        by_year = np.array([rate.factor for rate in self.foods])[:, week_of_year(weeks)]
        factors: Floats = np.maximum(0.0, by_year)
        return factors

    def varying(self, weeks: Weeks, wanted: Floats) -> AppetiteCv:
        """Give how much eating varies over what is wanted of each food; shape (F, W)."""
        by_year = np.zeros((len(self.foods), YEAR_WEEKS))
        np.add.at(by_year.T, week_of_year(weeks), wanted.T)
        own = []
        for rate, portions in zip(self.foods, by_year, strict=True):
            factor, spread = rate.over(portions) if portions.any() else (1.0, 0.0)
            own.append(max(0.0, spread**2 - self.learned_cv**2) / max(factor, 0.1) ** 2)
        return AppetiteCv(self.appetite_cv, np.sqrt(own))


def use_rates(season: Season, books: Mapping[str, Ledger], wants: Wants) -> UseRates:
    """Learn the use of every food from its counts within the weeks of ``wants``."""
    seen, left_out = use_intervals(season, books, wants)
    foods = [food.name for food in season.foods]
    return learned_use(foods, seen, season.settings.appetite_cv, left_out)


def learned_use(
    foods: Sequence[str],
    seen: Sequence[UseInterval],
    appetite_cv: float,
    left_out: Mapping[str, int] | None = None,
) -> UseRates:
    """Learn the use of foods from intervals; without any, what the notes say stands."""
    belief = _Belief(foods, appetite_cv)
    for interval in sorted(seen, key=lambda one: one.at_least):
        belief.learn(interval)
    number = Counter(interval.food for interval in seen)
    return UseRates(
        foods=tuple(
            UseRate(
                food=food,
                factor=1.0 + belief.weekly(food) @ belief.mean,
                covariance=belief.weekly(food) @ belief.covariance @ belief.weekly(food).T,
                intervals=number[food],
                weeks=sum((i.ends - i.begins).days / 7 for i in seen if i.food == food),
                ran_out=sum(i.at_least for i in seen if i.food == food),
                left_out=(left_out or {}).get(food, 0),
            )
            for food in foods
        ),
        appetite_cv=belief.appetite_cv if seen else appetite_cv,
        learned_cv=belief.learned_cv,
    )


class _Belief:
    """A normal belief about the shared appetite and the waves of every food."""

    def __init__(self, foods: Sequence[str], appetite_cv: float) -> None:
        own = max(LEAST_FOOD_CV, math.sqrt(max(0.0, FIRST_YEAR_CV**2 - appetite_cv**2)))
        x = (YEAR_WEEKS / (2 * math.pi * RUN_WEEKS)) ** 2
        waves = RUN_CV**2 * ive(np.arange(WAVES + 1), x)
        each = np.concatenate([[own**2 + waves[0]], np.repeat(2 * waves[1:], 2)])
        lasting = (1 - THIS_YEARS_SHARE) * appetite_cv**2
        self._this_year = THIS_YEARS_SHARE * appetite_cv**2
        self._foods = list(foods)
        self.mean = np.zeros(1 + len(each) * len(foods))
        self.covariance = np.diag(np.concatenate([[lasting], np.tile(each, len(foods))]))
        angle = 2 * math.pi * np.arange(YEAR_WEEKS)[:, None] / YEAR_WEEKS * np.arange(1, WAVES + 1)
        both = np.stack([np.cos(angle), np.sin(angle)], axis=2).reshape(YEAR_WEEKS, -1)
        self._waves = np.concatenate([np.ones((YEAR_WEEKS, 1)), both], axis=1)

    def weekly(self, food: str) -> Floats:
        """Give the linear map from the belief to a food's factor less 1; shape (52, S)."""
        weekly = np.zeros((YEAR_WEEKS, len(self.mean)))
        weekly[:, 0] = 1.0
        begins = 1 + self._foods.index(food) * self._waves.shape[1]
        weekly[:, begins : begins + self._waves.shape[1]] = self._waves
        return weekly

    @property
    def appetite_cv(self) -> float:
        """Give how much the appetite of a coming year varies: what is not known, and its own."""
        return math.sqrt(self._this_year + self.learned_cv**2)

    @property
    def learned_cv(self) -> float:
        """Give how much of it is not known yet."""
        return math.sqrt(max(0.0, float(self.covariance[0, 0])))

    def learn(self, interval: UseInterval) -> None:
        """Take in what one interval says."""
        seen = interval.wanted @ self.weekly(interval.food)
        with_all = self.covariance @ seen
        variance = float(seen @ with_all) + interval.noise**2
        off = interval.used - float(interval.wanted.sum() + seen @ self.mean)
        shift, known = off, 1.0
        if interval.at_least:
            sd = math.sqrt(variance)
            ratio = math.exp(norm.logpdf(off / sd) - norm.logsf(off / sd))
            shift, known = sd * ratio, ratio * (ratio - off / sd)
        self.mean = self.mean + with_all * (shift / variance)
        self.covariance = self.covariance - np.outer(with_all, with_all) * (known / variance)
