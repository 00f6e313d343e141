"""A plan followed through sampled years, the same ones for every plan that is held against it."""

import numpy as np

from model.case import Case
from model.forecast.years import sampled_harvest
from model.plan import Plan
from model.season.arrays import Floats
from model.simulation.lived_years import Follower, LivedYears, live_through
from model.simulation.luck import draw_kitchen_luck


def lived(
    case: Case,
    plan: Plan,
    years: int,
    seed: int,
    *,
    given_kg: Floats | float = 0.0,
    as_wanted: bool = False,
) -> LivedYears:
    """Follow a plan through ``years`` years that a seed draws.

    Parameters
    ----------
    given_kg : shape (C, W), what comes in every year beside the case's own plantings.
    as_wanted : the household eats what it wants until it is gone; else at the plan's pace.
    """
    arrays = case.arrays
    garden, kitchen = np.random.default_rng(seed).spawn(2)
    amounts = plan.amounts[: len(case.forecast.plantings)]
    harvest = sampled_harvest(case.season, case.forecast, amounts, years, garden)
    harvest += np.asarray(given_kg, dtype=np.float32)
    luck = draw_kitchen_luck(
        kitchen,
        years,
        arrays.sealed_share,
        len(case.weeks),
        case.appetite_cv,
        case.seals.clump_chance,
    )
    return live_through(Follower(plan, arrays, case.demand.cover_until, as_wanted), harvest, luck)


def met_portions(case: Case, years: LivedYears) -> Floats:
    """Give the portions met of what is usually wanted; shape (Y, F, W)."""
    met: Floats = np.minimum(years.met, case.demand.wanted.astype(np.float32))
    return met
