"""Batches with a set-up cost against the textbook's dynamic program, with and without a shelf life.

Wagner and Whitin 1958, twelve periods; the least cost of 864 is from memory and is worked out
again here by their recursion, which shares nothing with the optimiser. With a shelf life the
recursion may cover no more periods by one batch than the life (Hsu 2000; no table at hand).
"""

import math

import numpy as np
import pytest

from model.optimization.constraints import Constraints
from model.optimization.program import assemble
from model.optimization.solve import GOOD_ENOUGH, Solver
from model.optimization.variables import Variables

WANTED = np.array([69, 29, 36, 61, 61, 26, 34, 67, 45, 67, 79, 56], dtype=float)
SET_UP = np.array([85, 102, 102, 101, 98, 114, 105, 86, 119, 110, 98, 114], dtype=float)
HOLDING = 1.0


def by_recursion(life: int) -> float:
    """Give the least cost when a batch covers whole periods, ``life`` of them at most."""
    best = [0.0] + [math.inf] * len(WANTED)
    for end in range(1, len(WANTED) + 1):
        for begin in range(max(0, end - life), end):
            held = sum(HOLDING * (t - begin) * WANTED[t] for t in range(begin, end))
            best[end] = min(best[end], best[begin] + SET_UP[begin] + held)
    return best[-1]


def by_program(life: int) -> float:
    """Give the least cost by this project's variables, constraints and solver."""
    periods = len(WANTED)
    every = np.ones(periods, dtype=bool)
    most = np.array([WANTED[t : t + life].sum() for t in range(periods)])
    variables = Variables()
    begun = variables.add("begun", "W", every, upper=1.0)
    made = variables.add("made", "W", every)
    shelf = variables.add("shelf", "W", every)
    variables.value("begun", -SET_UP)
    variables.value("shelf", -HOLDING)
    balance = Constraints("balance", "W", (periods,))
    balance.add(made.index, 1.0)
    balance.add(shelf.index, -1.0)
    balance.add(shelf.index[:-1], 1.0, balance.index[1:])
    batches = Constraints("batches", "W", (periods,))
    batches.add(made.index, 1.0)
    batches.add(begun.index, -most)
    # what was made ``life`` periods ago must be eaten by now, the oldest first
    late = Constraints("oldest first", "W", (periods,))
    late.add(shelf.index, 1.0)
    for age in range(life - 1):
        late.add(made.index[: periods - age], -1.0, late.index[age:])
    rows = [balance.equal_to(WANTED), batches.at_most(0.0), late.at_most(0.0)]
    solver = Solver(assemble(variables, rows))
    solver.make_whole(begun.columns)
    return -solver.solve().worth


def test_twelve_periods_cost_864() -> None:
    assert by_recursion(len(WANTED)) == 864
    assert by_program(len(WANTED)) == pytest.approx(864, rel=GOOD_ENOUGH)


@pytest.mark.parametrize("life", [1, 2, 3, 5])
def test_a_shelf_life_costs_what_the_recursion_says(life: int) -> None:
    assert by_program(life) == pytest.approx(by_recursion(life), rel=GOOD_ENOUGH)
    assert by_recursion(life) >= by_recursion(life + 1)


def test_what_keeps_one_period_is_made_every_period() -> None:
    assert by_recursion(1) == SET_UP.sum()
