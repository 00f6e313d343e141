"""Choosing how much of what to plant, for the years that may come."""

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from model.case import Case
from model.forecast.years import sampled_kg_per_unit
from model.optimization.ground import ground_of, recourses, whole_amounts
from model.optimization.two_stage import Tail, TwoStage, choose_areas
from model.season.arrays import Floats

Progress = Callable[[float], None]
# In the household's words: how much the bad years weigh.
OUTLOOKS = {
    "an ordinary year": Tail(share=1.0, weight=0.0),
    "eight years in ten": Tail(share=0.2, weight=0.5),
    "the bad year too": Tail(share=0.1, weight=0.8),
}
CHOSEN_FOR_YEARS = 40


@dataclass(frozen=True, eq=False)
class PlantingChoice:
    """Amounts of every planting, in whole plants and tenths; ``found`` as it was solved."""

    amounts: Floats
    found: TwoStage


def choose_planting(
    case: Case,
    outlook: str,
    generator: np.random.Generator,
    *,
    years: int = CHOSEN_FOR_YEARS,
    progress: Progress = lambda _: None,
) -> PlantingChoice:
    """Choose the amounts that serve ``years`` sampled years best, the bad ones weighted.

    Parameters
    ----------
    outlook : a key of ``OUTLOOKS``.
    generator : draws the years.
    progress : told the part that is done; may raise to stop.
    """
    kg_per_unit = sampled_kg_per_unit(case.season, case.forecast, years, generator)
    programs = recourses(case, kg_per_unit, lambda part: progress(0.6 * part))
    found = choose_areas(
        ground_of(case),
        programs,
        OUTLOOKS[outlook],
        np.clip(case.forecast.amounts, case.forecast.least, case.forecast.most),
        progress=lambda part: progress(0.6 + 0.4 * part),
    )
    return PlantingChoice(whole_amounts(case, found.areas), found)
