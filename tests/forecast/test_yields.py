import math
from dataclasses import replace
from datetime import date

import numpy as np
import pytest

from model.forecast.growth import expected_week_shares, picking_dates
from model.forecast.harvest import forecast_harvest
from model.forecast.years import sampled_harvest
from model.forecast.yields import own_yield, season_ratios
from model.season.garden import Picking
from model.season.season import Season
from model.season.weeks import Weeks
from tests.small_season import TABLES, small_season

LATER = date(2028, 1, 15)
TWO_LATER = date(2028, 12, 1)
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


def test_an_abnormal_season_stays_in_the_risk() -> None:
    """Beta-binomial rule: (10 p + lost) / (10 + seasons); a crop all but gone is one lost."""
    tomato = small_season().crop("tomato")
    published = tomato.chance_near_total_loss
    chance = {
        kg: own_yield(with_log(kg, normal="no"), tomato, LATER).chance_lost
        for kg in (0.5, 25.0, 80.0)
    }

    assert chance[0.5] == pytest.approx((10 * published + 1) / 11)
    assert published < chance[25.0] < chance[0.5]
    assert chance[80.0] == pytest.approx(10 * published / 11)


def test_a_crop_of_which_an_abnormal_season_gave_nothing_was_lost() -> None:
    tomato, bean = (small_season().crop(name) for name in ("tomato", "bush bean"))
    season = with_log(50.0, normal="no")
    own = {crop.name: own_yield(season, crop, LATER) for crop in (tomato, bean)}

    assert own["bush bean"].abnormal == 1
    assert own["bush bean"].chance_lost == pytest.approx(
        (10 * bean.chance_near_total_loss + 1) / 11
    )
    assert own_yield(with_log(50.0), bean, LATER).abnormal == 0


def test_made_up_years_lose_a_crop_as_often_as_its_abnormal_seasons_say() -> None:
    seasons = "season,begins,ends,normal\n2026,2026-01-01,2026-12-31,no\n"
    season = small_season(
        seasons=seasons + "2027,2027-01-01,2027-12-31,yes\n",
        plantings=TABLES["plantings.csv"] + "2026,tomato,only bed,2026-03-20,2026-05-28,,12\n",
        harvest_log="picked_on,crop,picked_kg\n2026-08-15,tomato,0.5\n",
    )
    forecast = forecast_harvest(season, date(2027, 3, 1))
    kg = sampled_harvest(season, forecast, forecast.amounts, 6000, np.random.default_rng(3))
    tomatoes = kg[:, 1].sum(axis=1)
    lost = (tomatoes < 0.25 * np.median(tomatoes)).mean()
    chance = forecast.own[1].chance_lost

    # the garden's spread and ordinary bad years put a few more below a quarter
    assert chance - 0.04 < lost < chance + 0.08
    assert lost > season.crop("tomato").chance_near_total_loss + 0.04


def with_two_seasons() -> Season:
    """Two seasons of tomatoes, planted and logged, and a third of beans alone."""
    seasons = "".join(f"{y},{y}-01-01,{y}-12-31\n" for y in (2026, 2027, 2028))
    tomatoes = "".join(f"{y},tomato,only bed,{y}-03-20,{y}-05-28,,12\n" for y in (2026, 2027))
    return small_season(
        seasons=f"season,begins,ends\n{seasons}",
        plantings=f"season,crop,bed,sown,planted_out,area_m2,plants\n{tomatoes}"
        "2028,bush bean,only bed,2028-05-28,,8,\n",
        harvest_log="picked_on,crop,picked_kg\n2026-08-15,tomato,50\n2027-08-15,tomato,50\n",
    )


def seasons_of(gardens: int, years: int, cv: float, generator: np.random.Generator) -> np.ndarray:
    """Give the lasting factors of some gardens (mean 1), and what each season gave, as ratios."""
    t, s = math.log(1.8), math.sqrt(math.log(1 + cv**2))
    factor = np.exp(t * generator.standard_normal(gardens) - t**2 / 2)
    luck = np.exp(s * generator.standard_normal((gardens, years)) - s**2 / 2)
    return np.column_stack([factor, factor[:, None] * luck])


@pytest.fixture(scope="module")
def learned_gardens() -> dict[str, np.ndarray]:
    """300 made-up gardens with two logged seasons of tomatoes, learned from their notes."""
    season, today = with_two_seasons(), TWO_LATER
    tomato = season.crop("tomato")
    days = [date(year, 8, 15) for year in (2026, 2027)]
    one_kg = replace(season, pickings=tuple(Picking(day, "tomato", 1.0) for day in days))
    usual = [1 / ratio for ratio in season_ratios(one_kg, "tomato", today).values()]
    gardens = seasons_of(300, 2, tomato.season_cv, np.random.default_rng(11))
    own = []
    for _, *ratios in gardens:
        picked = zip(days, usual, ratios, strict=True)
        log = tuple(Picking(day, "tomato", kg * ratio) for day, kg, ratio in picked)
        own.append(own_yield(replace(season, pickings=log), tomato, today))
    return {
        "truth": gardens[:, 0],
        "own": np.array([one.factor for one in own]),
        "range": np.array([one.range for one in own]),
    }


def test_the_range_of_a_gardens_yield_holds_the_truth_eight_times_in_ten(
    learned_gardens: dict[str, np.ndarray],
) -> None:
    low, high = learned_gardens["range"].T
    inside = (low <= learned_gardens["truth"]) & (learned_gardens["truth"] <= high)

    assert 0.75 <= inside.mean() <= 0.85


def test_two_seasons_more_than_halve_the_error_of_the_yield_of_tomatoes(
    learned_gardens: dict[str, np.ndarray],
) -> None:
    truth = np.log(learned_gardens["truth"])
    # before any season: the middle of the prior, whose mean is 1
    prior = truth + math.log(1.8) ** 2 / 2
    learned = truth - np.log(learned_gardens["range"]).mean(axis=1)

    assert np.sqrt((learned**2).mean()) < 0.5 * np.sqrt((prior**2).mean())


@pytest.mark.parametrize(
    ("cv", "after_two"), [(0.25, 0.284), (0.35, 0.379), (0.45, 0.459), (0.6, 0.555)]
)
def test_how_much_of_the_error_two_seasons_leave_depends_on_the_crops_scatter(
    cv: float, after_two: float
) -> None:
    """A fruit tree (0.6 in needs-uncertainty) scatters too much for two seasons to halve it."""
    season = with_two_seasons()
    own = own_yield(season, replace(season.crop("tomato"), season_cv=cv), TWO_LATER)

    assert own.seasons == 2
    assert own.garden_log_sd / math.log(1.8) == pytest.approx(after_two, abs=0.001)


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


def test_a_ground_that_nobody_wrote_down_teaches_no_yield() -> None:
    """What was picked of it says nothing, because how much was sown is only a guess."""
    season = with_log(50.0)
    guessed = replace(
        season, plantings=tuple(replace(planting, guessed=True) for planting in season.plantings)
    )

    assert own_yield(season, season.crop("tomato"), LATER).seasons == 1
    assert season_ratios(guessed, "tomato", LATER) == {}
    assert own_yield(guessed, season.crop("tomato"), LATER).factor == 1.0
