import math
from datetime import date

import pytest

from model.forecast.growth import expected_week_shares, picking_dates
from model.forecast.harvest import forecast_harvest
from model.forecast.yields import own_yield
from model.season.season import Season
from model.season.weeks import Weeks
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
    season = small_season()
    tomatoes = next(p for p in season.plantings if p.crop == "tomato")
    whole_year = Weeks(date(2027, 1, 4), 60)
    dates = picking_dates(season, tomatoes, date(2027, 1, 1))
    left = expected_week_shares(dates, whole_year).sum() / (1 - dates.chance_killed_young)
    published = 12 * 4.176 * left
    own = own_yield(with_log(2 * published), season.crop("tomato"), LATER)
    s2, t2 = math.log(1 + 0.45**2), math.log(1.8) ** 2
    x = math.log(2) + s2 / 2

    assert own.seasons == 1
    assert math.log(own.factor) == pytest.approx(x / (1 + s2 / t2))
    assert own.garden_log_sd**2 == pytest.approx(1 / (1 / t2 + 1 / s2))


def test_what_frost_usually_takes_is_not_taken_twice() -> None:
    """A garden that always gives what the forecast says keeps its yield."""
    first = forecast_harvest(small_season(), date(2027, 3, 1))
    tomato = first.kg_by_crop(first.amounts, 2)[1].sum() / (1 - 0.1 * 0.9)
    young = 1 - first.dates[1].chance_killed_young
    own = own_yield(with_log(tomato / young), small_season().crop("tomato"), LATER)
    s2, t2 = math.log(1 + 0.45**2), math.log(1.8) ** 2

    assert math.log(own.factor) == pytest.approx((s2 / 2) / (1 + s2 / t2), abs=0.01)


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


def test_last_years_hail_falls_on_nothing_of_this_year() -> None:
    seasons = "season,begins,ends\n2026,2026-01-01,2026-12-31\n2027,2027-01-01,2027-12-31\n"
    hail = "noticed_on,crop,lost_percent\n2026-08-20,tomato,80\n2026-12-01,bush bean,50\n"
    whole, hit = (
        forecast_harvest(small_season(seasons=seasons, setbacks=told), date(2027, 3, 1))
        for told in (None, hail)
    )

    assert (whole.kg_per_unit == hit.kg_per_unit).all()


def test_a_spring_frost_cannot_take_what_has_come_through_it(tiny: Season) -> None:
    before, after = (forecast_harvest(tiny, day) for day in (date(2027, 5, 25), date(2027, 6, 1)))

    assert (before.dates[1].chance_killed_young, after.dates[1].chance_killed_young) == (
        pytest.approx(0.333 * tiny.frosts.last_spring.chance_after(date(2027, 5, 28))),
        0.0,
    )


def test_of_the_current_week_only_the_days_to_come_count(tiny: Season) -> None:
    monday, friday = (forecast_harvest(tiny, day) for day in (date(2027, 8, 16), date(2027, 8, 20)))

    assert friday.weeks.days_over == 4
    assert friday.kg_per_unit[1, 0] == pytest.approx(monday.kg_per_unit[1, 0] * 3 / 7, rel=0.15)
    assert friday.kg_per_unit[1, 1:] == pytest.approx(monday.kg_per_unit[1, 1:])


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
