"""The household's own share of jars that do not seal, learned batch by batch.

Failures come in clumps: in about one batch in fifteen a fifth to a half of the jars fails at
once (one box of lids, one evening), the others fail one by one. So a batch, not a jar, is the
piece of evidence. Of ``n`` jars of a batch ``k`` fail with the chance

    c / (n + 1) * (I(0.5) - I(0.2)) / 0.3  +  (1 - c) * Binomial(k; n, e)

where ``c`` is the household's chance of a clump, ``e`` its share in the other batches and
``I`` the distribution of Beta(k + 1, n - k + 1). The prior of ``c`` is as good as 15 batches;
that of ``e`` is as wide as it takes for the whole share to have the mean of the settings and
the spread of a Beta with 40 jars behind it: Beta(1, 39) for a mean of 2.5 %.
"""

import math
from collections import Counter
from dataclasses import dataclass
from datetime import date

import numpy as np
from scipy import stats

from model.season.arrays import Floats
from model.season.record import Batch
from model.season.season import Season

# Source: needs-uncertainty. One batch in fifteen loses 20-50 % of its seals.
CLUMP_CHANCE = 1.0 / 15.0
CLUMP_LEAST, CLUMP_MOST = 0.2, 0.5
CLUMP_MEAN = (CLUMP_LEAST + CLUMP_MOST) / 2
PRIOR_BATCHES, PRIOR_JARS = 15.0, 40.0
# A setting of no failures at all could never learn that there are some.
LEAST_SHARE = 1e-3
CHANCE_CELLS, SHARE_CELLS = 80, 60
EIGHT_IN_TEN = (0.1, 0.9)
NINE_IN_TEN = 0.9


@dataclass(frozen=True, slots=True)
class Looked:
    """A canned batch whose seals have been looked at: jars filled, jars that did not seal."""

    batch: Batch
    filled: int
    failed: int


@dataclass(frozen=True, slots=True)
class ToFill:
    """Jars to fill for a number of sealed ones: on average, and enough nine times in ten."""

    mean: int
    nine_in_ten: int


@dataclass(frozen=True, eq=False)
class SealRate:
    """What is known of the share of jars that do not seal.

    Parameters
    ----------
    usual : the share of the settings, before any batch of the household's own.
    share, low, high : the mean, and the range that holds it eight times in ten.
    clump_chance : of a batch, the mean.
    batches, filled, failed : the household's own, whose seals have been looked at.
    chances, shares, weight : shape (N,), pairs of clump chance and share in other batches
        that may be true, and how likely each is.
    """

    usual: float
    share: float
    low: float
    high: float
    clump_chance: float
    batches: int
    filled: int
    failed: int
    chances: Floats
    shares: Floats
    weight: Floats

    def to_fill(self, sealed: int, jars_a_batch: int) -> ToFill:
        """Give how many to fill for ``sealed`` jars that seal, in batches of a size.

        Raises ValueError when a batch holds no jar.
        """
        if jars_a_batch < 1:
            raise ValueError("a batch holds at least one jar")
        # the unlikely pairs change nothing in whole jars
        likely = self.weight > self.weight.max() * 1e-4
        chances, shares = self.chances[likely], self.shares[likely]
        weight = self.weight[likely] / self.weight[likely].sum()
        whole = _failures(jars_a_batch, chances, shares)
        full = np.ones((len(weight), 1))
        done, filled = 0, sealed
        while sealed:
            while done < filled // jars_a_batch:
                full, done = _added(full, whole), done + 1
            failed = _added(full, _failures(filled % jars_a_batch, chances, shares))
            if weight @ failed[:, : filled - sealed + 1].sum(axis=1) >= NINE_IN_TEN:
                break
            filled += 1
        return ToFill(math.ceil(sealed / (1.0 - self.share) - 1e-9), filled)


def looked_at(season: Season, today: date) -> list[Looked]:
    """List the canned batches whose seals have been looked at by a day; the newest look counts."""
    found, checks = [], season.record.newest_checks(today)
    for batch in season.record.batches:
        check = checks.get(batch.code)
        filled = round(batch.filled)
        if check and filled and season.preserve(batch.preserve).canned:
            found.append(Looked(batch, filled, filled - min(filled, round(check.sealed))))
    return found


def seal_rate(season: Season, today: date) -> SealRate:
    """Learn the share of jars that do not seal from every batch looked at by a day."""
    usual = season.settings.seal_failure_share
    seen = [(one.filled, one.failed) for one in looked_at(season, today)]
    return learned_share(usual, seen)


