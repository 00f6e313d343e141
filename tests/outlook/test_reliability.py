"""Of the foods of which a chance is stated, so many of a hundred do last: within 5 points.

Each made-up household has counted for two years; the truth that the plan does not know (how
much it eats, when, and its moods) is lived through many times by formulas of this test's own.
"""

from dataclasses import replace
from datetime import date

import numpy as np
import pytest

from model.forecast.years import sampled_harvest
from model.outlook.lasting import lasting, winter_stretch
from model.planning import PlannedSeason, plan_season
from model.season.kitchen import Counted
from tests.learning.households import OF, TODAY, Household, household

HOUSEHOLDS, YEARS, BINS = 600, 400, 4
WEEKS_TO_LAST, EATERS = 38, 2
POINTS = 0.05


def with_shelf(own: Household, generator: np.random.Generator) -> tuple[PlannedSeason, np.ndarray]:
    """Plan a winter on a shelf of nine tenths to 1.7 times what it needs; nothing is put up.

    What was put up since the last count goes from the record: with another shelf in its place,
    those weeks say nothing of eating.
    """
    season, counts, units = own.season, own.season.counts, []
    last = max(count.day for count in counts)
    batches = tuple(one for one in season.record.batches if one.put_up <= last)
    season = replace(season, record=replace(season.record, batches=batches, seal_checks=()))
    for food in season.foods:
        preserve = season.preserve(OF[food.name])
        needed = food.portions_a_week * EATERS * WEEKS_TO_LAST / preserve.portions
        units.append(round(needed * generator.uniform(0.9, 1.7)))
        counts = tuple(c for c in counts if (c.day, c.preserve) != (TODAY, preserve.name))
        counts += (Counted(TODAY, preserve.name, units[-1], date(2027, 9, 15)),)
    idle = tuple(replace(stretch, hours_a_week=0.0) for stretch in season.kitchen_hours)
    season = replace(season, counts=counts, kitchen_hours=idle)
    return plan_season(season, TODAY, years=300), np.array(units)


def lasts_in_truth(
    own: Household, planned: PlannedSeason, units: np.ndarray, generator: np.random.Generator
) -> list[float]:
    """Give the share of true years in which each food lasts to its new crop."""
    case, weeks = planned.case, len(planned.case.weeks)
    of_year = [min(51, (day.timetuple().tm_yday - 1) // 7) for day in case.weeks.mondays]
    notes = case.demand.usual / case.use.factors(case.weeks)
    amounts = planned.plan.amounts
    gardens = sampled_harvest(case.season, case.forecast, amounts, YEARS, generator).astype(float)
    this_year = 1 + 0.06 * generator.standard_normal((YEARS, 1))
    shares = []
    for f, food in enumerate(case.season.foods):
        _, ends = winter_stretch(planned, f) or (0, weeks)
        want = np.maximum(0, own.factor[f][of_year] * notes[f]) * this_year
        fresh = np.minimum(want, gardens[:, f] * case.arrays.portions_per_kg[f])
        moods = np.exp(0.1 * generator.standard_normal((YEARS, weeks // 7 + 1)))
        eaten = moods[:, np.arange(weeks) // 7] * (want - fresh)
        portions = units[f] * case.season.preserve(OF[food.name]).portions
        shares.append(float((eaten[:, :ends].sum(axis=1) <= portions).mean()))
    return shares


@pytest.fixture(scope="module")
def stated_and_true() -> np.ndarray:
    """Give the stated chance and the true share of every food of every household; (N, 2)."""
    pairs = []
    for seed in range(HOUSEHOLDS):
        generator = np.random.default_rng(seed)
        own = household(generator)
        planned, units = with_shelf(own, generator)
        stated = [lasting(planned, f).chance for f in range(len(units))]
        pairs += zip(stated, lasts_in_truth(own, planned, units, generator), strict=True)
    return np.array(pairs)


def test_a_stated_chance_comes_true_so_often(stated_and_true: np.ndarray) -> None:
    stated, true = stated_and_true.T
    bins = np.minimum((stated * BINS).astype(int), BINS - 1)

    for part in range(BINS):
        own = bins == part
        assert own.sum() >= 40
        assert true[own].mean() == pytest.approx(stated[own].mean(), abs=POINTS), part


def test_certainty_is_only_stated_of_what_is_nearly_sure(stated_and_true: np.ndarray) -> None:
    stated, true = stated_and_true.T

    assert true[stated >= 0.99].mean() >= 0.97
    assert true[stated <= 0.01].mean() <= 0.03
