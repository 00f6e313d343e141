"""What may be grown where, and the years that areas are chosen for."""

from collections.abc import Callable
from dataclasses import replace

import numpy as np

from model.case import Case
from model.optimization.decisions import add_areas
from model.optimization.harvest_constraints import beds_hold, choices_shared
from model.optimization.periods import in_periods, summed
from model.optimization.planning_program import RECOURSE, planning_program
from model.optimization.program import LinearProgram
from model.optimization.solve import Solver
from model.optimization.two_stage import Ground, Recourse
from model.optimization.variables import Variables
from model.season.arrays import Floats

Progress = Callable[[float], None]
# Four weeks to a period: choosing areas by single weeks took four times as long for the same ones.
SPAN_WEEKS = 4


def ground_of(case: Case) -> Ground:
    """Give the amounts of all plantings as the block ``area``, within the beds."""
    variables = Variables()
    add_areas(case, variables)
    return Ground(variables, (beds_hold(case, variables), choices_shared(case, variables)))


def recourses(
    case: Case, kg_per_unit: Floats, progress: Progress = lambda _: None
) -> list[Recourse]:
    """Give the program of each sampled year, for areas that are fixed from outside.

    Parameters
    ----------
    kg_per_unit : shape (Y, B, W), what one unit of each planting gives in each year.
    """
    years = []
    for done, year in enumerate(_year_cases(case, kg_per_unit)):
        program = planning_program(year, RECOURSE)
        years.append(Recourse(program, program.variables["area"].columns))
        progress((done + 1) / len(kg_per_unit))
    return years


def known_beforehand(case: Case, kg_per_unit: Floats) -> Floats:
    """Give what each year would be worth if it were known when planting; shape (Y,)."""
    return np.array([_relaxed(planning_program(year)) for year in _year_cases(case, kg_per_unit)])


def _relaxed(program: LinearProgram) -> float:
    return Solver(program).solve().worth


def _year_cases(case: Case, kg_per_unit: Floats) -> list[Case]:
    coarse = in_periods(case, SPAN_WEEKS)
    return [
        replace(coarse, forecast=replace(coarse.forecast, kg_per_unit=summed(kg, SPAN_WEEKS)))
        for kg in kg_per_unit
    ]


def steps_of(case: Case) -> Floats:
    """Give in what steps each planting is measured: plants, or tenths of m2 or metres; (B,)."""
    return np.array([1.0 if p.per == "plant" else 0.1 for p in case.forecast.plantings])


def whole_amounts(case: Case, wanted: Floats) -> Floats:
    """Give whole plants and tenths of m2 or metres, never below the least; shape (B,)."""
    steps = steps_of(case)
    rounded: Floats = np.maximum(np.floor(wanted / steps + 1e-6) * steps, case.forecast.least)
    return rounded


def with_amounts(case: Case, amounts: Floats) -> Case:
    """Give the case with its amounts chosen."""
    return replace(case, forecast=replace(case.forecast, least=amounts, most=amounts))
