"""Areas for many sampled years at once: the two-stage choice, beside which the simpler one is held.

The program's pickings and batches foresee each of its years, which a household cannot; so
what it chooses is judged in the simulator like every other way (``ways.py``).
"""

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from model.case import Case
from model.forecast.years import sampled_kg_per_unit
from model.optimization.ground import ground_of, recourses, whole_amounts
from model.optimization.two_stage import TwoStage, choose_areas
from model.planting.outlooks import OUTLOOKS
from model.season.arrays import Floats

Progress = Callable[[float], None]
# Forty: over 200 fresh years the areas chosen for 40, 80 and 160 are worth the same to 0.1 % at
# both demo households, and the gap to the years chosen for lies within its interval.
CHOSEN_FOR_YEARS = 40


@dataclass(frozen=True, eq=False)
class ManyYears:
    """Amounts of every planting, in whole plants and tenths; ``found`` as it was solved."""

    amounts: Floats
    found: TwoStage


def for_many_years(
    case: Case,
    generator: np.random.Generator,
    *,
    years: int = CHOSEN_FOR_YEARS,
    progress: Progress = lambda _: None,
) -> ManyYears:
    """Choose the amounts that serve ``years`` sampled years best, the bad ones weighted.

    Parameters
    ----------
    generator : draws the years.
    progress : told the part that is done; may raise to stop.
    """
    kg_per_unit = sampled_kg_per_unit(case.season, case.forecast, years, generator)
    programs = recourses(case, kg_per_unit, lambda part: progress(0.6 * part))
    found = choose_areas(
        ground_of(case),
        programs,
        OUTLOOKS[case.season.plan_for],
        np.clip(case.forecast.amounts, case.forecast.least, case.forecast.most),
        progress=lambda part: progress(0.6 + 0.4 * part),
    )
    return ManyYears(whole_amounts(case, found.areas), found)
