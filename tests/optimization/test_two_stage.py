"""Areas chosen by cuts: the textbook farmer again, and against one program of all years."""

import numpy as np
import pytest

from model.optimization.constraints import Constraints
from model.optimization.program import LinearProgram, assemble
from model.optimization.solve import Solver
from model.optimization.two_stage import (
    Ground,
    Recourse,
    Tail,
    choose_areas,
    weighed,
    worst_mean,
)
from model.optimization.variables import Variables

ORDINARY = Tail(share=1.0, weight=0.0)
MEAN_YIELD = np.array([2.5, 3.0, 20.0])


def fields() -> Ground:
    """Give the ground of the farmer's problem (Birge and Louveaux)."""
    variables = Variables()
    area = variables.add("area", "C", np.ones(3, dtype=bool))
    variables.value("area", np.array([-150.0, -230.0, -260.0]))
    land = Constraints("land", "B", (1,))
    land.add(area.index, 1.0, np.zeros(3, dtype=int))
    return Ground(variables, (land.at_most(500.0),))


def farm_year(factor: float) -> LinearProgram:
    variables = Variables()
    area = variables.add("area", "C", np.ones(3, dtype=bool))
    sold = variables.add("sold", "C", np.ones(3, dtype=bool), upper=np.array([1e9, 1e9, 6000.0]))
    bought = variables.add("bought", "C", np.array([True, True, False]))
    over = variables.add("over quota", "Q", np.ones(1, dtype=bool))
    variables.value("sold", np.array([170.0, 150.0, 36.0]))
    variables.value("bought", np.array([-238.0, -210.0, 0.0]))
    variables.value("over quota", 10.0)
    balance = Constraints("balance", "C", (3,))
    balance.add(area.index, factor * MEAN_YIELD)
    balance.add(sold.index, -1.0)
    balance.add(bought.index, 1.0)
    balance.add(over.index, -1.0, balance.index[2:])
    return assemble(variables, [balance.at_least(np.array([200.0, 240.0, 0.0]))])


def farm_years(factors: list[float]) -> list[Recourse]:
    programs = [farm_year(factor) for factor in factors]
    return [Recourse(program, program.variables["area"].columns) for program in programs]


def test_cuts_find_the_farmers_170_80_and_250_acres_for_108390() -> None:
    years = farm_years([1.2, 1.0, 0.8])
    found = choose_areas(fields(), years, ORDINARY, np.array([100.0, 100.0, 100.0]), gap=1e-9)

    assert found.areas == pytest.approx([170, 80, 250], abs=0.01)
    assert found.worth == pytest.approx(108_390, abs=1)
    assert found.bound == pytest.approx(found.worth, abs=1)


def test_a_year_s_slope_is_what_one_more_acre_is_worth() -> None:
    (year,) = farm_years([0.8])
    areas = np.array([170.0, 80.0, 250.0])
    worth, slope = year.worth(areas)
    for crop in range(3):
        more = areas.copy()
        more[crop] += 1e-3

        assert (year.worth(more)[0] - worth) / 1e-3 == pytest.approx(slope[crop], rel=1e-4)


def whole_program(factors: list[float], tail: Tail) -> float:
    """Solve the same as one program with every year in it (Rockafellar and Uryasev 2000)."""
    years = len(factors)
    variables = Variables()
    area = variables.add("area", "C", np.ones(3, dtype=bool))
    every = np.ones((years, 3), dtype=bool)
    limit = np.tile([np.inf, np.inf, 6000.0], (years, 1))
    sold = variables.add("sold", "YC", every, upper=limit)
    bought = variables.add("bought", "YC", np.tile([True, True, False], (years, 1)))
    over = variables.add("over", "Y", np.ones(years, dtype=bool))
    profit = variables.add("profit", "Y", np.ones(years, dtype=bool), lower=-np.inf)
    short = variables.add("short", "Y", np.ones(years, dtype=bool))
    threshold = variables.add("threshold", "Z", np.ones(1, dtype=bool), lower=-np.inf)
    variables.value("area", np.array([-150.0, -230.0, -260.0]))
    variables.value("profit", (1 - tail.weight) / years)
    variables.value("threshold", tail.weight)
    variables.value("short", -tail.weight / (tail.share * years))
    land = Constraints("land", "B", (1,))
    land.add(area.index, 1.0, np.zeros(3, dtype=int))
    balance = Constraints("balance", "YC", (years, 3))
    balance.add(np.tile(area.index, (years, 1)), np.array(factors)[:, None] * MEAN_YIELD)
    balance.add(sold.index, -1.0)
    balance.add(bought.index, 1.0)
    balance.add(over.index, -1.0, at=balance.index[:, 2])
    income = Constraints("income", "Y", (years,))
    income.add(profit.index, 1.0)
    at = np.broadcast_to(income.index[:, None], (years, 3))
    income.add(sold.index, np.tile([-170.0, -150.0, -36.0], (years, 1)), at)
    income.add(bought.index, np.tile([238.0, 210.0, 0.0], (years, 1)), at)
    income.add(over.index, -10.0)
    worst = Constraints("worst", "Y", (years,))
    worst.add(np.repeat(threshold.index, years), 1.0)
    worst.add(profit.index, -1.0)
    worst.add(short.index, -1.0)
    rows = [
        land.at_most(500.0),
        balance.at_least(np.tile([200.0, 240.0, 0.0], (years, 1))),
        income.at_most(0.0),
        worst.at_most(0.0),
    ]
    return Solver(assemble(variables, rows)).solve().worth


@pytest.mark.parametrize("tail", [ORDINARY, Tail(0.2, 0.5), Tail(0.1, 0.8), Tail(0.35, 1.0)])
def test_cuts_agree_with_one_program_of_all_years(tail: Tail) -> None:
    factors = np.random.default_rng(5).uniform(0.6, 1.3, size=10).tolist()
    found = choose_areas(fields(), farm_years(factors), tail, np.full(3, 100.0), gap=1e-9)

    assert found.worth == pytest.approx(whole_program(factors, tail), rel=1e-6)


def test_the_worst_share_counts_a_year_in_part() -> None:
    worths = np.array([4.0, 1.0, 3.0, 2.0])

    assert worst_mean(worths, 0.25) == 1.0
    assert worst_mean(worths, 0.5) == 1.5
    # half of the second worst year: (1 + 0.5 * 2) / 1.5
    assert worst_mean(worths, 0.375) == pytest.approx(2.0 / 1.5)
    assert weighed(worths, Tail(0.25, 0.5)) == pytest.approx(0.5 * 2.5 + 0.5 * 1.0)


def test_the_ground_is_left_as_it_was() -> None:
    ground, years = fields(), farm_years([1.2, 0.8])
    choose_areas(ground, years, ORDINARY, np.zeros(3))
    again = choose_areas(ground, years, Tail(0.5, 0.5), np.zeros(3))

    assert list(ground.variables.blocks) == ["area"]
    assert again.relative_gap <= 5e-3
