"""Ways of choosing what to plant, each lived through the same fresh years.

Every way only chooses the amounts. Then one plan is made for them, as the household would
make it, and followed through years that none of the ways has seen: a program's own worth
would flatter it, because its pickings and batches foresee the season.
"""

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace

import numpy as np
from scipy.stats import bootstrap

from model.case import Case
from model.cover import CoverWindow
from model.forecast.years import sampled_harvest
from model.optimization.ground import whole_amounts, with_amounts
from model.optimization.make_plan import make_plan
from model.planting.by_hand import MARGINS, hand_amounts
from model.planting.choose import OUTLOOKS, choose_planting
from model.season.arrays import Floats
from model.simulation.lived_years import Follower, LivedYears, live_through
from model.simulation.luck import draw_kitchen_luck

Progress = Callable[[str, float], None]
MEAN_YEAR = "for the mean year"
BAD_YEAR = 0.1


@dataclass(frozen=True, eq=False)
class WayScore:
    """What came of a way in each fresh year.

    Parameters
    ----------
    amounts : shape (B,).
    met : shape (Y,), portions met of what is wanted.
    weeks_short : shape (Y,), weeks in which less than the lean share of the plate is met.
    left : shape (Y,), portions still on the shelf at the new crop.
    hours : shape (Y,), in the kitchen.
    """

    way: str
    amounts: Floats
    met: Floats
    weeks_short: Floats
    left: Floats
    hours: Floats


@dataclass(frozen=True, slots=True)
class Interval:
    """A number with the range that holds it in 95 of 100 such samples."""

    value: float
    low: float
    high: float


def score_ways(
    case: Case,
    windows: tuple[CoverWindow, ...],
    years: int,
    seed: int,
    progress: Progress = lambda _, __: None,
) -> list[WayScore]:
    """Choose the amounts in every way and live through ``years`` fresh years with each."""
    ways = dict(_amounts(case, windows, seed, progress))
    scores = []
    for done, (way, amounts) in enumerate(ways.items()):
        progress(f"Living with the plan {way}", 0.4 + 0.6 * done / len(ways))
        scores.append(_score(case, way, whole_amounts(case, amounts), years, seed))
    return scores


def _amounts(
    case: Case, windows: tuple[CoverWindow, ...], seed: int, progress: Progress
) -> Iterator[tuple[str, Floats]]:
    yield "as written down", np.clip(case.forecast.amounts, case.forecast.least, case.forecast.most)
    for margin in MARGINS:
        name = f"by hand + {margin:.0%}" if margin else "by hand"
        yield name, hand_amounts(case, windows, margin)
    for margin in MARGINS:
        less = replace(case.forecast, kg_per_unit=case.forecast.kg_per_unit / (1 + margin))
        name = f"{MEAN_YEAR} + {margin:.0%}" if margin else MEAN_YEAR
        yield name, make_plan(replace(case, forecast=less)).plan.amounts
    for number, outlook in enumerate(OUTLOOKS):
        progress(f"Choosing for {outlook}", 0.1 * (number + 1))
        yield f"for {outlook}", choose_planting(case, outlook, np.random.default_rng(seed)).amounts


def _score(case: Case, way: str, amounts: Floats, years: int, seed: int) -> WayScore:
    arrays = case.arrays
    plan = make_plan(with_amounts(case, amounts)).plan
    fresh, kitchen = np.random.default_rng(seed).spawn(2)
    harvest = sampled_harvest(case.season, case.forecast, amounts, years, fresh)
    luck = draw_kitchen_luck(
        kitchen, years, arrays.sealed_share, len(case.weeks), case.season.settings.appetite_cv
    )
    follower = Follower(plan, arrays, case.demand.cover_until, as_wanted=False)
    lived = live_through(follower, harvest, luck)
    wanted = case.demand.wanted.astype(np.float32)
    met = np.minimum(lived.met, wanted)
    plate = case.plate
    lean = case.season.settings.lean_share * wanted[plate].sum(axis=0)
    short = (met[:, plate].sum(axis=1) < lean - 1e-6) & (lean > 0)
    return WayScore(
        way=way,
        amounts=amounts,
        met=met.sum(axis=(1, 2)).astype(float),
        weeks_short=short.sum(axis=1).astype(float),
        left=_left(case, lived),
        hours=lived.minutes.sum(axis=1).astype(float) / 60,
    )


def _left(case: Case, lived: LivedYears) -> Floats:
    arrays = case.arrays
    last = np.maximum(case.demand.cover_until[arrays.food_of_preserve] - 1, 0)
    standing = lived.shelf[:, np.arange(len(arrays.preserves)), last]
    portions: Floats = standing @ arrays.portions
    return portions


def mean_difference(score: WayScore, other: WayScore) -> Interval:
    """Give the portions by which one way meets more in the mean of the same years."""
    difference = score.met - other.met
    half = 1.96 * difference.std(ddof=1) / np.sqrt(len(difference))
    return Interval(
        float(difference.mean()), float(difference.mean() - half), float(difference.mean() + half)
    )


def bad_year_difference(
    score: WayScore, other: WayScore, generator: np.random.Generator
) -> Interval:
    """Give the portions by which one way meets more in a one-in-ten bad year."""

    def difference(ours: Floats, theirs: Floats, axis: int = -1) -> Floats:
        bad: Floats = np.quantile(ours, BAD_YEAR, axis=axis) - np.quantile(
            theirs, BAD_YEAR, axis=axis
        )
        return bad

    found = bootstrap(
        (score.met, other.met),
        difference,
        paired=True,
        n_resamples=399,
        batch=50,
        method="percentile",
        rng=generator,
    )
    value = float(difference(score.met, other.met))
    return Interval(value, *map(float, found.confidence_interval))
