"""A pile on the table: checked, and made all that there is of this week's harvest."""

from collections.abc import Mapping, Sequence
from dataclasses import replace
from functools import partial

import numpy as np

from model.case import Case
from model.errors import Problem, SeasonProblems
from model.forecast.harvest import with_given
from model.optimization.ground import with_amounts
from model.optimization.harvest_constraints import only_sound_waits
from model.optimization.planning_program import FAMILIES, Family
from model.planning import PlannedSeason
from model.season.garden import Picking
from model.season.holding import good_next_week_kg

MOST_KG = 10_000.0
MOST_HOURS = 168.0


def check_pile(case: Case, pile_kg: Mapping[str, float], bruised_kg: Mapping[str, float]) -> None:
    """Raise SeasonProblems for crops nobody grows, impossible weights, more bruised than there."""
    problems = []
    for crop, kg in pile_kg.items():
        if crop not in case.arrays.crops:
            known = ", ".join(case.arrays.crops)
            problems.append(Problem("the pile", 0, f"{crop!r} is not grown", f"one of {known}"))
        elif not 0 <= kg <= MOST_KG:
            wanted = f"kilograms from 0 to {MOST_KG:g}"
            problems.append(Problem("the pile", 0, f"{kg:g} kg of {crop}", wanted))
    problems += [
        Problem("the pile", 0, f"{kg:g} kg of {crop} bruised", f"0 to {pile_kg.get(crop, 0.0):g}")
        for crop, kg in bruised_kg.items()
        if not 0 <= kg <= pile_kg.get(crop, 0.0)
    ]
    if problems:
        raise SeasonProblems(problems)


def check_hours(hours: float) -> None:
    """Raise SeasonProblems for hours that no week has."""
    if not 0 <= hours <= MOST_HOURS:
        wanted = f"hours of this week, 0 to {MOST_HOURS:g}"
        raise SeasonProblems([Problem("the pile", 0, f"{hours:g} hours", wanted)])


def with_pile(planned: PlannedSeason, pile_kg: Mapping[str, float]) -> Case:
    """Give the case in which the pile is all of this week's harvest."""
    case = with_amounts(planned.case, planned.plan.amounts)
    arrays, forecast = case.arrays, case.forecast
    kg_per_unit = forecast.kg_per_unit.copy()
    waits = np.array([crop not in pile_kg for crop in arrays.crops], dtype=bool)[forecast.crop_of]
    kg_per_unit[waits, 1] += kg_per_unit[waits, 0]
    kg_per_unit[:, 0] = 0.0
    on_table = np.zeros((len(arrays.crops), len(case.weeks)))
    on_table[:, 0] = [pile_kg.get(crop, 0.0) for crop in arrays.crops]
    pile = tuple(Picking(case.today, crop, kg) for crop, kg in pile_kg.items())
    good = good_next_week_kg(replace(case.season, pickings=pile), case.weeks)
    return replace(
        case,
        arrays=replace(arrays, good_next_week_kg=np.array(good)),
        before_kg=np.zeros_like(case.before_kg),
        forecast=with_given(replace(forecast, kg_per_unit=kg_per_unit), on_table),
    )


def with_minutes(case: Case, minutes: float) -> Case:
    """Give the case with so many kitchen minutes this week."""
    free = case.arrays.kitchen_minutes.copy()
    free[0] = minutes
    return replace(case, arrays=replace(case.arrays, kitchen_minutes=free))


def families_of(
    case: Case, pile_kg: Mapping[str, float], bruised_kg: Mapping[str, float]
) -> Sequence[Family]:
    """Give the constraints of a split: all of a plan's, and that only what is sound waits."""
    if not bruised_kg:
        return FAMILIES
    sound = [pile_kg.get(crop, 0.0) - bruised_kg.get(crop, 0.0) for crop in case.arrays.crops]
    return (*FAMILIES, partial(only_sound_waits, np.array(sound)))
