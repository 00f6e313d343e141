from datetime import date

import numpy as np
import pytest

from model.case import Case, make_case
from model.learning.use_rate import AppetiteCv
from model.optimization.make_plan import make_plan
from model.plan import Plan
from model.simulation.food_years import food_years
from model.simulation.kitchen_room import KitchenRoom
from model.simulation.lived_years import Follower, LivedYears, live_through
from model.simulation.luck import draw_kitchen_luck, ordinary_luck
from model.simulation.rules import food_portions, open_jars, put_up, week_guides
from tests.small_season import small_season

TODAY = date(2027, 3, 1)


@pytest.fixture(scope="module")
def case() -> Case:
    return make_case(small_season(), TODAY)


@pytest.fixture(scope="module")
def plan(case: Case) -> Plan:
    return make_plan(case).plan


def live(case: Case, plan: Plan, factor: float, *, as_wanted: bool = False) -> LivedYears:
    harvest = (plan.harvest_kg * factor)[None].astype(np.float32)
    luck = ordinary_luck(1, case.arrays.sealed_share, len(case.weeks), len(case.arrays.foods))
    return live_through(
        Follower(plan, case.arrays, case.demand.cover_until, as_wanted), harvest, luck
    )


def test_a_bad_year_fills_fewer_jars_and_never_more_than_there_is(case: Case, plan: Plan) -> None:
    bad, ordinary = live(case, plan, 0.4), live(case, plan, 1.0)
    used = case.arrays.fresh_kg.T @ bad.filled[0]

    assert bad.filled.sum() < ordinary.filled.sum()
    assert (used <= 0.4 * plan.harvest_kg.sum(axis=1) + 1e-3).all()


def test_a_good_year_stops_at_the_plans_jars(case: Case, plan: Plan) -> None:
    good = live(case, plan, 2.5)

    assert (good.filled[0] <= plan.put_up.sum(axis=1) + 1e-2).all()
    assert good.wasted_kg.sum() > 0


def test_a_year_without_harvest_eats_the_opening_stock_and_nothing_else(
    case: Case, plan: Plan
) -> None:
    none = live(case, plan, 0.0)
    opened = (
        case.arrays.opening_units - none.shelf[0, :, -1] - none.past[0]
    ) @ case.arrays.portions

    assert none.filled.sum() == 0
    assert none.met.sum() == pytest.approx(opened, abs=0.1)


def test_eating_as_wanted_never_eats_more_than_is_wanted(case: Case, plan: Plan) -> None:
    lived = live(case, plan, 1.0, as_wanted=True)
    wanted = food_years(lived, case.arrays).wanted(
        np.arange(len(case.arrays.foods)), 0, len(case.weeks)
    )

    assert (lived.met <= wanted + 1e-3).all()


def test_stock_is_never_negative_in_any_year(case: Case, plan: Plan) -> None:
    generator = np.random.default_rng(0)
    years = 200
    factors = generator.lognormal(0, 0.8, (years, len(case.arrays.crops), 1))
    harvest = (plan.harvest_kg[None] * factors).astype(np.float32)
    cv = AppetiteCv(0.2, np.full(len(case.arrays.foods), 0.3))
    luck = draw_kitchen_luck(generator, years, case.arrays.sealed_share, len(case.weeks), cv)
    for as_wanted in (False, True):
        follower = Follower(plan, case.arrays, case.demand.cover_until, as_wanted)
        lived = live_through(follower, harvest, luck)

        assert lived.shelf.min() >= 0
        assert lived.met.min() >= 0
        assert (lived.minutes <= case.arrays.kitchen_minutes + 1.0).all()


def test_kilograms_are_conserved_in_every_year(case: Case, plan: Plan) -> None:
    lived = live(case, plan, 1.3, as_wanted=True)
    fresh = np.zeros(len(case.arrays.crops))
    for c, f in enumerate(case.arrays.food_of_crop):
        fresh[c] = lived.fresh[0, f].sum() / case.arrays.portions_per_kg[c]
    used = case.arrays.fresh_kg.T @ lived.filled[0]

    assert fresh + used + lived.wasted_kg[0] == pytest.approx(
        1.3 * plan.harvest_kg.sum(axis=1), rel=1e-3
    )


