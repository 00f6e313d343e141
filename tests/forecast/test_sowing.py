"""The last day to sow, against the gardener's rule that counts back from the frost.

Virginia Cooperative Extension, Fall Vegetable Gardening (2004): days from seeding or
transplanting outdoors to harvest, plus a fall factor of "about two weeks" for "the slow growth
that results from cool weather and short days in the fall".
"""

from dataclasses import replace
from datetime import date, timedelta

import numpy as np
import pytest

import model
from model.forecast.growth import autumn_slowness
from model.forecast.sowing import (
    ROUNDING,
    can_be_dated,
    chance_of_picking,
    earliest_start,
    latest_start,
)
from model.reference.lookup import crop
from model.season.frosts import TENTH
from model.season.season import Season
from tests.small_season import small_season

TODAY = date(2027, 7, 1)
BEANS = "food,group,portions_a_week,most_a_week,liking,crops\nbeans,vegetable,3,8,4,bush bean\n"
FROZEN = (
    "preserve,food,crop,method,product,pack,jar,share_percent\n"
    "frozen beans,beans,bush bean,freeze,,,pack,100\n"
)


def test_the_even_chance_is_the_gardener_s_count_back_from_the_frost(tiny: Season) -> None:
    """First frost less the days to picking (bush bean 50 to 60), less two weeks."""
    count_back = date(2027, 10, 4) - timedelta(days=55 + 14)

    for today in (TODAY, date(2027, 3, 1), date(2027, 9, 1)):
        assert latest_start(tiny, crop("bush bean"), 0.5, today) == count_back
    # a tomato is counted from planting out, 60 to 85 days; three weeks after midsummer three
    # quarters of the two weeks are added (a judgement): 72.5 + 10.5 days reach 3 October
    assert latest_start(tiny, crop("tomato"), 0.5, TODAY) == date(2027, 7, 12)


def test_what_is_started_by_midsummer_takes_the_published_days_and_in_autumn_two_weeks_more(
    tiny: Season,
) -> None:
    bean = crop("bush bean")
    longer = {(5, 20): 0, (6, 21): 0, (7, 5): 7, (7, 19): 14, (9, 1): 14}

    for (month, day), days in longer.items():
        assert autumn_slowness(tiny, bean, date(2027, month, day)) == days
    assert autumn_slowness(tiny, crop("garlic"), date(2027, 10, 1)) == 0
    none = replace(tiny, settings=replace(tiny.settings, autumn_slow_days=0.0))
    assert latest_start(none, bean, 0.5, TODAY) == date(2027, 10, 4) - timedelta(days=55)


def test_a_late_sowing_of_the_notes_is_picked_as_late_as_its_last_day_says() -> None:
    plantings = "season,crop,bed,sown,area_m2\n2027,bush bean,only bed,2027-07-27,8\n"
    season = small_season(plantings=plantings, stock=None, foods=BEANS, preserves=FROZEN)
    (dates,) = model.plan_season(season, TODAY, years=2).case.forecast.dates

    assert dates.first == date(2027, 7, 27) + timedelta(days=55 + 14)


@pytest.mark.parametrize("name", ["bush bean", "tomato", "kale", "beetroot"])
@pytest.mark.parametrize("chance", [0.9, 0.5, 0.2])
def test_a_day_later_than_the_last_day_the_chance_is_less(
    tiny: Season, name: str, chance: float
) -> None:
    last = latest_start(tiny, crop(name), chance, TODAY)

    assert last is not None
    assert chance_of_picking(tiny, crop(name), last) >= chance - ROUNDING
    assert chance_of_picking(tiny, crop(name), last + timedelta(days=1)) < chance


def test_the_chance_is_the_share_of_drawn_years_in_which_it_is_picked(tiny: Season) -> None:
    generator, years = np.random.default_rng(5), 200_000
    bean, sown = crop("bush bean"), date(2027, 7, 28)
    frost = (date(2027, 10, 4) - sown).days + tiny.frosts.first_autumn.sd_days * (
        generator.standard_normal(years)
    )
    ready = 55 + 14 + (60 - 50) / (2 * TENTH) * generator.standard_normal(years)

    assert chance_of_picking(tiny, bean, sown) == pytest.approx((ready < frost).mean(), abs=0.005)


def test_nothing_tender_is_sown_into_the_frost(tiny: Season) -> None:
    bean = crop("bush bean")

    assert chance_of_picking(tiny, bean, date(2027, 1, 15)) < 0.01
    assert chance_of_picking(tiny, bean, date(2027, 11, 15)) < 0.01
    assert chance_of_picking(tiny, bean, date(2027, 5, 12)) == pytest.approx(0.5, abs=0.01)
    assert chance_of_picking(tiny, bean, date(2027, 6, 15)) > 0.99


def test_a_hardy_crop_has_longer_than_a_tender_one_of_the_same_days(tiny: Season) -> None:
    chard, bean = crop("chard"), crop("bush bean")

    assert (chard.days_low, chard.days_high) == (bean.days_low, bean.days_high)
    hardy, tender = (latest_start(tiny, kind, 0.5, TODAY) for kind in (chard, bean))
    assert hardy is not None
    assert tender is not None
    assert (hardy - tender).days == tiny.settings.light_frost_days


def test_between_two_frosts_a_long_crop_has_no_day_with_nine_chances_in_ten(tiny: Season) -> None:
    pumpkin = crop("pumpkin")
    last = latest_start(tiny, pumpkin, 0.5, TODAY)
    every_day = [date(2027, 4, 1) + timedelta(days=n) for n in range(120)]

    assert latest_start(tiny, pumpkin, 0.95, TODAY) is None
    assert max(chance_of_picking(tiny, pumpkin, day) for day in every_day) < 0.95
    assert last is not None
    assert chance_of_picking(tiny, pumpkin, last) >= 0.5


def test_in_the_south_the_year_turns_the_other_way(two_rivers: model.Season) -> None:
    last = latest_start(two_rivers, crop("bush bean"), 0.5, date(2026, 12, 20))

    assert last == date(2027, 4, 29) - timedelta(days=55 + 14)
    assert chance_of_picking(two_rivers, crop("bush bean"), date(2026, 7, 1)) < 0.01


def test_what_stands_over_winter_has_no_last_day(tiny: Season) -> None:
    for name in ("garlic", "apple", "asparagus"):
        assert not can_be_dated(crop(name))
        with pytest.raises(ValueError, match=f"{name} is not started and picked"):
            latest_start(tiny, crop(name), 0.5, TODAY)


def test_nothing_hardy_is_started_in_the_cold_and_no_bulb_has_a_last_day(tiny: Season) -> None:
    """Purdue HO-203: the hardiest are planted four to six weeks before the last frost."""
    first = earliest_start(tiny, crop("kale"), date(2027, 1, 15))

    assert (tiny.frosts.last_spring.median.in_year(2027) - first).days == 42
    assert earliest_start(tiny, crop("kale"), date(2027, 7, 1)) == first
    assert earliest_start(tiny, crop("bush bean"), TODAY) > first
    assert not can_be_dated(crop("onion"))
