"""What varies in the kitchen and at the table: seals that fail in clumps, and appetite."""

from dataclasses import dataclass

import numpy as np

from model.learning.seal_rate import CLUMP_CHANCE, CLUMP_LEAST, CLUMP_MEAN, CLUMP_MOST
from model.learning.use_rate import AppetiteCv
from model.season.arrays import Floats, Ints, Singles


@dataclass(frozen=True, eq=False)
class KitchenLuck:
    """Draws for N years.

    Parameters
    ----------
    appetite : shape (F, N), times the usual of each food.
    rows : shape (S,), the preserves that are sealed, out of ``preserves``.
    unsealed : shape (W, S, N), share of a batch that does not seal.
    """

    appetite: Singles
    preserves: int
    rows: Ints
    unsealed: Singles

    def unsealed_in(self, week: int, some: slice) -> Singles:
        """Give the share of each preserve that does not seal in a week; shape (R, years)."""
        shares = np.zeros((self.preserves, self.appetite[:, some].shape[1]), dtype=np.float32)
        shares[self.rows] = self.unsealed[week, :, some]
        return shares


def draw_kitchen_luck(
    generator: np.random.Generator,
    years: int,
    sealed_share: Floats,
    weeks: int,
    appetite_cv: AppetiteCv,
    clump_chance: float = CLUMP_CHANCE,
) -> KitchenLuck:
    """Draw appetite (log-normal, mean 1) and seal failures with the mean of ``sealed_share``.

    A year's appetite is that of all foods times each food's own: what nobody knows yet of how
    much of it is eaten.

    A clump loses a fifth to a half of its jars; the rest of the share is spread evenly over
    the other batches.
    """
    appetite = _log_normal(generator, np.array([appetite_cv.shared]), years)
    rows = np.flatnonzero(sealed_share < 1)
    rate = (1.0 - sealed_share[rows])[:, None]
    chance = np.minimum(clump_chance, rate / CLUMP_MEAN)
    even = ((rate - chance * CLUMP_MEAN) / (1 - chance)).astype(np.float32)
    chance = chance.astype(np.float32)
    unsealed = np.empty((weeks, len(rows), years), dtype=np.float32)
    for week in unsealed:
        # one draw says whether a batch is a clump and, where it is, how large
        draw = generator.random(week.shape, dtype=np.float32)
        size = CLUMP_LEAST + (CLUMP_MOST - CLUMP_LEAST) * draw / chance
        week[:] = np.where(draw < chance, size, even)
    appetite = appetite * _log_normal(generator, appetite_cv.own, years)
    return KitchenLuck(appetite.astype(np.float32), len(sealed_share), rows, unsealed)


def _log_normal(generator: np.random.Generator, cv: Floats, years: int) -> Floats:
    sd = np.sqrt(np.log1p(cv**2))[:, None]
    drawn: Floats = np.exp(sd * generator.standard_normal((len(cv), years)) - sd**2 / 2)
    return drawn


def ordinary_luck(years: int, sealed_share: Floats, weeks: int, foods: int) -> KitchenLuck:
    """Give years in which everything goes as expected."""
    rows = np.flatnonzero(sealed_share < 1)
    rate = (1.0 - sealed_share[rows]).astype(np.float32)[None, :, None]
    unsealed = np.broadcast_to(rate, (weeks, len(rows), years))
    return KitchenLuck(np.ones((foods, years), dtype=np.float32), len(sealed_share), rows, unsealed)
