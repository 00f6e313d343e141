"""What a met need, an hour, a lid and a wasted kilogram are worth, term by term.

The unit is one wanted portion (80 g on the plate) of the best-liked food. Every number is a
judgement of the household's settings.
"""

import numpy as np

from model.case import Case
from model.optimization.variables import Variables
from model.season.arrays import Floats

# Far below anything a household could feel, far above the solver's sharp tolerance; a product,
# because a sum leaves swaps tied.
TIE = 1e-3
GOLDEN = (5**0.5 - 1) / 2


def add_worth(case: Case, variables: Variables) -> None:
    """Put a worth on every decision of a case."""
    _meals(case, variables)
    _preserves(case, variables)
    _work(case, variables)
    _ties(case, variables)


def _meals(case: Case, variables: Variables) -> None:
    arrays, chosen = case.arrays, case.season.settings
    beyond = chosen.beyond_want_worth
    steps = np.array([1.0, chosen.middle_worth, chosen.last_worth, beyond, beyond / 2])
    variables.value("met", arrays.food_worth[:, None, None] * steps[None, None, :])
    variables.value("fresh", chosen.fresh_first_worth * arrays.food_worth[:, None])


def _preserves(case: Case, variables: Variables) -> None:
    arrays, chosen = case.arrays, case.season.settings
    liked_more = arrays.preserve_worth - arrays.food_worth[arrays.food_of_preserve]
    variables.value("opened", (arrays.portions * liked_more)[:, None])
    variables.value("beyond", -(1.0 - chosen.beyond_share_worth) * arrays.preserve_worth)
    per_unit = arrays.portions * arrays.preserve_worth
    variables.value("reserve", chosen.reserve_worth * per_unit)
    variables.value("wished", chosen.last_worth * per_unit)
    variables.value("given", per_unit[:, None])


def _work(case: Case, variables: Variables) -> None:
    arrays, chosen = case.arrays, case.season.settings
    minute = chosen.hour_worth_portions / 60.0
    lid = np.where(arrays.canned, chosen.lid_worth, 0.0)
    variables.value("put_up", -(minute * arrays.minutes_per_unit + lid)[:, None])
    variables.value("loads", -(minute * arrays.minutes_per_load)[:, None])
    variables.value("spare", -chosen.waste_worth_per_kg)
    variables.value("past", -chosen.lid_worth)
    bed = np.array([planting.area_m2_per_unit for planting in case.forecast.plantings])
    variables.value("area", -chosen.hour_worth_portions * chosen.garden_hours_per_m2 * bed)


def _ties(case: Case, variables: Variables) -> None:
    """Break ties by a rule that the order of the rows cannot change: earlier, then by name.

    To the first term, which prefers the earlier week (for throwing away the later one),
    comes one without a pattern, so that no swap or chain of decisions is left with equal worth.
    """
    arrays = case.arrays
    names = dict.fromkeys(("put_up", "opened", "past"), arrays.preserves)
    names |= dict.fromkeys(("eaten", "on_hand", "spare"), arrays.crops)
    weeks = np.arange(len(case.weeks)) + 1.0
    for block, (decision, own) in enumerate(names.items()):
        rank = rank_of(own)[:, None]
        patternless = np.modf(GOLDEN * (rank * len(own) + 0.5) * (weeks + block))[0]
        order = weeks[::-1] if decision == "past" else weeks
        variables.value(decision, -TIE * (rank * order / len(weeks) + patternless))


def rank_of(names: tuple[str, ...]) -> Floats:
    """Give each name's place in the alphabet, from 1/n to 1."""
    order = {name: place for place, name in enumerate(sorted(names), start=1)}
    return np.array([order[name] / len(names) for name in names])
