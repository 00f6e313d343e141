"""The planning program: building, planning and planning again, against its cold relaxation.

``python -m tests.benchmarks.program``. The reference, measured in the same run, is HiGHS
through ``scipy.optimize.milp`` on the same program without whole numbers, from scratch.
"""

import time

import numpy as np
from scipy.optimize import Bounds, LinearConstraint, milp

import model
from model.case import Case, make_case
from model.optimization.make_plan import make_plan, read_plan
from model.optimization.planning_program import planning_program
from model.optimization.program import LinearProgram
from model.optimization.solve import Solution, Solver
from model.plan import SolverReport
from tests.benchmarks.measuring import SPRING, best_of, demo, say

NO_REPORT = SolverReport("", 0.0, 0.0, 0.0, 0, 0, 0.0, 0.0)


def relaxation(program: LinearProgram) -> float:
    """Solve the relaxation cold through SciPy; gives its worth."""
    rows = LinearConstraint(program.matrix, program.row_lower, program.row_upper)
    bounds = Bounds(program.lower, program.upper)
    return -float(milp(-program.worth, constraints=rows, bounds=bounds).fun)


def searched(program: LinearProgram, bound: float) -> tuple[float, float]:
    """Search for whole loads by branch and bound; gives seconds and the gap to the bound."""
    solver = Solver(program)
    solver.solve()
    solver.make_whole(program.variables["loads"].columns)
    began = time.perf_counter()
    worth = solver.solve().worth
    return time.perf_counter() - began, (bound - worth) / bound


def answer_of(program: LinearProgram) -> Solution:
    """Give the relaxation's answer with every value."""
    return Solver(program).solve()


def changed(case: Case) -> Case:
    """Give the case after one edit: half of the paste tomatoes are gone."""
    loss = model.Change(losses=(("paste tomato", 0.5),))
    return make_case(model.changed_season(case.season, loss, SPRING), SPRING)


def main() -> None:
    """Print the table."""
    case = make_case(demo(), SPRING)
    built = best_of(5, lambda: planning_program(case))
    program = built.value
    cold = best_of(3, lambda: relaxation(program))
    own = best_of(3, lambda: answer_of(program))
    read = best_of(5, lambda: read_plan(case, program, own.value, NO_REPORT))
    rows, columns = program.shape
    print(f"{columns:,} variables, {rows:,} constraints, {program.matrix.nnz:,} non-zeros")
    print(f"relaxation, cold: SciPy {cold.seconds:.2f} s, own door {own.seconds:.2f} s")
    share = (built.seconds + read.seconds) / cold.seconds
    say("build and read back / cold relaxation", f"{share:.1%}", "<= 5 %", reached=share <= 0.05)

    made = best_of(3, lambda: make_plan(case))
    report = made.value.plan.report
    ratio = made.seconds / cold.seconds
    measured = f"{ratio:.2f}x, gap {report.relative_gap:.2%}"
    say("plan in whole jars and loads / cold relaxation", measured, "<= 1.5x", reached=ratio <= 1.5)
    worth = report.relative_gap
    say("whole season against the proven bound", f"{worth:.2%}", "<= 2.5 %", reached=worth <= 0.025)
    seconds, gap = searched(program, cold.value)
    print(f"for comparison, branch and bound on the loads alone: {seconds:.1f} s, gap {gap:.2%}")

    after = changed(case)
    program_after = planning_program(after)
    again = best_of(3, lambda: _warm(program_after, own.value))
    ratio = again.seconds / cold.seconds
    say("relaxation after one edit, warm / cold", f"{ratio:.3f}x", "<= 0.1x", reached=ratio <= 0.1)
    assert np.isclose(again.value, relaxation(program_after), rtol=1e-6)
    replanned = best_of(3, lambda: make_plan(after, start=made.value.basis))
    print(f"whole plan after one edit: {replanned.seconds:.2f} s, at first {made.seconds:.2f} s")


def _warm(program: LinearProgram, before: Solution) -> float:
    solver = Solver(program)
    solver.start_from(before.basis)
    return solver.solve().worth


if __name__ == "__main__":
    main()
