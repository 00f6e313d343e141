"""From the relaxed program to whole loads and whole jars, week by week.

The relaxation says how much of each load the best plan wants. Going through the weeks in
order, each week's clear loads are rounded; for the doubtful ones the program is solved with
one load more, and the better answer is kept. Then the week's jars are rounded down and the
weeks after it adapt. Each step starts from the answer before, so it is quick; the
relaxation's worth stays as the proven bound. Searching for the very best plan instead took
ten times as long for half a per cent (tests/benchmarks). Only where the answer stays well below
that bound is it held against two others: no loads at all, and those that a short search finds.
"""

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from model.case import Case
from model.errors import NoPlan
from model.optimization.ground import whole_amounts
from model.optimization.solve import Solution, Solver
from model.season.arrays import Floats, Ints

CLEAR_DOWN, CLEAR_UP = 0.15, 0.9
NEARLY = 1e-6
# Part of the bound that weeks taken one by one may lose before others are tried.
COARSE = 0.02
HALF_A_JAR = 0.5
FEW_NODES = 10
# Worth, in wanted portions, that a week gives up to stay as it was meant.
NEXT_TO_NOTHING = 0.5
Progress = Callable[[float], None]


@dataclass(frozen=True, eq=False)
class Meant:
    """What an earlier plan meant for these weeks: loads and units put up, shape (R, W).

    Not a number where it said nothing.
    """

    loads: Floats
    put_up: Floats


def round_amounts(case: Case, solver: Solver, relaxed: Solution) -> Solution:
    """Fix the plantings at whole plants and tenths of m2 or metres, never below their least."""
    area = solver.program.variables["area"]
    rounded = whole_amounts(case, area.values(relaxed.values))
    solver.bound(area.columns, rounded, rounded)
    return solver.solve()


def make_whole(
    case: Case,
    solver: Solver,
    relaxed: Solution,
    progress: Progress,
    *,
    weeks_ahead: int | None = None,
    meant: Meant | None = None,
) -> Solution:
    """Round the loads and the canned jars of every week, or of the first ``weeks_ahead``.

    Where an earlier plan's are worth almost as much, they stay. Returns the last answer.
    """
    variables = solver.program.variables
    loads, put_up = variables["loads"].index, variables["put_up"].index
    answer = relaxed
    weeks = np.flatnonzero(
        ((loads >= 0) | ((put_up >= 0) & case.arrays.canned[:, None])).any(axis=0)
    )
    for done, week in enumerate(weeks if weeks_ahead is None else weeks[weeks < weeks_ahead]):
        progress(done / len(weeks))
        columns = loads[:, week][loads[:, week] >= 0]
        if len(columns):
            kept = None if meant is None else meant.loads[loads[:, week] >= 0, week]
            answer = _round_loads(solver, columns, answer, kept)
        filled = case.arrays.canned & (put_up[:, week] >= 0)
        jars = put_up[filled, week]
        if len(jars):
            kept = None if meant is None else meant.put_up[filled, week]
            answer = _round_jars(solver, jars, answer, kept)
    progress(1.0)
    return answer


def best_whole(
    case: Case, solver: Solver, relaxed: Solution, answer: Solution, *, search: bool = True
) -> Solution:
    """Give the best of whole loads: those of an answer, none at all, and what a search finds.

    Only where the answer's worth stays well below that of the ``relaxed`` program; the search
    is a short one, and is not made without ``search``.
    """
    if answer.worth >= relaxed.worth - COARSE * abs(relaxed.worth):
        return answer
    variables = solver.program.variables
    loads, put_up = variables["loads"].columns, variables["put_up"].index
    jars = put_up[case.arrays.canned]
    weeks = [column[column >= 0] for column in jars.T]
    taken = answer.values[loads], [answer.values[week] for week in weeks]
    others = [np.zeros(len(loads))]
    if search:
        others += _searched(solver, loads, jars[jars >= 0])
    for whole in others:
        _free(solver, jars[jars >= 0])
        found = fixed_at(solver, loads, whole)
        if found is None:
            continue
        for week in weeks:
            found = _round_jars(solver, week, found, None) if len(week) else found
        if found.worth > answer.worth + NEXT_TO_NOTHING:
            answer, taken = found, (found.values[loads], [found.values[week] for week in weeks])
    bounds = np.concatenate([taken[0], *taken[1]])
    columns = np.concatenate([loads, *weeks])
    solver.bound(columns, np.round(bounds), np.round(bounds))
    return solver.solve()


