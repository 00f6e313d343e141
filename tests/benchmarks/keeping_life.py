"""Keeping life as one row a week against a column for every age of every preserve.

``python -m tests.benchmarks.keeping_life``. Both are solved cold by HiGHS through SciPy in
the same run and must give the same worth.
"""

from dataclasses import replace

import numpy as np
from scipy import sparse

from model.case import Case, make_case
from model.optimization.planning_program import planning_program
from model.optimization.program import LinearProgram
from tests.benchmarks.measuring import SPRING, best_of, demo, say
from tests.benchmarks.program import relaxation


class Cohorts:
    """Columns and rows that follow every batch of a preserve by its age."""

    def __init__(self, program: LinearProgram) -> None:
        """Begin with the program's columns."""
        self.program = program
        self.columns = program.shape[1]
        self.entries: list[tuple[int, int, float]] = []
        self.right: list[float] = []
        self.most: list[float] = []

    def row(self, entries: list[tuple[int, float]], right: float) -> None:
        """Add an equation."""
        self.entries += [(len(self.right), column, factor) for column, factor in entries]
        self.right.append(right)

    def column(self) -> int:
        """Add a decision that is not below nothing."""
        self.most.append(np.inf)
        self.columns += 1
        return self.columns - 1


def by_cohorts(case: Case, program: LinearProgram) -> LinearProgram:
    """Give the program with cohorts in place of the keeping-life rows."""
    arrays, index = case.arrays, {n: b.index for n, b in program.variables.blocks.items()}
    cohorts = Cohorts(program)
    for r in range(len(arrays.preserves)):
        weeks = np.flatnonzero(index["shelf"][r] >= 0)
        if not len(weeks):
            continue
        kept, life = 1 - arrays.loss_per_week[r], int(arrays.keeps_weeks[r])
        taken: dict[int, list[int]] = {int(week): [] for week in weeks}
        batches = [(int(w), int(w) + life, -1.0) for w in weeks if index["put_up"][r, w] >= 0]
        batches += [(0, ends, amount) for ends, amount in opening_batches(case, r)]
        for made, ends, amount in batches:
            before = -1
            for week in range(made, min(ends, int(weeks[-1]) + 1)):
                stands, used = cohorts.column(), cohorts.column()
                entries = [(stands, 1.0), (used, 1.0)]
                right = 0.0
                if before >= 0:
                    entries.append((before, -kept))
                elif amount < 0:
                    entries.append((int(index["put_up"][r, made]), -arrays.sealed_share[r]))
                else:
                    right = amount * kept
                cohorts.row(entries, right)
                taken[week].append(used)
                before = stands
            if ends <= int(weeks[-1]) and before >= 0:
                past = cohorts.column()
                cohorts.row([(before, kept), (past, -1.0)], 0.0)
                taken[ends].append(past)
        old = kept * sum(amount for _, ends, amount in batches if ends <= 0 and amount > 0)
        for week, used in taken.items():
            gone = [int(index[name][r, week]) for name in ("opened", "past", "given")]
            entries = [(column, 1.0) for column in gone if column >= 0]
            in_hand = old if week == 0 else 0.0
            cohorts.row([*entries, *((column, -1.0) for column in used)], in_hand)
    return _joined(program, cohorts)


def opening_batches(case: Case, r: int) -> list[tuple[int, float]]:
    """Split the opening stock of a preserve by the week in which it is past its life."""
    arrays = case.arrays
    kept = 1 - arrays.loss_per_week[r]
    fresh = arrays.opening_left[r] / kept ** (np.arange(len(arrays.weeks)) + 1)
    drops = -np.diff(np.concatenate([[arrays.opening_units[r]], fresh, [0.0]]))
    return [(week, float(drop)) for week, drop in enumerate(drops) if drop > 1e-9]


def _joined(program: LinearProgram, cohorts: Cohorts) -> LinearProgram:
    rows, columns, factors = zip(*cohorts.entries, strict=True)
    more = cohorts.columns - program.shape[1]
    added = sparse.csr_array(
        (factors, (rows, columns)), shape=(len(cohorts.right), cohorts.columns)
    )
    ageing = program.families["eaten while good"]
    keep = np.setdiff1d(np.arange(program.shape[0]), ageing[ageing >= 0])
    old = sparse.csr_array(program.matrix[keep])
    old.resize((len(keep), cohorts.columns))
    return replace(
        program,
        worth=np.concatenate([program.worth, np.zeros(more)]),
        lower=np.concatenate([program.lower, np.zeros(more)]),
        upper=np.concatenate([program.upper, np.full(more, np.inf)]),
        matrix=sparse.csr_array(sparse.vstack([old, added], format="csr")),
        row_lower=np.concatenate([program.row_lower[keep], cohorts.right]),
        row_upper=np.concatenate([program.row_upper[keep], cohorts.right]),
    )


def main() -> None:
    """Print the comparison."""
    case = make_case(demo(), SPRING)
    program = planning_program(case)
    aged = by_cohorts(case, program)
    rows = best_of(3, lambda: relaxation(program))
    cohorts = best_of(1, lambda: relaxation(aged))
    print(f"rows: {program.shape[1]:,} variables, {rows.seconds:.2f} s, worth {rows.value:.6f}")
    print(f"cohorts: {aged.shape[1]:,} variables, {cohorts.seconds:.2f} s, {cohorts.value:.6f}")
    same = abs(rows.value - cohorts.value) <= 1e-6 * abs(rows.value)
    ratio = cohorts.seconds / rows.seconds
    say("cohorts / rows", f"{ratio:.1f}x", ">= 3x", reached=ratio >= 3)
    say("worth is the same to 1e-6", "yes" if same else "no", "yes", reached=same)


if __name__ == "__main__":
    main()
