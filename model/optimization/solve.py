"""The one door to HiGHS, the solver that SciPy ships, through its own interface.

Its own interface rather than SciPy's because a plan is re-made after every small change:
it takes the basis of the plan before, which SciPy's does not. One thread and no clock,
so that the same program has the same answer.
"""

from collections.abc import Mapping
from dataclasses import dataclass

import highspy
import numpy as np
from numpy.typing import NDArray

from model.errors import NoPlan
from model.optimization.program import LinearProgram
from model.season.arrays import Floats, Ints

GOOD_ENOUGH = 5e-3
MOST_NODES = 2000
# Sharper than the solver's usual tolerance, so that plans of almost equal worth are told apart.
SHARP, USUAL = 1e-9, 1e-7
StatusArray = NDArray[np.object_]
_OPTIMAL = highspy.HighsModelStatus.kOptimal
_AT_LOWER, _BASIC = highspy.HighsBasisStatus.kLower, highspy.HighsBasisStatus.kBasic


@dataclass(frozen=True, eq=False)
class Basis:
    """Where an answer of a program stood, for starting another of the same household from."""

    program: LinearProgram
    found: highspy.HighsBasis

    def of(self, program: LinearProgram) -> "Basis":
        """Give this basis as one of another program, so that it is carried there once."""
        return Basis(program, self.carried_to(program))

    def carried_to(self, program: LinearProgram) -> highspy.HighsBasis:
        """Give this basis for another program, matched by the names of decisions and rows.

        What only the other program has stands at its lower bound, or is slack.
        """
        rows, columns = program.shape
        column_status = np.full(columns, _AT_LOWER, dtype=object)
        row_status = np.full(rows, _BASIC, dtype=object)
        blocks, before = program.variables.blocks, self.program.variables.blocks
        _carry(
            {name: block.index for name, block in before.items()},
            np.array(self.found.col_status, dtype=object),
            {name: block.index for name, block in blocks.items()},
            column_status,
        )
        old_rows = np.array(self.found.row_status, dtype=object)
        _carry(self.program.families, old_rows, program.families, row_status)
        carried = highspy.HighsBasis()
        carried.col_status, carried.row_status = list(column_status), list(row_status)
        carried.valid = carried.alien = True
        return carried


def _carry(
    before: Mapping[str, Ints], old: StatusArray, after: Mapping[str, Ints], new: StatusArray
) -> None:
    for name, index in after.items():
        earlier = before.get(name)
        if earlier is not None and earlier.shape == index.shape:
            both = (earlier >= 0) & (index >= 0)
            new[index[both]] = old[earlier[both]]


@dataclass(frozen=True, eq=False)
class Solution:
    """An answer of the solver: a value for each column and its worth."""

    values: Floats
    worth: float
    basis: Basis | None
    column_duals: Floats


class _QuietHighs(highspy.Highs):
    """HiGHS that prints no banner, which it would do while it is being made."""

    def enableCallbacks(self) -> None:  # noqa: N802 - the name is HiGHS's own
        self.setOptionValue("output_flag", bool(0))
        super().enableCallbacks()


class Solver:
    """A program handed to HiGHS, which can be changed and solved again from where it stood."""

    def __init__(self, program: LinearProgram) -> None:
        """Hand the program over."""
        self.program = program
        self._highs = _QuietHighs()
        for option, value in (
            ("threads", 1),
            ("random_seed", 1),
            ("mip_rel_gap", GOOD_ENOUGH),
            ("dual_feasibility_tolerance", SHARP),
        ):
            self._highs.setOptionValue(option, value)
        self._highs.passModel(_model(program))

    def start_from(self, basis: Basis | None) -> None:
        """Begin from the basis of an earlier answer, of this program or one like it."""
        if basis is None:
            return
        own = basis.program is self.program
        self._highs.setBasis(basis.found if own else basis.carried_to(self.program))

    def bound(self, columns: Ints, lower: Floats, upper: Floats) -> None:
        """Change the bounds of some columns."""
        count = len(columns)
        if count:
            self._highs.changeColsBounds(count, columns.astype(np.int32), lower, upper)

    def limit(self, rows: Ints, upper: Floats) -> None:
        """Change the upper bounds of some rows."""
        for row, bound in zip(rows.tolist(), upper.tolist(), strict=True):
            self._highs.changeRowBounds(row, float(self.program.row_lower[row]), bound)

    def make_whole(self, columns: Ints, *, whole: bool = True) -> None:
        """Ask that some columns be whole numbers, or let go of that."""
        kind = highspy.HighsVarType.kInteger if whole else highspy.HighsVarType.kContinuous
        count = len(columns)
        if count:
            kinds = np.full(count, kind)
            self._highs.changeColsIntegrality(count, columns.astype(np.int32), kinds)

    def solve(self, most_nodes: int = MOST_NODES) -> Solution:
        """Solve; raises NoPlan when HiGHS ends without an answer.

        A search for whole numbers divides the program into ``most_nodes`` at most.
        """
        self._highs.setOptionValue("mip_max_nodes", most_nodes)
        self._highs.run()
        if self._highs.getModelStatus() == highspy.HighsModelStatus.kUnknown:
            # a rare program is too rough for the sharp tolerance
            self._highs.setOptionValue("dual_feasibility_tolerance", USUAL)
            self._highs.run()
            if self._highs.getModelStatus() == highspy.HighsModelStatus.kUnknown:
                # or the basis it stands on is: solved from nothing it has an answer
                self._highs.clearSolver()
                self._highs.run()
            self._highs.setOptionValue("dual_feasibility_tolerance", SHARP)
        status = self._highs.getModelStatus()
        info = self._highs.getInfo()
        found = self._highs.getSolution()
        searched = status == highspy.HighsModelStatus.kSolutionLimit
        if status != _OPTIMAL and not (searched and info.primal_solution_status == 2):
            words = self._highs.modelStatusToString(status)
            raise NoPlan(f"the solver stopped without a plan: {words}")
        basis = self._highs.getBasis()
        return Solution(
            values=np.array(found.col_value),
            worth=float(info.objective_function_value),
            basis=Basis(self.program, basis) if basis.valid else None,
            column_duals=np.array(found.col_dual),
        )


def _model(program: LinearProgram) -> highspy.HighsLp:
    rows, columns = program.shape
    model = highspy.HighsLp()
    model.num_col_, model.num_row_ = columns, rows
    model.sense_ = highspy.ObjSense.kMaximize
    model.col_cost_ = program.worth
    model.col_lower_, model.col_upper_ = program.lower, program.upper
    model.row_lower_, model.row_upper_ = program.row_lower, program.row_upper
    model.a_matrix_.format_ = highspy.MatrixFormat.kRowwise
    model.a_matrix_.start_ = program.matrix.indptr
    model.a_matrix_.index_ = program.matrix.indices
    model.a_matrix_.value_ = program.matrix.data
    return model
