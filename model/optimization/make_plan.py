"""Make the plan of a case: build the program, solve it, make loads and jars whole, read back."""

import time
from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np

from model.case import Case
from model.optimization.planning_program import FAMILIES, Family, planning_program
from model.optimization.program import LinearProgram
from model.optimization.solve import GOOD_ENOUGH, Basis, Solution, Solver
from model.optimization.whole_loads import Meant, Progress, best_whole, make_whole, round_amounts
from model.plan import Plan, SolverReport
from model.season.arrays import Bools, Floats, SeasonArrays


@dataclass(frozen=True, eq=False)
class MadePlan:
    """A plan and the place in the program from which a changed season is re-planned."""

    plan: Plan
    basis: Basis | None


def _no_progress(_: float) -> None:
    return None


def make_plan(
    case: Case,
    *,
    start: Basis | None = None,
    meant: Meant | None = None,
    families: Sequence[Family] = FAMILIES,
    progress: Progress = _no_progress,
) -> MadePlan:
    """Find the plan of a case.

    Parameters
    ----------
    meant : what an earlier plan said for these weeks, kept where that costs next to nothing.
    families : the constraints that it keeps, all of them as a rule.
    start : where an earlier plan of the same household stood; only speeds things up.
    progress : told the part that is done; may raise to stop the work.

    Raises
    ------
    NoPlan : when the solver ends without an answer.
    """

    def finish(solver: Solver, relaxed: Solution) -> Solution:
        progress(0.1)
        fixed = round_amounts(case, solver, relaxed)
        whole = make_whole(
            case, solver, fixed, lambda part: progress(0.1 + 0.8 * part), meant=meant
        )
        answer = best_whole(case, solver, fixed, whole)
        progress(1.0)
        return answer

    return _made(case, families, start, finish)


def relaxed_plan(case: Case, start: Basis | None = None) -> MadePlan:
    """Find the plan of a case with loads in parts: a quick sketch."""
    return _made(case, FAMILIES, start, lambda _, relaxed: relaxed)


class WeekSketch:
    """Sketches of a case with one number of kitchen minutes in its first week after another.

    The program is built once. A run of sketches begins with a solver of its own, each where the
    one before ended, so that what comes of a run does not hang on what was asked before it.
    """

    def __init__(
        self, case: Case, start: Basis | None = None, families: Sequence[Family] = FAMILIES
    ) -> None:
        """Build the program, and find where its runs begin."""
        began = time.perf_counter()
        self._case, self._program = case, planning_program(case, families)
        self._build_seconds = time.perf_counter() - began
        self._start = None if start is None else start.of(self._program)
        week = np.concatenate(
            [self._program.variables[name].index[:, 0] for name in ("loads", "put_up")]
        )
        self._first_week = week[week >= 0]

    def begun(self) -> Solver:
        """Begin a run of sketches."""
        solver = Solver(self._program)
        solver.start_from(self._start)
        return solver

    def plan(self, solver: Solver, minutes: float) -> Plan:
        """Find the plan with so many kitchen minutes; raises NoPlan as ``make_plan`` does."""
        began, program, columns = time.perf_counter(), self._program, self._first_week
        row = program.families["kitchen hours"][:1]
        row = row[row >= 0]
        solver.limit(row, np.full(len(row), minutes))
        solver.bound(columns, program.lower[columns], program.upper[columns])
        relaxed = solver.solve()
        answer = make_whole(self._case, solver, relaxed, _no_progress, weeks_ahead=1)
        solve_seconds = time.perf_counter() - began
        report = _report(program, answer, relaxed, self._build_seconds, solve_seconds)
        return read_plan(self._case, program, answer, report)


def _made(
    case: Case,
    families: Sequence[Family],
    start: Basis | None,
    finish: Callable[[Solver, Solution], Solution],
) -> MadePlan:
    """Build the program, solve its relaxation, finish it as asked and read the plan back."""
    began = time.perf_counter()
    program = planning_program(case, families)
    built = time.perf_counter()
    solver = Solver(program)
    solver.start_from(start)
    relaxed = solver.solve()
    answer = finish(solver, relaxed)
    report = _report(program, answer, relaxed, built - began, time.perf_counter() - built)
    return MadePlan(read_plan(case, program, answer, report), relaxed.basis)


def _report(
    program: LinearProgram, answer: Solution, relaxed: Solution, built: float, solved: float
) -> SolverReport:
    gap = max(0.0, (relaxed.worth - answer.worth) / max(1.0, abs(relaxed.worth)))
    rows, columns = program.shape
    return SolverReport(
        status="optimal" if gap <= GOOD_ENOUGH else "feasible",
        worth=answer.worth,
        bound=relaxed.worth,
        relative_gap=gap,
        variables=columns,
        constraints=rows,
        build_seconds=built,
        solve_seconds=solved,
    )


def read_plan(case: Case, program: LinearProgram, answer: Solution, report: SolverReport) -> Plan:
    """Read the decisions of an answer back into a plan."""

    def block(name: str) -> Floats:
        return np.maximum(program.variables[name].values(answer.values), 0.0)

    arrays = case.arrays
    eaten = block("eaten")
    fresh = np.zeros_like(case.demand.wanted)
    eaten_as = arrays.food_of_crop >= 0
    portions = eaten * arrays.portions_per_kg[:, None]
    np.add.at(fresh, arrays.food_of_crop[eaten_as], portions[eaten_as])
    amounts = block("area")
    loads = np.round(block("loads"))
    put_up = block("put_up")
    put_up[arrays.canned] = np.round(put_up[arrays.canned])
    return Plan(
        weeks=case.weeks,
        amounts=amounts,
        before_kg=case.before_kg,
        harvest_kg=case.forecast.kg_by_crop(amounts, len(arrays.crops)),
        eaten_kg=eaten,
        spare_kg=block("spare"),
        on_hand_kg=block("on_hand"),
        put_up=put_up,
        loads=loads,
        opened=block("opened"),
        past=block("past"),
        given=block("given"),
        shelf=_carried_on(block("shelf"), program.variables["shelf"].index >= 0, arrays),
        wanted=case.demand.wanted.copy(),
        met=block("met").sum(axis=2),
        fresh=fresh,
        report=report,
    )


def _carried_on(shelf: Floats, decided: Bools, arrays: SeasonArrays) -> Floats:
    """Leave on the shelf what stands there when the weeks to cover end."""
    for week in range(1, shelf.shape[1]):
        after = ~decided[:, week]
        kept = shelf[:, week - 1] * (1.0 - arrays.loss_per_week)
        shelf[after, week] = kept[after]
    return shelf
