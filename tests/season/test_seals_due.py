"""Jars that wait for a look at their seals: a plan counts on them, the book does not."""

from dataclasses import replace
from datetime import date, timedelta

import pytest

from model.case import Case, make_case
from model.forecast.harvest import forecast_harvest
from model.optimization.make_plan import make_plan
from model.plan import Plan
from model.season.ledger import Standing
from model.season.record import LOST, Record, Taken
from model.season.seals_due import seals_due
from model.season.season import Season
from tests.recorded import JARS, batch, recorded

DAY = date(2027, 8, 16)
SPRING = date(2027, 1, 1)
NAMES = [preserve.name for preserve in recorded().preserves]


def of_this_week(plan: Plan, preserve: str) -> float:
    return float(plan.put_up[NAMES.index(preserve), 0])


def kg_of_this_week(case: Case, crop: str) -> float:
    kg = case.forecast.kg_by_crop(case.forecast.amounts, len(case.arrays.crops))
    return float(kg[case.arrays.crops.index(crop), 0])


def test_what_was_lost_before_anybody_looked_is_not_counted_on() -> None:
    lost = Taken(DAY, JARS, 2.0, LOST, "shelf fell", "A")
    season = recorded(batches=(batch("A", DAY, 7),), taken=(lost,))

    assert seals_due(season, DAY, SPRING, 0.1) == (
        Standing(JARS, DAY, pytest.approx(5 * 0.9), since=DAY),
    )


def test_jars_of_a_year_gone_by_that_nobody_looked_at_are_not_counted_on() -> None:
    season = recorded(batches=(batch("A", DAY, 7),))

    assert seals_due(season, DAY, DAY + timedelta(days=1), 0.0) == ()


def test_what_was_put_up_is_not_wanted_again_before_its_seals_are_looked_at() -> None:
    before = make_plan(make_case(recorded(), DAY)).plan
    wanted = of_this_week(before, JARS)
    case = make_case(recorded(batches=(batch("A", DAY, wanted),)), DAY)
    after = make_plan(case).plan

    assert wanted >= 3
    assert case.stock == ()
    assert after.to_fill.sum() == before.to_fill.sum() - wanted
    assert of_this_week(after, JARS) == 0


def test_what_was_put_up_today_is_no_longer_to_be_picked_this_week() -> None:
    """Two jars take more than 2 kg; what was not logged as picked has been picked today."""
    before = make_case(recorded(), DAY)
    after = make_case(recorded(batches=(batch("A", DAY, 2),)), DAY)
    each = before.season.preserve(JARS).ingredients[0].kg

    assert kg_of_this_week(before, "tomato") > 2 * each > 2
    assert kg_of_this_week(after, "tomato") == pytest.approx(
        kg_of_this_week(before, "tomato") - 2 * each
    )
    yesterday = recorded(batches=(batch("A", DAY - timedelta(days=1), 2),))
    assert kg_of_this_week(make_case(yesterday, DAY), "tomato") == pytest.approx(
        kg_of_this_week(before, "tomato")
    )


def test_what_stood_in_the_ground_and_was_put_up_unlogged_stands_there_no_more(
    alder_lane: Season,
) -> None:
    """Of what is lifted once, the store's kilograms were lifted, whether that was logged or not."""
    day = date(2027, 10, 20)
    preserve = next(p for p in alder_lane.preserves if p.name == "carrots in sand")
    (part,) = preserve.ingredients
    bare = replace(alder_lane, record=Record(), pickings=(), counts=())
    stored = replace(bare, record=Record(batches=(batch("A", day, 5.0, preserve=preserve.name),)))
    crop = [crop.name for crop in bare.crops].index(part.crop)
    before, after = (
        forecast_harvest(season, day).before_kg[crop].sum() for season in (bare, stored)
    )

    assert before > 5 * part.kg
    assert after == pytest.approx(before - 5 * part.kg)
