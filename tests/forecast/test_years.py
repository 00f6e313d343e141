from dataclasses import replace
from datetime import date

import numpy as np
import pytest

from model.forecast.harvest import forecast_harvest
from model.forecast.years import sampled_harvest
from model.season.season import Season
from tests.small_season import TABLES, small_season

TODAY = date(2027, 3, 15)


@pytest.fixture(scope="module")
def years(alder_lane: Season) -> np.ndarray:
    forecast = forecast_harvest(alder_lane, TODAY)
    generator = np.random.default_rng(42)
    return sampled_harvest(alder_lane, forecast, forecast.amounts, 6000, generator)


def test_the_mean_of_the_years_is_the_expected_harvest(
    alder_lane: Season, years: np.ndarray
) -> None:
    forecast = forecast_harvest(alder_lane, TODAY)
    expected = forecast.kg_by_crop(forecast.amounts, len(alder_lane.crops)).sum(axis=1)
    sampled = years.sum(axis=2).mean(axis=0)

    # log-normal years: the standard error of the mean is about 1 % of it; dates that vary are
    # cut a little more by frost than the ordinary year's (winter squash by 7 %)
    assert sampled == pytest.approx(expected, rel=0.09)


def test_the_same_seed_gives_the_same_years(alder_lane: Season) -> None:
    forecast = forecast_harvest(alder_lane, TODAY)
    one, two = (
        sampled_harvest(alder_lane, forecast, forecast.amounts, 50, np.random.default_rng(7))
        for _ in range(2)
    )

    assert (one == two).all()


def test_a_family_shares_its_luck_more_than_strangers_do(
    alder_lane: Season, years: np.ndarray
) -> None:
    names = [crop.name for crop in alder_lane.crops]
    kg = np.log(years.sum(axis=2) + 0.01)
    by_rank = np.argsort(np.argsort(kg, axis=0), axis=0)

    def together(one: str, two: str) -> float:
        pair = by_rank[:, [names.index(one), names.index(two)]]
        return float(np.corrcoef(pair, rowvar=False)[0, 1])

    assert together("tomato", "potato") > together("tomato", "carrot") + 0.1
    assert together("tomato", "carrot") > 0.1


def test_near_total_losses_come_as_often_as_they_are_said_to(
    alder_lane: Season, years: np.ndarray
) -> None:
    names = [crop.name for crop in alder_lane.crops]
    onion = years.sum(axis=2)[:, names.index("onion")]
    lost = (onion < 0.25 * np.median(onion)).mean()

    # 5 in 100 lose all but a tenth; a few more are merely bad
    assert 0.04 <= lost <= 0.08


def test_a_garden_with_a_record_is_less_of_a_gamble(tiny: Season) -> None:
    seasons = "season,begins,ends\n2026,2026-01-01,2026-12-31\n2027,2027-01-01,2027-12-31\n"
    recorded = small_season(
        seasons=seasons,
        plantings=TABLES["plantings.csv"] + "2026,tomato,only bed,2026-03-20,2026-05-28,,12\n",
        harvest_log="picked_on,crop,picked_kg\n2026-08-15,tomato,50\n",
    )

    def spread(season: Season) -> float:
        forecast = forecast_harvest(season, date(2027, 3, 1))
        kg = sampled_harvest(season, forecast, forecast.amounts, 4000, np.random.default_rng(1))
        return float(np.log(kg[:, 1].sum(axis=1) + 0.5).std())

    assert spread(recorded) < 0.95 * spread(tiny)


def test_one_planting_more_leaves_the_years_of_the_others_as_they_are(tiny: Season) -> None:
    forecast = forecast_harvest(tiny, date(2027, 3, 1))
    twice = replace(tiny, plantings=(*tiny.plantings, tiny.plantings[0]))
    more = forecast_harvest(twice, date(2027, 3, 1))
    beans = [crop.name for crop in tiny.crops].index("bush bean")
    others = [c for c in range(len(tiny.crops)) if c != beans]
    few, many = (
        sampled_harvest(season, f, f.amounts, 700, np.random.default_rng(4))
        for season, f in ((tiny, forecast), (twice, more))
    )

    assert (few[:, others] == many[:, others]).all()
    assert many[:, beans].sum() > few[:, beans].sum()
