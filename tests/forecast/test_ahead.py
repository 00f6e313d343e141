"""What is picked early comes off what is to come: a garden gives each kilogram once."""

from dataclasses import replace
from datetime import date, timedelta
from statistics import NormalDist

import numpy as np
import pytest

from model.forecast.harvest import forecast_harvest
from model.forecast.years import sampled_harvest
from model.season.garden import Picking
from model.season.record import Batch, Record
from model.season.season import Season

LIFTED, WEEK = date(2027, 8, 30), timedelta(weeks=1)
MONDAY, TUESDAY = date(2027, 8, 16), date(2027, 8, 17)


def bare(season: Season, *pickings: Picking) -> Season:
    return replace(season, record=Record(), counts=(), pickings=pickings)


def to_come(season: Season, today: date, crop: str) -> np.ndarray:
    """Give the expected kilograms of a crop by week; shape (W,)."""
    forecast = forecast_harvest(season, today)
    names = [own.name for own in season.crops]
    return forecast.kg_by_crop(forecast.amounts, len(names))[names.index(crop)]


@pytest.mark.parametrize("share", [0.5, 1.0, 1.4])
def test_potatoes_lifted_a_week_early_are_not_lifted_again(
    alder_lane: Season, share: float
) -> None:
    season = bare(alder_lane)
    whole = to_come(season, LIFTED, "potato").sum()
    assert whole > 50

    lifted = bare(season, Picking(LIFTED, "potato", share * whole))
    for day in (LIFTED + timedelta(days=1), LIFTED + WEEK):
        left = to_come(lifted, day, "potato").sum()
        assert left == pytest.approx(max(0.0, 1 - share) * whole)


def test_potatoes_put_up_early_without_a_picking_in_the_log_are_lifted_all_the_same(
    alder_lane: Season,
) -> None:
    store = next(p for p in alder_lane.preserves if p.method == "root store" and "potato" in p.name)
    season, each = bare(alder_lane), store.ingredients[0].kg
    stored = Batch("A", LIFTED, None, store.name, 20.0, "", "")
    after = replace(season, record=Record(batches=(stored,)))

    day = LIFTED + timedelta(days=1)
    assert to_come(after, day, "potato").sum() == pytest.approx(
        to_come(season, day, "potato").sum() - 20 * each
    )


def test_an_early_lift_is_not_taken_from_a_sowing_due_months_later(alder_lane: Season) -> None:
    season, day = bare(alder_lane), date(2027, 6, 1)
    lifted = bare(season, Picking(day, "carrot", 5.0))

    assert to_come(season, day + WEEK, "carrot").sum() > 5
    assert to_come(lifted, day + WEEK, "carrot").sum() == pytest.approx(
        to_come(season, day + WEEK, "carrot").sum()
    )


def test_what_was_picked_at_once_is_not_expected_again_in_the_same_week(
    alder_lane: Season,
) -> None:
    season, crop = bare(alder_lane), "paste tomato"
    week = to_come(season, MONDAY, crop)[0]
    picked = bare(season, Picking(MONDAY, crop, 0.8 * week))

    assert to_come(picked, TUESDAY, crop)[0] == pytest.approx(0.2 * week)
    assert to_come(picked, TUESDAY, crop)[1] == to_come(season, TUESDAY, crop)[1] > 0


def test_what_is_picked_at_its_pace_leaves_the_rest_of_the_week_as_it_was(
    alder_lane: Season,
) -> None:
    season, crop = bare(alder_lane), "paste tomato"
    a_day = to_come(season, MONDAY, crop)[0] - to_come(season, TUESDAY, crop)[0]
    picked = bare(season, Picking(MONDAY, crop, a_day))

    assert to_come(picked, TUESDAY, crop) == pytest.approx(to_come(season, TUESDAY, crop))


def test_a_load_put_up_on_monday_is_not_asked_for_again_on_tuesday(alder_lane: Season) -> None:
    season, crop = bare(alder_lane), "paste tomato"
    made = next(p for p in season.preserves if p.name == "crushed tomatoes")
    each = next(part.kg for part in made.ingredients if part.crop == crop)
    load = Batch("A", MONDAY, None, made.name, 7.0, "", "")
    after = replace(season, record=Record(batches=(load,)))

    for day in (MONDAY, TUESDAY):
        assert to_come(after, day, crop)[0] == pytest.approx(
            to_come(season, MONDAY, crop)[0] - 7 * each
        )


def test_simulated_years_know_what_was_picked_early_too(alder_lane: Season) -> None:
    day = LIFTED + timedelta(days=1)
    lifted = bare(alder_lane, Picking(LIFTED, "potato", 1000.0))
    forecast = forecast_harvest(lifted, day)
    generator = np.random.default_rng(1)
    years = sampled_harvest(lifted, forecast, forecast.amounts, 50, generator)

    assert years[:, [own.name for own in lifted.crops].index("potato")].max() == 0


def test_a_crop_that_was_picked_is_not_expected_once_more_on_the_thermometer_s_word(
    alder_lane: Season,
) -> None:
    # demo_data/alder_lane: its thermometer dates the sweetcorn to September, 29 kg came in August
    cobs = [p for p in alder_lane.pickings if p.crop == "sweet corn" and p.day.year == 2027]
    before, after = (forecast_harvest(alder_lane, day) for day in (MONDAY, date(2027, 8, 31)))
    first = [
        dates.first
        for planting, dates in zip(before.plantings, before.dates, strict=True)
        if planting.crop == "sweet corn"
    ]

    assert first == [cobs[0].day]
    assert to_come(alder_lane, date(2027, 8, 31), "sweet corn").sum() == pytest.approx(0.0, abs=0.1)
    assert after.year == before.year


@pytest.mark.parametrize("share", [0.5, 1.2, 1.5, 3.0])
def test_no_more_is_to_come_than_a_good_year_has_left(alder_lane: Season, share: float) -> None:
    season, crop = bare(alder_lane), alder_lane.crop("strawberry")
    day = date(2027, 6, 21)
    whole = to_come(season, date(2027, 5, 3), crop.name).sum()
    picked = bare(season, Picking(day - timedelta(days=9), crop.name, share * whole))
    good = whole * (1 + NormalDist().inv_cdf(0.9) * crop.season_cv)

    left, usual = (to_come(own, day, crop.name).sum() for own in (picked, season))
    assert left <= usual + 1e-6
    assert left == pytest.approx(min(usual, max(0.0, good - share * whole)), rel=0.02, abs=0.05)
