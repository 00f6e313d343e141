"""What counts teach, held against made-up households whose true eating is known."""

from dataclasses import replace
from datetime import date, timedelta

import numpy as np
import pytest

from model.case import make_case
from model.learning.use_intervals import UseInterval, Wants, use_intervals
from model.learning.use_rate import UseRates, learned_use, use_rates
from model.season.kitchen import Counted
from model.season.ledger import ledgers
from model.season.record import GIVEN, Batch, Record, Taken
from model.season.season import Season
from tests.learning.households import TODAY, Household, household, two_years

HOUSEHOLDS = 200
EIGHT_IN_TEN = 1.2816


def learn(season: Season) -> UseRates:
    _, weeks, wanted, fresh = two_years()
    return use_rates(season, ledgers(season, TODAY), Wants(weeks, wanted, fresh))


@pytest.fixture(scope="module")
def learned() -> list[tuple[Household, UseRates]]:
    generator = np.random.default_rng(5)
    households = [household(generator) for _ in range(HOUSEHOLDS)]
    return [(one, learn(one.season)) for one in households]


def test_the_range_of_what_is_eaten_in_a_year_holds_the_truth_eight_times_in_ten(
    learned: list[tuple[Household, UseRates]],
) -> None:
    inside = []
    for one, use in learned:
        for rate, factor, kept in zip(use.foods, one.factor, one.kept, strict=True):
            mean, spread = rate.over(kept)
            truth = kept @ factor / kept.sum()
            inside.append(abs(mean - truth) <= EIGHT_IN_TEN * spread)

    assert 0.75 <= np.mean(inside) <= 0.85


def test_two_years_of_counts_more_than_halve_the_error_of_what_is_eaten_in_a_year(
    learned: list[tuple[Household, UseRates]],
) -> None:
    before, after = [], []
    for one, use in learned:
        for rate, factor, kept in zip(use.foods, one.factor, one.kept, strict=True):
            truth = kept @ factor / kept.sum()
            before.append(1 - truth)
            after.append(rate.over(kept)[0] - truth)

    assert np.sqrt(np.mean(np.square(after))) < 0.5 * np.sqrt(np.mean(np.square(before)))


def test_of_single_weeks_two_years_of_counts_take_only_four_tenths_of_the_error(
    learned: list[tuple[Household, UseRates]],
) -> None:
    """Counts seven weeks apart, of a jar or two a week, cannot say more of a single week.

    The ranges know it: they hold the truth eight times in ten.
    """
    before, after, inside = [], [], []
    for one, use in learned:
        for rate, factor, kept in zip(use.foods, one.factor, one.kept, strict=True):
            off, eaten = rate.factor - factor, kept > 0.2 * kept.max()
            before.append(kept @ (1 - factor) ** 2 / kept.sum())
            after.append(kept @ off**2 / kept.sum())
            inside.append((np.abs(off) <= EIGHT_IN_TEN * rate.spread)[eaten].mean())

    assert 0.5 < np.sqrt(np.mean(after) / np.mean(before)) < 0.65
    assert 0.75 <= np.mean(inside) <= 0.85


def flat(used: float, noise: float, *, at_least: bool = False, food: str = "jam") -> UseInterval:
    wanted = np.full(52, 1.0)
    return UseInterval(food, date(2027, 1, 1), date(2027, 12, 31), wanted, used, noise, at_least)


def test_a_level_is_learned_by_the_textbook_weight() -> None:
    """Normal-normal rule for the sum of one food over one whole year."""
    (rate,) = learned_use(["jam"], [flat(78.0, 5.2)], 0.12).foods
    chord = 52 / np.pi * np.sin(np.pi * np.arange(52) / 52)
    run = 0.25**2 * np.exp(-(chord**2) / (2 * 6.0**2)).mean()
    prior = 0.75 * 0.12**2 + (0.25**2 - 0.12**2) + run
    weight = prior / (prior + (5.2 / 52) ** 2)

    assert rate.over(np.ones(52))[0] == pytest.approx(1 + weight * 0.5, abs=1e-3)
    assert rate.over(np.ones(52))[1] ** 2 == pytest.approx(prior * (1 - weight), rel=1e-3)


def test_a_food_that_ran_out_says_at_least_so_much_and_never_less() -> None:
    early, late = (
        learned_use(["jam"], [flat(used, 5.2, at_least=True)], 0.12).foods[0].factor.mean()
        for used in (10.0, 78.0)
    )
    exactly = learned_use(["jam"], [flat(78.0, 5.2)], 0.12).foods[0].factor.mean()

    assert early == pytest.approx(1.0, abs=0.01)
    assert late > exactly > 1.3


def test_every_food_moves_the_appetite_of_the_others_a_little() -> None:
    use = learned_use(["jam", "beans"], [flat(78.0, 5.2)], 0.12)
    jam, beans = use.foods

    assert 1.0 < beans.factor.mean() < 1.15 < jam.factor.mean()
    assert (beans.intervals, jam.intervals) == (0, 1)


def test_appetite_varies_less_the_more_is_counted_but_never_under_half_of_what_is_written() -> None:
    foods = [f"food {n}" for n in range(15)]
    seen = [flat(52.0, 5.2, food=food) for food in foods]
    none, some, many = (learned_use(foods, own, 0.12).appetite_cv for own in ([], seen, seen * 9))

    assert none == 0.12
    assert none > some > many > 0.06


