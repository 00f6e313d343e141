"""The own share of unsealed jars, held against made-up households whose true share is known."""

from dataclasses import replace
from datetime import date, timedelta

import numpy as np
import pytest

from model.case import make_case
from model.learning.seal_rate import SealRate, learned_share, looked_at, seal_rate
from model.learning.shared_cause import shared_causes
from model.season.record import Batch, Record, SealCheck
from model.season.season import Season
from tests.learning.households import sealed_batches

HOUSEHOLDS = 400
USUAL = 0.025
DAY = date(2027, 8, 1)
TODAY = date(2027, 12, 1)


def true_share(generator: np.random.Generator) -> tuple[float, float]:
    """Draw a chance of clumps (mean 1 in 15) and a share in other batches, mostly next to none.

    Together their mean is 2.5 % and their spread 2.4 %, as of the prior Beta(1, 39) of
    needs-uncertainty.
    """
    return generator.beta(1, 14), generator.beta(0.0206, 11.5)


def learn(batches: int, generator: np.random.Generator) -> tuple[float, SealRate]:
    chance, share = true_share(generator)
    seen = sealed_batches(chance, share, batches, 8, generator)
    return chance * 0.35 + (1 - chance) * share, learned_share(USUAL, seen)


@pytest.fixture(scope="module")
def two_seasons() -> list[tuple[float, SealRate]]:
    """The demo household cans about 24 batches of 8 or 9 jars a season."""
    generator = np.random.default_rng(3)
    return [learn(48, generator) for _ in range(HOUSEHOLDS)]


def test_the_prior_has_the_mean_of_the_settings_and_the_spread_of_its_beta() -> None:
    rate = learned_share(USUAL, [])
    whole = rate.chances * 0.35 + (1 - rate.chances) * rate.shares

    assert rate.weight @ whole == pytest.approx(USUAL, rel=0.01)
    variance = rate.weight @ whole**2 - (rate.weight @ whole) ** 2
    # of Beta(1, 39): a b / ((a + b)^2 (a + b + 1))
    assert np.sqrt(variance) == pytest.approx(np.sqrt(1 * 39 / (40**2 * 41)), rel=0.02)


def test_the_range_holds_the_truth_eight_times_in_ten(
    two_seasons: list[tuple[float, SealRate]],
) -> None:
    inside = [rate.low <= truth <= rate.high for truth, rate in two_seasons]

    assert 0.75 <= np.mean(inside) <= 0.85


def error_left(learned: list[tuple[float, SealRate]]) -> float:
    """Give the error after learning as a share of the error before."""
    after = np.mean([(rate.share - truth) ** 2 for truth, rate in learned])
    before = np.mean([(USUAL - truth) ** 2 for truth, _ in learned])
    return float(np.sqrt(after / before))


def test_two_seasons_of_a_household_that_cans_much_halve_the_error(
    two_seasons: list[tuple[float, SealRate]],
) -> None:
    assert error_left(two_seasons) < 0.5


def test_two_seasons_of_a_household_that_cans_little_leave_over_half_of_the_error() -> None:
    """13 batches a season. A clump in 15 batches is too rare for 26 to say how rare.

    With every clump seen for what it is, 15 batches' worth of prior and 26 of one's own leave
    sqrt(15 / 41) = 0.60 of the error in the chance of a clump.
    """
    generator = np.random.default_rng(4)
    few = [learn(26, generator) for _ in range(HOUSEHOLDS)]

    assert 0.5 < error_left(few) < 0.7
    assert 0.75 <= np.mean([rate.low <= truth <= rate.high for truth, rate in few]) <= 0.85


def test_one_clump_moves_the_share_less_than_as_many_jars_one_by_one() -> None:
    clump = learned_share(USUAL, [(8, 4)] + [(8, 0)] * 15)
    scattered = learned_share(USUAL, [(8, 1)] * 4 + [(8, 0)] * 12)

    assert clump.failed == scattered.failed == 4
    assert clump.clump_chance > scattered.clump_chance
    assert clump.share < clump.failed / clump.filled * 1.2


