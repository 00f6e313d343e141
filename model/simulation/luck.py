"""What varies in the kitchen and at the table: seals that fail in clumps, and appetite."""

from dataclasses import dataclass

import numpy as np

from model.season.arrays import Floats, Ints, Singles

# Source: needs-uncertainty. One batch in fifteen loses 20-50 % of its seals; the rest of the
# rate is spread evenly over the other batches.
CLUMP_CHANCE = 1.0 / 15.0
CLUMP_LEAST, CLUMP_MOST = 0.2, 0.5


@dataclass(frozen=True, eq=False)
class KitchenLuck:
    """Draws for N years.

    Parameters
    ----------
    appetite : shape (N,), times the usual.
    rows : shape (S,), the preserves that are sealed, out of ``preserves``.
    unsealed : shape (W, S, N), share of a batch that does not seal.
    """

    appetite: Singles
    preserves: int
    rows: Ints
    unsealed: Singles

    def unsealed_in(self, week: int, some: slice) -> Singles:
        """Give the share of each preserve that does not seal in a week; shape (R, years)."""
        shares = np.zeros((self.preserves, len(self.appetite[some])), dtype=np.float32)
        shares[self.rows] = self.unsealed[week, :, some]
        return shares


def draw_kitchen_luck(
    generator: np.random.Generator,
    years: int,
    sealed_share: Floats,
    weeks: int,
    appetite_cv: float,
) -> KitchenLuck:
    """Draw appetite (log-normal, mean 1) and seal failures with the mean of the settings."""
    sd = np.sqrt(np.log1p(appetite_cv**2))
    appetite = np.exp(sd * generator.standard_normal(years) - sd**2 / 2)
    rows = np.flatnonzero(sealed_share < 1)
    rate = (1.0 - sealed_share[rows]).astype(np.float32)[:, None]
    mean_of_clumps = np.float32(CLUMP_CHANCE * (CLUMP_LEAST + CLUMP_MOST) / 2)
    in_clumps = np.minimum(1, rate / mean_of_clumps)
    even = np.maximum(0, rate - mean_of_clumps) / np.float32(1 - CLUMP_CHANCE)
    unsealed = np.empty((weeks, len(rows), years), dtype=np.float32)
    for week in unsealed:
        # one draw says whether a batch is a clump and, where it is, how large
        draw = generator.random(week.shape, dtype=np.float32)
        size = CLUMP_LEAST + (CLUMP_MOST - CLUMP_LEAST) * draw / np.float32(CLUMP_CHANCE)
        week[:] = np.minimum(1, np.where(draw < CLUMP_CHANCE, size * in_clumps, even))
    return KitchenLuck(appetite.astype(np.float32), len(sealed_share), rows, unsealed)


def ordinary_luck(years: int, sealed_share: Floats, weeks: int) -> KitchenLuck:
    """Give years in which everything goes as expected."""
    rows = np.flatnonzero(sealed_share < 1)
    rate = (1.0 - sealed_share[rows]).astype(np.float32)[None, :, None]
    unsealed = np.broadcast_to(rate, (weeks, len(rows), years))
    return KitchenLuck(np.ones(years, dtype=np.float32), len(sealed_share), rows, unsealed)
