import math
from datetime import date

import pytest

from model.forecast.harvest import forecast_harvest
from model.forecast.yields import own_yield
from model.season.season import Season
from tests.small_season import TABLES, small_season

LATER = date(2028, 1, 15)
SEASONS = (
    "season,begins,ends,normal\n2027,2027-01-01,2027-12-31,{}\n2028,2028-01-01,2028-12-31,yes\n"
)


def with_log(kg: float, normal: str = "yes") -> Season:
    log = f"picked_on,crop,picked_kg\n2027-08-15,tomato,{kg}\n"
    return small_season(harvest_log=log, seasons=SEASONS.format(normal))


def test_without_a_record_the_published_yield_stands(tiny: Season) -> None:
    own = own_yield(tiny, tiny.crop("tomato"), date(2027, 3, 1))

    assert (own.seasons, own.factor) == (0, 1.0)
    assert own.garden_log_sd == pytest.approx(math.log(1.8))


def test_one_own_season_moves_the_yield_by_the_textbook_weight() -> None:
    """Normal-normal rule: m = n x / (n + s^2/t^2), v = 1 / (1/t^2 + n/s^2)."""
    published = 12 * 4.176
    own = own_yield(with_log(2 * published), small_season().crop("tomato"), LATER)
    s2, t2 = math.log(1 + 0.45**2), math.log(1.8) ** 2
    x = math.log(2) + s2 / 2

    assert own.seasons == 1
    assert math.log(own.factor) == pytest.approx(x / (1 + s2 / t2))
    assert own.garden_log_sd**2 == pytest.approx(1 / (1 / t2 + 1 / s2))


def test_an_abnormal_season_does_not_move_the_mean() -> None:
    own = own_yield(with_log(3.0, normal="no"), small_season().crop("tomato"), LATER)

    assert (own.seasons, own.factor) == (0, 1.0)


def test_a_season_that_is_not_over_does_not_count() -> None:
    own = own_yield(with_log(3.0), small_season().crop("tomato"), date(2027, 8, 20))

    assert own.seasons == 0


def test_the_forecast_is_area_times_yield_less_what_is_lost(tiny: Season) -> None:
    forecast = forecast_harvest(tiny, date(2027, 3, 1))
    beans = forecast.kg_by_crop(forecast.amounts, len(tiny.crops))[0].sum()
    survives = 1 - 0.05 * 0.9
    young = 1 - 0.333 * tiny.frosts.last_spring.chance_after(date(2027, 5, 28))

    assert beans == pytest.approx(8 * 3.906 * survives * young, rel=0.01)


def test_half_a_crop_gone_halves_what_is_still_to_come() -> None:
    hail = small_season(setbacks="noticed_on,crop,lost_percent\n2027-07-01,tomato,50\n")
    before = forecast_harvest(hail, date(2027, 6, 20))
    after = forecast_harvest(hail, date(2027, 7, 2))
    whole = before.kg_by_crop(before.amounts, 2)[1].sum()

    assert after.kg_by_crop(after.amounts, 2)[1].sum() == pytest.approx(whole / 2, rel=0.01)


def test_the_new_crop_is_the_late_side_of_next_years_first_picking(tiny: Season) -> None:
    forecast = forecast_harvest(tiny, date(2027, 3, 1))

    assert forecast.new_crop == {"beans": date(2028, 7, 27), "tomatoes": date(2028, 8, 21)}
    assert forecast.weeks.monday(len(forecast.weeks) - 1) == date(2028, 8, 21)


def test_the_plantings_written_down_for_next_year_give_the_new_crop() -> None:
    plantings = TABLES["plantings.csv"] + "2028,tomato,only bed,2028-03-01,2028-05-10,,12\n"
    season = small_season(plantings=plantings, seasons=SEASONS.format("yes"))

    assert forecast_harvest(season, date(2027, 3, 1)).new_crop["tomatoes"] > date(2028, 8, 3)


def test_what_has_been_sown_is_fixed() -> None:
    plantings = TABLES["plantings.csv"].replace("plants\n", "plants,least_percent,most_percent\n")
    plantings = plantings.replace("8,\n", "8,,50,200\n").replace(",12\n", ",12,50,200\n")
    season = small_season(plantings=plantings)
    before, after = (forecast_harvest(season, day) for day in (date(2027, 3, 1), date(2027, 6, 20)))

    assert list(before.least) == [4, 6]
    assert list(before.most) == [16, 24]
    assert list(after.least) == list(after.most) == [8, 12]