def _searched(solver: Solver, loads: Ints, jars: Ints) -> list[Floats]:
    """Give the loads that a short search finds, if it finds any."""
    _free(solver, np.concatenate([loads, jars]))
    solver.make_whole(loads)
    try:
        return [np.round(solver.solve(most_nodes=FEW_NODES).values[loads])]
    except NoPlan:
        return []
    finally:
        solver.make_whole(loads, whole=False)


def _free(solver: Solver, columns: Ints) -> None:
    solver.bound(columns, solver.program.lower[columns], solver.program.upper[columns])


def _kept(
    solver: Solver, columns: Ints, kept: Floats | None, answer: Solution, best: float
) -> Solution | None:
    """Give the answer with what an earlier plan meant, if that costs next to nothing."""
    if kept is None or not np.isfinite(kept).all() or (kept != np.round(kept)).any():
        return None
    if (np.abs(answer.values[columns] - kept) < NEARLY).all():
        solver.bound(columns, kept, kept)
        return answer
    found = fixed_at(solver, columns, kept)
    return found if found is not None and found.worth >= best - NEXT_TO_NOTHING else None


def _round_loads(solver: Solver, columns: Ints, answer: Solution, kept: Floats | None) -> Solution:
    wanted = answer.values[columns]
    whole = np.floor(wanted + 1e-6)
    part = wanted - whole
    whole = whole + (part >= CLEAR_UP)
    doubtful = [i for i in np.argsort(-part, kind="stable") if CLEAR_DOWN <= part[i] < CLEAR_UP]
    solver.bound(columns, whole, whole)
    if not doubtful and (np.abs(wanted - whole) < 1e-6).all():
        return answer
    best = fixed_at(solver, columns, whole)
    if best is None:  # rounding up ran out of hours: take the whole loads only
        whole = np.floor(wanted + 1e-6)
        solver.bound(columns, whole, whole)
        best = solver.solve()
    for i in doubtful:
        more = whole.copy()
        more[i] += 1.0
        found = fixed_at(solver, columns, more)
        if found is not None and found.worth > best.worth + 1e-7:
            whole, best = more, found
    same = None if kept is None else _kept(solver, columns, kept, best, best.worth)
    if same is not None:
        return same
    solver.bound(columns, whole, whole)
    return best if not doubtful else solver.solve()


def _round_jars(solver: Solver, jars: Ints, answer: Solution, kept: Floats | None) -> Solution:
    found, filled = answer, np.floor(answer.values[jars] + NEARLY)
    if (np.abs(answer.values[jars] - filled) >= NEARLY).any():
        found, filled = _filled(solver, jars, answer.values[jars])
    same = _kept(solver, jars, kept, found, found.worth)
    if same is not None:
        return same
    solver.bound(jars, filled, filled)
    return found if found is answer else solver.solve()


def _filled(solver: Solver, jars: Ints, wanted: Floats) -> tuple[Solution, Floats]:
    """Take the jars down to whole ones, and those up again that bring more so."""
    filled = np.floor(wanted + NEARLY)
    found = fixed_at(solver, jars, filled)
    if found is None:  # the last jar lay just above what the harvest fills
        filled = np.maximum(np.floor(wanted - NEARLY), 0.0)
        solver.bound(jars, filled, filled)
        found = solver.solve()
    part = wanted - filled
    for i in np.argsort(-part, kind="stable"):
        more = filled.copy()
        more[i] += 1.0
        fuller = fixed_at(solver, jars, more) if part[i] >= HALF_A_JAR else None
        if fuller is not None and fuller.worth > found.worth:
            found, filled = fuller, more
    return found, filled


def fixed_at(solver: Solver, columns: Ints, whole: Floats) -> Solution | None:
    """Give the answer with some columns fixed; None where there is none."""
    solver.bound(columns, whole, whole)
    try:
        return solver.solve()
    except NoPlan:
        return None
