"""Textbook optima, built with this project's own variables, constraints and solver."""

import numpy as np
import pytest
from scipy.stats import norm

from model.optimization.constraints import Constraints
from model.optimization.program import assemble
from model.optimization.solve import Solver
from model.optimization.variables import Variables

# Birge and Louveaux, Introduction to Stochastic Programming, the farmer's problem:
# wheat, corn, sugar beets on 500 acres; three equally likely years with yields 20 % above
# the mean, at it, and 20 % below.
MEAN_YIELD = np.array([2.5, 3.0, 20.0])
PLANTING_COST = np.array([150.0, 230.0, 260.0])
BOUGHT_AT = np.array([238.0, 210.0])
SOLD_AT = np.array([170.0, 150.0, 36.0])
NEEDED = np.array([200.0, 240.0])
QUOTA, OVER_QUOTA_AT = 6000.0, 10.0
FACTORS = np.array([1.2, 1.0, 0.8])


def farm(factors: np.ndarray, acres: np.ndarray | None = None) -> tuple[float, np.ndarray]:
    """Give the best expected profit over years, and the acres; ``acres`` fixes them."""
    years = len(factors)
    variables = Variables()
    lower, upper = (0.0, np.inf) if acres is None else (acres, acres)
    area = variables.add("area", "C", np.ones(3, dtype=bool), lower=lower, upper=upper)
    everywhere = np.ones((years, 3), dtype=bool)
    limit = np.tile([np.inf, np.inf, QUOTA], (years, 1))
    sold = variables.add("sold", "YC", everywhere, upper=limit)
    bought = variables.add("bought", "YC", np.tile([True, True, False], (years, 1)))
    over = variables.add("over quota", "Y", np.ones(years, dtype=bool))
    variables.value("area", -PLANTING_COST)
    variables.value("sold", np.tile(SOLD_AT, (years, 1)) / years)
    variables.value("bought", -np.tile([*BOUGHT_AT, 0.0], (years, 1)) / years)
    variables.value("over quota", OVER_QUOTA_AT / years)

    land = Constraints("land", "B", (1,))
    land.add(area.index, 1.0, np.zeros(3, dtype=int))
    balance = Constraints("balance", "YC", (years, 3))
    balance.add(np.tile(area.index, (years, 1)), factors[:, None] * MEAN_YIELD)
    balance.add(sold.index, -1.0)
    balance.add(bought.index, 1.0)
    balance.add(over.index, -1.0, at=balance.index[:, 2])
    needs = np.tile([*NEEDED, 0.0], (years, 1))
    program = assemble(variables, [land.at_most(500.0), balance.at_least(needs)])
    answer = Solver(program).solve()
    return answer.worth, area.values(answer.values)


def test_the_farmer_plants_170_80_and_250_acres_for_108390() -> None:
    profit, acres = farm(FACTORS)

    assert profit == pytest.approx(108_390, abs=1)
    assert acres == pytest.approx([170, 80, 250], abs=0.01)


def test_the_plan_for_the_mean_year_earns_107240() -> None:
    _, mean_acres = farm(np.ones(1))
    profit, _ = farm(FACTORS, mean_acres)

    assert mean_acres == pytest.approx([120, 80, 300], abs=0.01)
    assert profit == pytest.approx(107_240, abs=1)


def test_knowing_the_year_beforehand_is_worth_7016() -> None:
    known = np.mean([farm(np.array([factor]))[0] for factor in FACTORS])

    assert known - farm(FACTORS)[0] == pytest.approx(7_016, abs=1)


@pytest.mark.parametrize(("short", "left"), [(3.0, 1.0), (1.0, 1.0), (1.0, 4.0)])
def test_jars_to_fill_for_an_uncertain_want_follow_the_newsvendor_fractile(
    short: float, left: float
) -> None:
    """The best number of jars is the short / (short + left) quantile of the want.

    Arrow, Harris and Marschak 1951; any inventory textbook.
    """
    generator = np.random.default_rng(3)
    want = np.sort(generator.gamma(9.0, 5.0, size=399))
    variables = Variables()
    fill = variables.add("fill", "R", np.ones(1, dtype=bool))
    missing = variables.add("missing", "Y", np.ones(len(want), dtype=bool))
    over = variables.add("over", "Y", np.ones(len(want), dtype=bool))
    variables.value("missing", -short / len(want))
    variables.value("over", -left / len(want))
    balance = Constraints("balance", "Y", (len(want),))
    balance.add(np.repeat(fill.index, len(want)), 1.0)
    balance.add(missing.index, 1.0)
    balance.add(over.index, -1.0)
    program = assemble(variables, [balance.equal_to(want)])
    filled = fill.values(Solver(program).solve().values)[0]

    # 399 wants: the fractile falls on one of them
    fractile = short / (short + left)
    quantile = np.quantile(want, fractile, method="inverted_cdf")
    assert filled == pytest.approx(quantile, abs=1e-6)
    assert (want <= filled).mean() == pytest.approx(fractile, abs=1 / 399 + 1e-9)


def test_what_keeps_one_week_is_stocked_as_the_textbook_says() -> None:
    """A weekly paper, worth nothing but its returns after a week: order 15.24, about 15.

    Nahmias, Production and Operations Analysis, the newsvendor example: want normal with mean
    11.73 and standard deviation 4.74, bought at 25 cents, sold at 75, taken back at 10; the
    answer (z = 0.74 for the fractile 0.77) is from memory, the fractile is worked out here.
    """
    short, left = 75.0 - 25.0, 25.0 - 10.0
    points = 4001
    want = norm.ppf((np.arange(points) + 0.5) / points, 11.73, 4.74)
    variables = Variables()
    bought = variables.add("bought", "R", np.ones(1, dtype=bool))
    missing = variables.add("missing", "Y", np.ones(points, dtype=bool))
    past = variables.add("past", "Y", np.ones(points, dtype=bool))
    variables.value("missing", -short / points)
    variables.value("past", -left / points)
    balance = Constraints("balance", "Y", (points,))
    balance.add(np.repeat(bought.index, points), 1.0)
    balance.add(missing.index, 1.0)
    balance.add(past.index, -1.0)
    answer = Solver(assemble(variables, [balance.equal_to(want)])).solve()
    ordered = bought.values(answer.values)[0]

    assert ordered == pytest.approx(norm.ppf(short / (short + left), 11.73, 4.74), abs=0.01)
    assert ordered == pytest.approx(15.24, abs=0.05)
