"""Areas chosen before the season is known: the best for many years, the bad ones weighted.

``max (1 - weight) mean_s Q_s(area) + weight CVaR_share Q_s(area)``, where ``Q_s(area)`` is
what year ``s`` is worth with the best pickings, batches and openings for it, and
``CVaR_share`` the mean over the worst share of years (Rockafellar and Uryasev 2000). Solved
by cuts, the L-shaped method with one cut a year (Van Slyke and Wets 1969; Birge and
Louveaux): every year's program is kept and solved again from where it stood.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np

from model.optimization.constraints import Constraints
from model.optimization.program import LinearProgram, assemble
from model.optimization.solve import Solver
from model.optimization.variables import Variables
from model.season.arrays import Floats, Ints

Progress = Callable[[float], None]
MOST_ROUNDS = 60


@dataclass(frozen=True, slots=True)
class Tail:
    """How much the bad years weigh: ``weight`` on the mean of the worst ``share`` of years."""

    share: float
    weight: float


@dataclass(frozen=True, eq=False)
class TwoStage:
    """Areas with their worth over the years that they were chosen for.

    Parameters
    ----------
    areas : shape (B,).
    worth : the objective reached; ``bound`` is proven not to be exceeded.
    year_worth : shape (S,), what each year is worth with these areas.
    """

    areas: Floats
    worth: float
    bound: float
    year_worth: Floats
    rounds: int

    @property
    def relative_gap(self) -> float:
        """Give the part of the worth by which better areas could still exist."""
        return max(0.0, (self.bound - self.worth) / max(1.0, abs(self.worth)))


class Recourse:
    """One year's program, asked again and again what it is worth with other areas."""

    def __init__(self, program: LinearProgram, area: Ints) -> None:
        """Keep the program with the solver; ``area`` lists the columns fixed from outside."""
        self._solver, self._area = Solver(program), area

    def worth(self, areas: Floats) -> tuple[float, Floats]:
        """Give the year's worth and its slope in every area."""
        self._solver.bound(self._area, areas, areas)
        answer = self._solver.solve()
        return answer.worth, answer.column_duals[self._area]


def choose_areas(
    land: Constraints,
    area: Variables,
    years: Sequence[Recourse],
    tail: Tail,
    start: Floats,
    *,
    gap: float = 5e-3,
    progress: Progress = lambda _: None,
) -> TwoStage:
    """Choose the block ``area`` of some variables within ``land`` for all years at once.

    Parameters
    ----------
    land : rows that the areas alone must keep.
    start : shape (B,), areas to begin from.
    progress : told the part that is done; may raise to stop.
    """
    cuts = _Cuts(land, area, len(years), tail)
    best, areas, bound = None, start, np.inf
    for round_number in range(1, MOST_ROUNDS + 1):
        found = [year.worth(areas) for year in years]
        worths = np.array([worth for worth, _ in found])
        reached = objective(worths, tail)
        if best is None or reached > best.worth:
            best = TwoStage(areas, reached, bound, worths, round_number)
        cuts.add(areas, worths, np.array([slope for _, slope in found]))
        areas, bound = cuts.best()
        best = TwoStage(best.areas, best.worth, bound, best.year_worth, round_number)
        progress(min(1.0, gap / max(best.relative_gap, 1e-9)))
        if best.relative_gap <= gap:
            break
    return best


def objective(worths: Floats, tail: Tail) -> float:
    """Give the mean of the years, mixed with the mean of the worst share of them."""
    return float((1 - tail.weight) * worths.mean() + tail.weight * worst_mean(worths, tail.share))


def worst_mean(worths: Floats, share: float) -> float:
    """Give the mean of the worst share of years; a year may count in part."""
    ordered = np.sort(worths)
    count = share * len(ordered)
    weights = np.clip(count - np.arange(len(ordered)), 0.0, 1.0)
    return float(ordered @ weights / count)


class _Cuts:
    """The areas' own program, with what is known so far of every year's worth."""

    def __init__(self, land: Constraints, area: Variables, years: int, tail: Tail) -> None:
        self._land, self._years = land, years
        self._variables = area
        every = np.ones(years, dtype=bool)
        anything = {"lower": -np.inf}
        area.add("year", "S", every, **anything)
        area.add("short of", "S", every)
        area.add("threshold", "", np.ones((), dtype=bool), **anything)
        area.value("year", (1 - tail.weight) / years)
        area.value("threshold", tail.weight)
        area.value("short of", -tail.weight / (tail.share * years))
        self._right: list[Floats] = []
        self._slopes: list[Floats] = []

    def add(self, areas: Floats, worths: Floats, slopes: Floats) -> None:
        """Remember ``year_s <= worth_s + slope_s (area - areas)``."""
        self._right.append(worths - slopes @ areas)
        self._slopes.append(slopes)

    def best(self) -> tuple[Floats, float]:
        """Give the areas that look best by the cuts, and the bound that they prove."""
        variables, rounds = self._variables, len(self._right)
        area, year = variables["area"].index, variables["year"].index
        cuts = Constraints("cuts", "KS", (rounds, self._years))
        cuts.add(np.broadcast_to(year, cuts.shape), 1.0)
        slopes = np.array(self._slopes)
        everywhere = (rounds, self._years, len(area))
        cuts.add(
            np.broadcast_to(area, everywhere),
            -slopes,
            np.broadcast_to(cuts.index[:, :, None], everywhere),
        )
        tail = Constraints("worst years", "S", (self._years,))
        tail.add(variables["threshold"].index, 1.0, tail.index)
        tail.add(year, -1.0)
        tail.add(variables["short of"].index, -1.0)
        rows = [self._land, cuts.at_most(np.array(self._right)), tail.at_most(0.0)]
        answer = Solver(assemble(variables, rows)).solve()
        return variables["area"].values(answer.values), answer.worth
