"""What choosing for many years is worth, and what knowing the year beforehand would be.

In the program's own worth, over fresh years: each is solved with the areas chosen for many
years, with those of the mean year, and with areas chosen for that very year. The recourse
foresees each year, so these are bounds on what a household could gain (Birge and Louveaux:
value of the stochastic solution, expected value of perfect information).
"""

import math
from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from model.case import Case
from model.forecast.years import sampled_kg_per_unit
from model.optimization.ground import known_beforehand, recourses
from model.planting.many_years import for_many_years
from model.planting.margin import with_margin
from model.planting.ways import Interval, mean_difference
from model.season.arrays import Floats

Progress = Callable[[float], None]
FRESH_YEARS = 60


@dataclass(frozen=True, slots=True)
class PlantingValue:
    """In portions of the best-liked food a year.

    ``in_sample`` is the mean worth over the years that the areas were chosen for,
    ``out_of_sample`` over fresh ones, ``gap`` the first less the second: more years are worth
    choosing for while its interval lies above 0. ``stochastic`` is what the choice is worth
    more than the mean year's, ``perfect`` what knowing the year beforehand would add.
    """

    in_sample: float
    out_of_sample: Interval
    gap: Interval
    stochastic: Interval
    perfect: Interval


def planting_value(
    case: Case,
    seed: int,
    *,
    years: int = FRESH_YEARS,
    progress: Progress = lambda _: None,
) -> PlantingValue:
    """Work out what choosing for many years is worth over ``years`` fresh ones.

    In portions of the best-liked food a year; ``progress`` is told the part done.

    >>> value = model.planting_value(small.case, seed=1, years=10)
    >>> value.perfect.low <= value.perfect.value <= value.perfect.high
    True
    """
    choosing, fresh = np.random.default_rng(seed).spawn(2)
    chosen = for_many_years(case, choosing)
    progress(0.2)
    kg_per_unit = sampled_kg_per_unit(case.season, case.forecast, years, fresh)
    programs = recourses(case, kg_per_unit, lambda part: progress(0.2 + 0.2 * part))

    def worths(amounts: Floats) -> Floats:
        return np.array([year.worth(amounts)[0] for year in programs])

    ours = worths(chosen.amounts)
    progress(0.6)
    mean_year = worths(with_margin(case, 0.0)[0])
    progress(0.75)
    known = known_beforehand(case, kg_per_unit)
    outside = mean_difference(ours, np.zeros_like(ours))
    own = chosen.found.year_worth
    inside = mean_difference(own, np.zeros_like(own))
    half = math.hypot(inside.high - inside.value, outside.high - outside.value)
    gap = inside.value - outside.value
    return PlantingValue(
        in_sample=inside.value,
        out_of_sample=outside,
        gap=Interval(gap, gap - half, gap + half),
        stochastic=mean_difference(ours, mean_year),
        perfect=mean_difference(known, ours),
    )
