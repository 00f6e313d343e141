"""A program's relaxation solved by SciPy, which shares nothing with the project's own door."""

import numpy as np
from scipy.optimize import OptimizeResult, linprog

from model.optimization.program import LinearProgram


def relaxation(program: LinearProgram) -> tuple[OptimizeResult, np.ndarray]:
    """Give SciPy's answer, and which rows are equations; the others are bounded from above."""
    equal = program.row_lower == program.row_upper
    found = linprog(
        -program.worth,
        A_ub=program.matrix[~equal],
        b_ub=program.row_upper[~equal],
        A_eq=program.matrix[equal],
        b_eq=program.row_upper[equal],
        bounds=np.column_stack([program.lower, program.upper]),
        method="highs",
    )
    return found, equal
