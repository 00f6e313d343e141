"""What one more of a limit is worth to a plan: the plan's own loads kept, or one load more.

The relaxed program's marginal value would promise parts of a load. So the limit is widened by
the step that people can buy (an hour, a lid, a litre), the plan's loads stay as they are or
grow by one, and the rest follows. Where nothing comes of the step it is doubled, to say from
how many on something does.
"""

from dataclasses import dataclass

import numpy as np

from model.case import Case
from model.errors import NoPlan
from model.optimization.ground import with_amounts
from model.optimization.planning_program import planning_program
from model.optimization.solve import Solution, Solver
from model.plan import Plan
from model.season.arrays import Floats, Ints

WORTHWHILE = 0.05
MOST_STEPS = 16
LOADS_TRIED = 3


@dataclass(frozen=True, slots=True)
class Gain:
    """What a step brings: ``steps`` of it at once, in worth, portions met and units put up."""

    steps: int
    worth: float
    portions: float
    units: float


class Widening:
    """A plan whose limits can be widened one after the other."""

    def __init__(self, case: Case, plan: Plan) -> None:
        """Keep the plan's amounts and loads; the rest is chosen anew, as it was for the plan."""
        self._program = planning_program(with_amounts(case, plan.amounts))
        self._case, self._solver = case, Solver(self._program)
        loads = self._program.variables["loads"]
        self._columns = loads.columns
        self._loads = plan.loads[loads.index >= 0]
        self._free = np.full(len(self._columns), np.inf)
        self._wanted_before = self._freely_wanted()
        self._fix(self._loads)
        self._before = self._solver.solve()

    def rows(self, family: str, member: int | None, week: int | None) -> Ints:
        """Give the rows of a family of constraints: of one member, in one week or in all."""
        rows = self._program.families[family]
        if member is not None:
            rows = rows[member : member + 1]
        if week is not None:
            rows = rows[..., week : week + 1]
        found: Ints = rows[rows >= 0]
        return found

    def gain(self, rows: Ints, step: float) -> Gain | None:
        """Give the gain of the fewest steps that bring one; None when ``MOST_STEPS`` do not."""
        upper = self._program.row_upper[rows]
        steps = 1
        while steps <= MOST_STEPS:
            self._solver.limit(rows, upper + steps * step)
            found = self._best()
            self._solver.limit(rows, upper)
            if found is not None and found.worth - self._before.worth > WORTHWHILE:
                return self._gain(steps, found)
            steps *= 2
        return None

    def _best(self) -> Solution | None:
        """Give the best answer with the plan's loads, or with one more of those now wanted."""
        wanted = self._freely_wanted() - self._wanted_before
        self._fix(self._loads)
        best = self._solver.solve()
        for place in np.argsort(-wanted, kind="stable")[:LOADS_TRIED]:
            if wanted[place] <= 1e-6:
                break
            more = self._loads.copy()
            more[place] += 1.0
            self._fix(more)
            try:
                found = self._solver.solve()
            except NoPlan:
                continue
            best = found if found.worth > best.worth else best
        self._fix(self._loads)
        return best

    def _freely_wanted(self) -> Floats:
        """Give the loads that would be wanted if parts of one could be had."""
        self._solver.bound(self._columns, np.zeros_like(self._free), self._free)
        return self._solver.solve().values[self._columns]

    def _fix(self, loads: Floats) -> None:
        self._solver.bound(self._columns, loads, loads)

    def _gain(self, steps: int, found: Solution) -> Gain:
        change = found.values - self._before.values
        variables, wanted = self._program.variables, self._case.demand.wanted
        portions = [
            np.minimum(variables["met"].values(answer.values).sum(axis=2), wanted).sum()
            for answer in (found, self._before)
        ]
        counted = [p.in_pieces for p in self._case.season.preserves]
        units = variables["put_up"].values(change)[counted].sum()
        worth = found.worth - self._before.worth
        return Gain(steps, worth, float(portions[0] - portions[1]), float(units))