def test_jars_to_fill_are_enough_nine_times_in_ten() -> None:
    rate = learned_share(USUAL, [(8, 3), (8, 1)] + [(8, 0)] * 10)
    fill = rate.to_fill(40, 8)
    generator = np.random.default_rng(6)

    def enough(filled: int) -> float:
        sealed = []
        for pair in generator.choice(len(rate.weight), size=6000, p=rate.weight):
            batches = sealed_batches(
                rate.chances[pair], rate.shares[pair], filled // 8, 8, generator
            ) + sealed_batches(rate.chances[pair], rate.shares[pair], 1, filled % 8, generator)
            sealed.append(filled - sum(failed for _, failed in batches))
        return float(np.mean(np.array(sealed) >= 40))

    assert fill.mean == int(np.ceil(40 / (1 - rate.share)))
    assert enough(fill.nine_in_ten) > 0.885
    assert enough(fill.nine_in_ten - 1) < 0.915
    assert fill.nine_in_ten > fill.mean
    assert rate.to_fill(0, 8).nine_in_ten == 0


def test_a_batch_without_a_jar_is_refused() -> None:
    with pytest.raises(ValueError, match="at least one jar"):
        learned_share(USUAL, []).to_fill(10, 0)


def canned(season: Season, batches: list[tuple[str, str, int, int]]) -> Season:
    """Write down batches as (preserve, box of lids, filled, failed)."""
    rows, checks = [], []
    for n, (preserve, box, filled, failed) in enumerate(batches):
        day = DAY + timedelta(days=n)
        rows.append(Batch(f"b{n}", day, None, preserve, float(filled), box, ""))
        checks.append(SealCheck(f"b{n}", day, float(filled - failed), ""))
    return replace(season, record=Record(batches=tuple(rows), seal_checks=tuple(checks)))


def test_only_canned_batches_whose_seals_were_looked_at_count_and_the_newest_look_counts(
    tiny: Season,
) -> None:
    season = canned(tiny, [("sauce", "", 9, 0), ("frozen beans", "", 5, 0)])
    unlooked = Batch("later", DAY, None, "sauce", 9.0, "", "")
    again = SealCheck("b0", DAY + timedelta(days=2), 7.0, "")
    record = replace(
        season.record,
        batches=(*season.record.batches, unlooked),
        seal_checks=(*season.record.seal_checks, again),
    )

    seen = looked_at(replace(season, record=record), TODAY)

    assert [(one.batch.code, one.filled, one.failed) for one in seen] == [("b0", 9, 2)]
    assert looked_at(season, DAY - timedelta(days=1)) == []


def test_the_plan_fills_for_the_households_own_seals(tiny: Season) -> None:
    bad = canned(tiny, [("sauce", "", 9, 2)] * 20)
    usual, own = make_case(tiny, TODAY), make_case(bad, TODAY)

    assert list(usual.arrays.sealed_share) == [1 - USUAL, 1 - USUAL, 1.0, 1 - USUAL]
    assert own.arrays.sealed_share[0] == 1 - seal_rate(bad, TODAY).share
    assert 0.12 < own.seals.share < 0.25
    assert own.arrays.sealed_share[2] == 1.0


def test_a_bad_box_of_lids_is_pointed_at_with_its_counts(tiny: Season) -> None:
    season = canned(
        tiny,
        [("sauce", "old", 9, 4)] * 2
        + [("whole tomatoes", "old", 7, 3)] * 2
        + [("sauce", "new", 9, 0)] * 10
        + [("whole tomatoes", "new", 7, 0)] * 9
        + [("whole tomatoes", "new", 7, 2)],
    )
    (cause, *others) = shared_causes(season, TODAY)

    assert (cause.kind, cause.name) == ("box of lids", "old")
    assert (cause.bad, cause.batches, cause.failed, cause.filled) == (4, 4, 14, 32)
    assert (cause.other_bad, cause.other_batches) == (1, 20)
    # Fisher's exact test: the five bad ones hold all four of the box in C(5, 4) of C(24, 4) ways
    looked_at_together = 6
    assert cause.by_chance == pytest.approx(looked_at_together * 5 / 10626)
    assert [other.name for other in others] in ([], ["new"])


def test_clumps_without_a_cause_are_seldom_given_one(tiny: Season) -> None:
    generator = np.random.default_rng(9)
    accused = 0
    for _ in range(200):
        seen = sealed_batches(1 / 10, 0.01, 30, 8, generator)
        kinds = generator.choice(["sauce", "whole tomatoes", "dilled beans"], 30)
        boxes = generator.choice(["a", "b", "c"], 30)
        rows = [(str(k), str(b), *one) for k, b, one in zip(kinds, boxes, seen, strict=True)]
        accused += bool(shared_causes(canned(tiny, rows), TODAY))

    assert accused / 200 <= 0.05
