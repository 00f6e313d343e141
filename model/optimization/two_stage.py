"""Areas chosen before the season is known: the best for many years, the bad ones weighted.

``max (1 - weight) mean_s Q_s(area) + weight CVaR_share Q_s(area)``, where ``Q_s(area)`` is
what year ``s`` is worth with the best pickings, batches and openings for it, and
``CVaR_share`` the mean over the worst share of years (Rockafellar and Uryasev 2000). Solved
by cuts, the L-shaped method with one cut a year (Van Slyke and Wets 1969; Birge and
Louveaux): every year's program is kept and solved again from where it stood.
"""

import copy
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

import numpy as np

from model.optimization.constraints import Constraints
from model.optimization.program import LinearProgram, assemble
from model.optimization.solve import Solver
from model.optimization.variables import Variables
from model.season.arrays import Floats, Ints

Progress = Callable[[float], None]
MOST_ROUNDS = 60
GAP = 5e-3


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


@dataclass(frozen=True, eq=False)
class Ground:
    """What can be grown where: the block ``area`` of some variables, and rows that bind it."""

    variables: Variables
    rows: tuple[Constraints, ...]


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
    ground: Ground,
    years: Sequence[Recourse],
    tail: Tail,
    start: Floats,
    *,
    gap: float = GAP,
    progress: Progress = lambda _: None,
) -> TwoStage:
    """Choose areas for all years at once.

    Parameters
    ----------
    start : shape (B,), areas to begin from.
    gap : stop when better areas could be worth no more than this part.
    progress : told the part that is done; may raise to stop.
    """
    cost = ground.variables.worth[ground.variables["area"].columns]
    cuts = _Cuts(ground, len(years), tail)
    found = TwoStage(start, -np.inf, np.inf, np.zeros(len(years)), 0)
    areas = start
    for rounds in range(1, MOST_ROUNDS + 1):
        asked = [year.worth(areas) for year in years]
        worths = np.array([worth for worth, _ in asked])
        reached = float(cost @ areas) + weighed(worths, tail)
        if reached > found.worth:
            found = replace(found, areas=areas, worth=reached, year_worth=worths)
        cuts.add(areas, worths, np.array([slope for _, slope in asked]))
        areas, bound = cuts.best()
        found = replace(found, bound=bound, rounds=rounds)
        progress(min(1.0, gap / max(found.relative_gap, 1e-9)))
        if found.relative_gap <= gap:
            break
    return found


def weighed(worths: Floats, tail: Tail) -> float:
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

    def __init__(self, ground: Ground, years: int, tail: Tail) -> None:
        self._ground, self._years = ground, years
        self._variables = variables = copy.deepcopy(ground.variables)
        every = np.ones(years, dtype=bool)
        variables.add("year", "S", every, lower=-np.inf)
        variables.add("short of", "S", every)
        variables.add("threshold", "", np.ones((), dtype=bool), lower=-np.inf)
        variables.value("year", (1 - tail.weight) / years)
        variables.value("threshold", tail.weight)
        variables.value("short of", -tail.weight / (tail.share * years))
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
        rows = [*self._ground.rows, cuts.at_most(np.array(self._right)), tail.at_most(0.0)]
        answer = Solver(assemble(variables, rows)).solve()
        return variables["area"].values(answer.values), answer.worth
