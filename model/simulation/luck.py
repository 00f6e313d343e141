"""What varies in the kitchen and at the table: seals that fail in clumps, and appetite."""

from dataclasses import dataclass

import numpy as np

from model.season.arrays import Floats, Singles

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
    unsealed : shape (N, R, W), share of a batch that does not seal.
    """

    appetite: Singles
    unsealed: Singles


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
    rate = (1.0 - sealed_share).astype(np.float32)[None, :, None]
    shape = (years, len(sealed_share), weeks)
    clump = generator.random(shape, dtype=np.float32) < CLUMP_CHANCE
    size = CLUMP_LEAST + (CLUMP_MOST - CLUMP_LEAST) * generator.random(shape, dtype=np.float32)
    mean_of_clumps = CLUMP_CHANCE * (CLUMP_LEAST + CLUMP_MOST) / 2
    in_clumps = np.minimum(1.0, rate / np.float32(mean_of_clumps))
    even = np.maximum(0.0, rate - np.float32(mean_of_clumps)) / np.float32(1 - CLUMP_CHANCE)
    unsealed = np.where(clump, size * in_clumps, even)
    return KitchenLuck(appetite.astype(np.float32), np.minimum(unsealed, 1.0).astype(np.float32))


def ordinary_luck(years: int, sealed_share: Floats, weeks: int) -> KitchenLuck:
    """Give years in which everything goes as expected."""
    rate = (1.0 - sealed_share).astype(np.float32)[None, :, None]
    unsealed = np.broadcast_to(rate, (years, len(sealed_share), weeks))
    return KitchenLuck(np.ones(years, dtype=np.float32), unsealed)