def test_seal_failures_come_in_clumps_with_the_mean_that_is_set() -> None:
    sealed = np.array([0.975, 1.0])
    cv = AppetiteCv(0.12, np.zeros(1))
    luck = draw_kitchen_luck(np.random.default_rng(1), 4000, sealed, 20, cv)

    unsealed = np.stack([luck.unsealed_in(week, slice(0, 4000)) for week in range(20)])

    assert unsealed[:, 0].mean() == pytest.approx(0.025, abs=0.002)
    assert (unsealed[:, 1] == 0).all()
    # one batch in fifteen loses a fifth or more
    assert (unsealed[:, 0] >= 0.2).mean() == pytest.approx(1 / 15, abs=0.01)


def test_a_food_varies_by_the_appetite_of_all_and_by_its_own() -> None:
    """The variance of a product of independent factors of mean 1: textbook."""
    none = np.ones(2)
    cv = AppetiteCv(0.12, np.array([0.0, 0.2]))
    appetite = draw_kitchen_luck(np.random.default_rng(1), 20_000, none, 1, cv).appetite

    assert appetite.mean(axis=1) == pytest.approx([1.0, 1.0], abs=0.01)
    both = np.sqrt((1 + 0.12**2) * (1 + 0.2**2) - 1)
    assert appetite.std(axis=1) == pytest.approx([0.12, both], rel=0.03)
    assert np.corrcoef(appetite)[0, 1] == pytest.approx(0.12 / both, abs=0.03)


def test_the_planned_jars_are_opened_first_and_others_of_the_food_when_they_run_out(
    case: Case, plan: Plan
) -> None:
    guide = week_guides(plan, case.arrays, case.demand.cover_until)[0]
    ready = np.zeros((len(case.arrays.preserves), 1), dtype=np.float32)
    sauce = case.arrays.preserves.index("sauce")
    ready[sauce] = 3.0
    missing = np.array([[0.0], [8.0]], dtype=np.float32)
    opened = open_jars(case.arrays, guide, missing, ready)

    assert (food_portions(case.arrays) @ opened)[1, 0] == pytest.approx(8.0, rel=1e-4)
    assert opened[sauce, 0] == pytest.approx(8.0 / case.arrays.portions[sauce], rel=1e-4)


def test_jars_are_put_up_whole_and_only_as_far_as_the_hours_go(case: Case) -> None:
    arrays = case.arrays
    row = arrays.preserves.index("whole tomatoes")
    units = np.zeros((len(arrays.preserves), 1), dtype=np.float32)
    room = KitchenRoom(arrays, 30, units, np.zeros((len(arrays.jars), 1), np.float32), 0 * units)
    on_hand = np.full((len(arrays.crops), 1), 100.0, dtype=np.float32)
    wanted = units.copy()
    wanted[row] = 60.4
    made = put_up(arrays, on_hand, wanted, room)[row, 0]

    # six hours: a load of 7 takes 104 min and 12 min of hands a jar; one load and part of one
    assert made == round(made)
    assert 7 <= made <= 14
    assert room.minutes_used[0] <= 360


def test_progress_is_told_and_can_stop_the_work(case: Case, plan: Plan) -> None:
    class Stopped(Exception):
        pass

    def stop(_: float) -> None:
        raise Stopped

    luck = ordinary_luck(3, case.arrays.sealed_share, len(case.weeks), len(case.arrays.foods))
    harvest = np.repeat(plan.harvest_kg[None], 3, axis=0).astype(np.float32)
    follower = Follower(plan, case.arrays, case.demand.cover_until, as_wanted=True)
    with pytest.raises(Stopped):
        live_through(follower, harvest, luck, stop)