def test_without_two_counts_what_the_notes_say_stands(tiny: Season) -> None:
    case = make_case(tiny, date(2027, 3, 1))

    assert (case.use.factors(case.weeks) == 1.0).all()
    assert case.use.appetite_cv == tiny.settings.appetite_cv


def test_a_household_that_eats_twice_its_notes_plans_for_more_from_then_on() -> None:
    season = two_years()[0]
    days = [date(2027, 1, 3) + timedelta(weeks=7 * n) for n in range(3)]
    made = date(2026, 9, 1)
    eaten = {7: 24.0, 1: 4.0}
    plans = {}
    for fast, a_count in eaten.items():
        left = [60.0 - a_count * n for n in range(3)]
        counts = tuple(
            Counted(day, "whole tomatoes", units, made)
            for day, units in zip(days, left, strict=True)
        )
        plans[fast] = make_case(replace(season, counts=counts), date(2027, 4, 20))
    fast, slow = plans[7], plans[1]
    tomatoes = fast.arrays.foods.index("tomatoes")

    assert fast.use.foods[tomatoes].intervals == slow.use.foods[tomatoes].intervals == 2
    assert fast.demand.wanted[tomatoes].sum() > 1.3 * slow.demand.wanted[tomatoes].sum()
    assert fast.use.appetite_cv < season.settings.appetite_cv


def between(
    counts: tuple[Counted, ...],
    taken: tuple[Taken, ...] = (),
    batches: tuple[Batch, ...] = (),
) -> tuple[list, dict]:
    season, weeks, wanted, fresh = two_years()
    noted = replace(season, counts=counts, record=Record(batches=batches, taken=taken))
    return use_intervals(noted, ledgers(noted, TODAY), Wants(weeks, wanted, fresh))


JANUARY, MARCH, MADE = date(2027, 1, 3), date(2027, 3, 7), date(2026, 9, 1)


def test_used_is_what_is_gone_and_was_not_given() -> None:
    counts = (
        Counted(JANUARY, "whole tomatoes", 30.0, MADE),
        Counted(MARCH, "whole tomatoes", 15.0, MADE),
    )
    gift = Taken(date(2027, 2, 1), "whole tomatoes", 5.0, GIVEN, "", "")
    portions = two_years()[0].preserve("whole tomatoes").portions
    (whole,), _ = between(counts)
    (less,), _ = between(counts, (gift,))

    assert whole.used - less.used == pytest.approx(5 * portions)
    assert not whole.at_least
    assert whole.used == pytest.approx(15 * portions)


@pytest.mark.parametrize(
    ("units", "made"),
    [(40.0, MADE), (20.0, date(2027, 2, 1))],
    ids=["more than there was", "jars nobody wrote down"],
)
def test_a_count_that_the_book_cannot_explain_says_nothing_of_eating(
    units: float, made: date
) -> None:
    found, left_out = between(
        (
            Counted(JANUARY, "whole tomatoes", 30.0, MADE),
            Counted(MARCH, "whole tomatoes", units, made),
        )
    )

    assert (found, left_out) == ([], {"tomatoes": 1})


def test_what_was_past_keeping_may_have_been_thrown_away_and_says_nothing() -> None:
    old = date(2024, 9, 1)
    found, left_out = between(
        (
            Counted(JANUARY, "frozen beans", 30.0, old),
            Counted(MARCH, "frozen beans", 5.0, old),
        )
    )

    assert (found, left_out) == ([], {"beans": 1})


def test_an_empty_shelf_says_at_least() -> None:
    (found,), _ = between(
        (
            Counted(JANUARY, "whole tomatoes", 8.0, MADE),
            Counted(MARCH, "whole tomatoes", 0.0, MARCH),
        )
    )

    assert found.at_least


@pytest.mark.parametrize(("there", "may_have_run_out"), [(4.0, True), (40.0, False)])
def test_a_shelf_that_may_have_stood_empty_before_new_packs_came_says_at_least(
    there: float, may_have_run_out: bool
) -> None:
    batch = Batch("new", date(2027, 2, 20), None, "frozen beans", 20.0, "", "")
    counts = (
        Counted(JANUARY, "frozen beans", there, MADE),
        Counted(MARCH, "frozen beans", there + 15.0, MADE),
    )
    (found,), _ = between(counts, batches=(batch,))

    assert found.used == pytest.approx(5 * two_years()[0].preserve("frozen beans").portions)
    assert found.at_least is may_have_run_out


def test_new_batches_that_nobody_wrote_down_are_told_and_teach_nothing_wrong() -> None:
    generator = np.random.default_rng(8)
    unwritten = [household(generator, batches_written=False) for _ in range(20)]
    rates = [rate for one in unwritten for rate in learn(one.season).foods]

    assert all(rate.left_out >= 1 for rate in rates)
    off = [
        rate.over(kept)[0] - kept @ factor / kept.sum()
        for one in unwritten
        for rate, factor, kept in zip(learn(one.season).foods, one.factor, one.kept, strict=True)
    ]
    assert abs(np.mean(off)) < 0.08