def learned_share(usual: float, seen: list[tuple[int, int]]) -> SealRate:
    """Learn the share from batches as (filled, failed); without any the usual one stands."""
    chances, shares, weight = _prior(max(usual, LEAST_SHARE))
    logs = np.log(np.maximum(weight, np.finfo(float).tiny))
    for (filled, failed), times in Counter(seen).items():
        clump = chances * _clumped(filled)[failed]
        one_by_one = stats.binom.pmf(failed, filled, shares)
        logs += times * np.log(clump + (1 - chances) * one_by_one)
    weight = np.exp(logs - logs.max())
    weight /= weight.sum()
    chances, shares = (pair.ravel() for pair in np.broadcast_arrays(chances, shares))
    weight = weight.ravel()
    whole = chances * CLUMP_MEAN + (1 - chances) * shares
    order = np.argsort(whole)
    low, high = np.interp(EIGHT_IN_TEN, weight[order].cumsum() - weight[order] / 2, whole[order])
    return SealRate(
        usual=usual,
        share=float(weight @ whole) if seen else usual,
        low=float(low),
        high=float(high),
        clump_chance=float(weight @ chances) if seen else usual_clump_chance(usual),
        batches=len(seen),
        filled=sum(filled for filled, _ in seen),
        failed=sum(failed for _, failed in seen),
        chances=chances,
        shares=shares,
        weight=weight,
    )


def usual_clump_chance(share: float) -> float:
    """Give the chance of a clump where a share fails: one in fifteen, or what there is room for."""
    return min(CLUMP_CHANCE, share / CLUMP_MEAN)


def _prior(usual: float) -> tuple[Floats, Floats, Floats]:
    """Give clump chances (A, 1), other shares (1, B) and the prior weight of each pair (A, B)."""
    chance = min(CLUMP_CHANCE, 0.9 * usual / CLUMP_MEAN)
    share = (usual - chance * CLUMP_MEAN) / (1 - chance)
    chance_variance = chance * (1 - chance) / (PRIOR_BATCHES + 1)
    wanted = usual * (1 - usual) / (PRIOR_JARS + 1)
    left = wanted - (CLUMP_MEAN - share) ** 2 * chance_variance
    share_variance = left / ((1 - chance) ** 2 + chance_variance)
    jars = share * (1 - share) / share_variance - 1
    chances, by_chance = _cells(chance * PRIOR_BATCHES, (1 - chance) * PRIOR_BATCHES, CHANCE_CELLS)
    shares, by_share = _cells(share * jars, (1 - share) * jars, SHARE_CELLS)
    weight = np.outer(by_chance, by_share)
    return chances[:, None], shares[None, :], weight / weight.sum()


def _cells(a: float, b: float, count: int) -> tuple[Floats, Floats]:
    """Cut a Beta into cells, narrow near none: the middles, and the weight in each."""
    edges = np.linspace(0.0, 1.0, count + 1) ** 3
    middles: Floats = (edges[1:] + edges[:-1]) / 2
    weight: Floats = np.diff(stats.beta.cdf(edges, a, b))
    return middles, weight


def _clumped(filled: int) -> Floats:
    """Give the chance of each number of failures in a clump; shape (filled + 1,)."""
    failed = np.arange(filled + 1)
    edges = np.array([[CLUMP_LEAST], [CLUMP_MOST]])
    inside = np.diff(stats.beta.cdf(edges, failed + 1, filled - failed + 1), axis=0)[0]
    chance: Floats = inside / ((filled + 1) * (CLUMP_MOST - CLUMP_LEAST))
    return chance


def _failures(filled: int, chances: Floats, shares: Floats) -> Floats:
    """Give the chance of each number of failures in a batch; shape (N, filled + 1)."""
    evenly = stats.binom.pmf(np.arange(filled + 1), filled, shares[:, None])
    mixed: Floats = chances[:, None] * _clumped(filled) + (1 - chances[:, None]) * evenly
    return mixed


def _added(one: Floats, other: Floats) -> Floats:
    """Give the chances of the sum of two numbers; shapes (N, a) and (N, b) to (N, a + b - 1)."""
    total = np.zeros((len(one), one.shape[1] + other.shape[1] - 1))
    for k in range(other.shape[1]):
        total[:, k : k + one.shape[1]] += one * other[:, k : k + 1]
    return total
