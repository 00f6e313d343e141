"""Building the planning program, against the same one built with a modelling library (PuLP).

``python -m tests.benchmarks.modelling`` (needs the ``benchmarks`` extra). Both are built from
the same case; the library is handed every row term by term, as its users write them.
"""

import numpy as np
import pulp

from model.case import Case, make_case
from model.optimization.planning_program import planning_program
from model.optimization.program import LinearProgram
from model.optimization.solve import Solver
from tests.benchmarks.measuring import SPRING, best_of, demo, say


def built_with_library(program: LinearProgram) -> pulp.LpProblem:
    """Write the program's terms down as named variables and expressions."""
    problem = pulp.LpProblem("plan", pulp.LpMaximize)
    upper = [None if np.isinf(bound) else bound for bound in program.upper]
    columns = [
        pulp.LpVariable(f"x{place}", low, high)
        for place, (low, high) in enumerate(zip(program.lower, upper, strict=True))
    ]
    problem += pulp.LpAffineExpression(zip(columns, program.worth.tolist(), strict=True))
    rows = program.matrix
    for row in range(rows.shape[0]):
        span = slice(rows.indptr[row], rows.indptr[row + 1])
        terms = [
            (columns[column], value)
            for column, value in zip(rows.indices[span], rows.data[span], strict=True)
        ]
        total = pulp.LpAffineExpression(terms)
        low, high = float(program.row_lower[row]), float(program.row_upper[row])
        if low == high:
            problem += total == low
        else:
            problem += total <= high if np.isfinite(high) else total >= low
    return problem


def own_program(case: Case) -> LinearProgram:
    """Build the program and hand it to the solver, without solving."""
    program = planning_program(case)
    Solver(program)
    return program


def main() -> None:
    """Print the ratio of the two builds, and that both have the same answer."""
    case = make_case(demo(), SPRING)
    own = best_of(3, lambda: own_program(case))
    library = best_of(3, lambda: built_with_library(own.value))
    problem = library.value
    worth = Solver(own.value).solve().worth
    problem.solve(pulp.HiGHS(msg=False, threads=1))
    theirs = float(pulp.value(problem.objective))
    print(f"{len(own.value.lower):,} variables, {len(own.value.row_lower):,} constraints")
    print(f"worth: own {worth:.6f}, library {theirs:.6f}")
    print(f"built: own {own.seconds:.3f} s, library {library.seconds:.3f} s")
    ratio = library.seconds / own.seconds
    say("library's build to our own", f"{ratio:.1f}x", ">= 3x", reached=ratio >= 3)


if __name__ == "__main__":
    main()
