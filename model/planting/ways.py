"""Ways of choosing what to plant, each lived through the same fresh years.

Every way only chooses the amounts. Then one plan is made for them, as the household would
make it, and followed through years that none of the ways has seen: a program's own worth
would flatter it, because its pickings and batches foresee the season.
"""

from collections.abc import Callable, Iterator
from dataclasses import dataclass

import numpy as np
from scipy.stats import bootstrap

from model.case import Case
from model.cover import CoverWindow
from model.optimization.ground import whole_amounts, with_amounts
from model.optimization.make_plan import make_plan
from model.planting.by_hand import MARGINS, hand_amounts
from model.planting.fresh_years import lived, met_portions
from model.planting.many_years import for_many_years
from model.planting.margin import tuned_margin, with_margin
from model.season.arrays import Floats
from model.simulation.lived_years import LivedYears

Progress = Callable[[str, float], None]
AS_WRITTEN, MEAN_YEAR, TUNED, MANY_YEARS = (
    "as written down",
    "for the mean year",
    "for the mean year, with the best margin",
    "for many years at once",
)
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

    @property
    def bad_year(self) -> float:
        """Give the portions met in the year that one in ten falls below."""
        return float(np.quantile(self.met, BAD_YEAR))


@dataclass(frozen=True, slots=True)
class Interval:
    """A number with the range that holds it in 95 of 100 such samples.

    >>> gained = model.Interval(value=12.0, low=-3.0, high=27.0)
    >>> gained.low < 0 < gained.high
    True
    """

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
    """Choose the amounts in every way and live through ``years`` fresh years with each.

    Parameters
    ----------
    seed : of the years to choose for and, apart from them, of the fresh ones.
    progress : told what is being done and the part done; may raise to stop.
    """
    fresh, choosing = (int(state) for state in np.random.SeedSequence(seed).generate_state(2))
    ways = dict(_amounts(case, windows, np.random.default_rng(choosing), progress))
    scores = []
    for done, (way, amounts) in enumerate(ways.items()):
        progress(f"Living with what is planted {way}", 0.3 + 0.7 * done / len(ways))
        scores.append(_score(case, way, whole_amounts(case, amounts), years, fresh))
    return scores


def _amounts(
    case: Case,
    windows: tuple[CoverWindow, ...],
    generator: np.random.Generator,
    progress: Progress,
) -> Iterator[tuple[str, Floats]]:
    yield AS_WRITTEN, np.clip(case.forecast.amounts, case.forecast.least, case.forecast.most)
    for margin in MARGINS:
        name = f"by hand, {margin:.0%} more" if margin else "by hand"
        yield name, hand_amounts(case, windows, margin)
    yield MEAN_YEAR, with_margin(case, 0.0)[0]
    progress("Trying margins", 0.05)
    yield TUNED, tuned_margin(case, generator).amounts
    progress("Choosing for many years at once", 0.15)
    yield MANY_YEARS, for_many_years(case, generator).amounts


def _score(case: Case, way: str, amounts: Floats, years: int, seed: int) -> WayScore:
    came = lived(case, make_plan(with_amounts(case, amounts)).plan, years, seed)
    met = met_portions(case, came)
    plate = case.plate
    lean = case.season.settings.lean_share * case.demand.wanted[plate].sum(axis=0)
    short = (met[:, plate].sum(axis=1) < lean - 1e-3) & (lean > 0)
    return WayScore(
        way=way,
        amounts=amounts,
        met=met.sum(axis=(1, 2)).astype(float),
        weeks_short=short.sum(axis=1).astype(float),
        left=_left(case, came),
        hours=came.minutes.sum(axis=1).astype(float) / 60,
    )


def _left(case: Case, came: LivedYears) -> Floats:
    arrays = case.arrays
    last = np.maximum(case.demand.cover_until[arrays.food_of_preserve] - 1, 0)
    standing = came.shelf[:, np.arange(len(arrays.preserves)), last]
    portions: Floats = standing @ arrays.portions
    return portions


def mean_difference(ours: Floats, theirs: Floats) -> Interval:
    """Give by how much the first is more in the mean of the same years; both shape (Y,)."""
    difference = ours - theirs
    value = float(difference.mean())
    half = 1.96 * float(difference.std(ddof=1)) / len(difference) ** 0.5
    return Interval(value, value - half, value + half)


def bad_year_difference(ours: Floats, theirs: Floats, generator: np.random.Generator) -> Interval:
    """Give by how much the first is more in a one-in-ten bad year; both shape (Y,)."""

    def difference(first: Floats, second: Floats, axis: int = -1) -> Floats:
        bad: Floats = np.quantile(first, BAD_YEAR, axis=axis) - np.quantile(
            second, BAD_YEAR, axis=axis
        )
        return bad

    found = bootstrap(
        (ours, theirs),
        difference,
        paired=True,
        n_resamples=399,
        batch=50,
        method="percentile",
        rng=generator,
    )
    return Interval(float(difference(ours, theirs)), *map(float, found.confidence_interval))
