"""What to plant for loads that are filled whole.

Chosen for parts of loads, a small garden ends just short of a load, and the crop is lost to the
kitchen: the loads are made whole first, while the amounts can still follow them.
"""

import numpy as np

from model.case import Case
from model.optimization.ground import steps_of, whole_amounts
from model.optimization.planning_program import planning_program
from model.optimization.solve import Basis, Solution, Solver
from model.optimization.whole_loads import best_whole, fixed_at, make_whole
from model.season.arrays import Floats

ROUNDING = 1e-6


def amounts_for_whole_loads(case: Case, start: Basis | None = None) -> Floats:
    """Choose the amounts (B,), in whole plants and tenths, with loads of whole jars.

    Raises NoPlan when the solver ends without an answer.
    """
    program = planning_program(case)
    solver = Solver(program)
    solver.start_from(start)
    relaxed = solver.solve()
    answer = make_whole(case, solver, relaxed, lambda _: None)
    answer = best_whole(case, solver, relaxed, answer, search=False)
    # the loads stay; how many jars are in them follows the amounts
    jars = program.variables["put_up"].columns
    solver.bound(jars, program.lower[jars], program.upper[jars])
    return _rounded(case, solver, solver.solve() if len(jars) else answer)


def _rounded(case: Case, solver: Solver, answer: Solution) -> Floats:
    """Take each amount up or down, whichever leaves the better plan, one after the other."""
    area, steps = solver.program.variables["area"], steps_of(case)
    for b, column in enumerate(area.columns):
        wanted = area.values(answer.values)[b] / steps[b]
        ends = {np.floor(wanted + ROUNDING) * steps[b], np.ceil(wanted - ROUNDING) * steps[b]}
        tried = [
            (found, amount)
            for amount in np.clip(sorted(ends), case.forecast.least[b], case.forecast.most[b])
            if (found := fixed_at(solver, np.array([column]), np.array([amount]))) is not None
        ]
        if not tried:
            return whole_amounts(case, area.values(answer.values))
        answer, amount = max(tried, key=lambda one: one[0].worth)
        solver.bound(np.array([column]), np.array([amount]), np.array([amount]))
    return np.round(area.values(answer.values), 6)
