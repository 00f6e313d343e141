"""A household begins with a dozen answers: whatever they are, there is a season to plan."""

from dataclasses import replace
from datetime import date, timedelta

import numpy as np
import pytest

import model
from model import FirstAnswers, YearDay, first_notes, guesses, season_from_tables
from model.reference.read import table

NORTH = FirstAnswers(
    household="Our garden",
    adults=2,
    children_ages=(4, 9),
    bed_area_m2=40.0,
    altitude="640 m",
    units="metric",
    country="UK",
    last_spring_frost=YearDay(5, 10),
    first_autumn_frost=YearDay(10, 5),
    canner="boiling-water canner",
    freezer_l=80.0,
    shelf_m2=1.2,
    root_store_kg=70.0,
    kitchen_hours_a_week=5.0,
    time_zone="Europe/London",
)
SOUTH = replace(NORTH, last_spring_frost=YearDay(10, 1), first_autumn_frost=YearDay(5, 10))
KINDS = {
    "as asked": NORTH,
    "south": SOUTH,
    "no canner": replace(NORTH, canner=""),
    "no altitude": replace(NORTH, altitude=""),
    "pressure": replace(NORTH, canner="pressure canner, weighted gauge", altitude="2500 ft"),
    "hardly a frost": replace(
        NORTH, last_spring_frost=YearDay(1, 5), first_autumn_frost=YearDay(12, 20)
    ),
    "only a store": replace(NORTH, canner="", freezer_l=0.0, shelf_m2=0.0),
    "one person, one bed": replace(NORTH, adults=1, children_ages=(), bed_area_m2=4.0),
    "twelve in US units": replace(NORTH, adults=12, units="US", country="US", bed_area_m2=400.0),
}


@pytest.mark.parametrize("answers", KINDS.values(), ids=list(KINDS))
@pytest.mark.parametrize("month", [1, 4, 7, 10, 11])
def test_every_household_has_a_season_to_plan_from_any_month(
    answers: FirstAnswers, month: int
) -> None:
    today = date(2027, month, 20)
    season = season_from_tables(first_notes(answers, today))

    assert season.garden_seasons[0].begins <= today <= season.garden_seasons[-1].ends
    assert all(p.started and p.started >= today for p in season.plantings)
    assert not answers.altitude or season.altitude_ft is not None
    assert all((year.ends - year.begins).days <= 365 for year in season.garden_seasons)


def test_who_cans_nothing_grows_no_cucumbers_to_pickle_and_is_short_of_no_pickles() -> None:
    today = date(2027, 3, 20)
    season = season_from_tables(first_notes(KINDS["no canner"], today))
    canning = season_from_tables(first_notes(NORTH, today))

    assert "pickles" in {food.name for food in canning.foods}
    assert "pickles" not in {food.name for food in season.foods}
    assert "pickling cucumber" not in {planting.crop for planting in season.plantings}
    ground = [sum(p.amount * p.area_m2_per_unit for p in s.plantings) for s in (season, canning)]
    assert ground[0] == pytest.approx(ground[1], rel=0.05)


# model/reference/crops.csv: 50-95 days to a first picking, so before 5 October from 15 June.
def test_begun_in_june_this_years_bed_is_still_filled() -> None:
    today = date(2027, 6, 15)
    season = season_from_tables(first_notes(NORTH, today))
    planted = {p.crop for p in season.plantings}

    assert {p.season for p in season.plantings} == {"2027"}
    assert {"bush bean", "beetroot", "carrot", "kale"} <= planted
    assert not {"onion", "potato"} & planted
    assert model.plan_season(season, today, years=20).plan.to_fill.sum() > 0


def test_a_seedling_too_late_to_sow_is_one_to_buy() -> None:
    season = season_from_tables(first_notes(NORTH, date(2027, 4, 20)))
    tomato = next(p for p in season.plantings if p.crop == "tomato")

    assert tomato.sown is None
    assert tomato.planted_out == date(2027, 5, 17)


def test_begun_in_autumn_the_garden_year_is_the_next_and_no_longer_than_any() -> None:
    today = date(2027, 10, 20)
    season = season_from_tables(first_notes(NORTH, today))
    before, year = season.garden_seasons

    assert {p.season for p in season.plantings} == {"2028"} == {year.name}
    assert before.begins == today
    assert (year.ends - year.begins).days == 364


# Purdue HO-203, as read in the growing notes: weeks against the last frost, by hardiness class.
HO_203 = {
    "very hardy": (-6, -4, {"pea", "potato", "onion", "kale"}),
    "frost tolerant": (-3, -2, {"carrot", "beetroot", "cabbage"}),
    "tender": (0, 2, {"tomato", "paste tomato", "bush bean"}),
    "warm loving": (1, 2, {"summer squash", "winter squash", "pickling cucumber"}),
}


def test_first_plantings_stand_in_the_published_weeks() -> None:
    weeks = {row["crop"]: float(row["weeks_from_last_frost"]) for row in table("first_plantings")}

    assert set(weeks) == set().union(*(crops for _, _, crops in HO_203.values()))
    for early, late, crops in HO_203.values():
        assert all(early <= weeks[crop] <= late for crop in crops)


# Defra, Family Food, dataset of 17 December 2015: g a person a week bought in 2014.
DEFRA_2014_G = {
    "tomatoes": 83 + 55 + 4,
    "green beans": 19 + 3,
    "peas": 5 + 14 + 28,
    "potatoes": 431,
    "onions": 109,
    "roots": 102 + 44,
    "cabbage and greens": 181 - 5 - 19 - 32,
    "squash and courgettes": 73,
    "pickles": 13,
}


def test_first_portions_are_what_is_bought_in_a_week() -> None:
    season = season_from_tables(first_notes(NORTH, date(2027, 2, 1)))

    assert {food.name for food in season.foods} == set(DEFRA_2014_G)
    for food in season.foods:
        grams = food.portions_a_week * food.portion_g
        assert grams == pytest.approx(DEFRA_2014_G[food.name], abs=0.05 * food.portion_g + 1e-9)


@pytest.mark.parametrize("answers", [NORTH, SOUTH, KINDS["no canner"]], ids=["n", "s", "no canner"])
def test_the_first_season_is_planned(answers: FirstAnswers) -> None:
    planned = model.plan_season(
        season_from_tables(first_notes(answers, date(2027, 2, 1))), date(2027, 2, 1), years=20
    )

    assert planned.plan.to_fill.sum() > 0


def test_without_a_pressure_canner_no_low_acid_food_goes_into_jars() -> None:
    methods = {p.method for p in season_from_tables(first_notes(NORTH, date(2027, 2, 1))).preserves}

    assert methods == {"boiling water", "freeze", "root store"}
    assert "pressure" in {
        p.method
        for p in season_from_tables(first_notes(KINDS["pressure"], date(2027, 2, 1))).preserves
    }


def test_who_has_a_pressure_canner_puts_up_what_boiling_water_is_tested_for_too() -> None:
    boiled = {
        p.name
        for p in season_from_tables(first_notes(NORTH, date(2027, 2, 1))).preserves
        if p.method == "boiling water"
    }
    pressure = season_from_tables(first_notes(KINDS["pressure"], date(2027, 2, 1)))

    assert {"dill pickles", "crushed tomatoes", "pickled beetroot"} <= boiled
    assert boiled == {p.name for p in pressure.preserves if p.method == "boiling water"}
    assert "beans in jars" in {p.name for p in pressure.preserves}


# Boxes of jars as they are sold; a US quart is 946.35 ml, the largest size tested for these.
@pytest.mark.parametrize(
    ("country", "sizes_ml"), [("US", {473, 946}), ("UK", {500}), ("elsewhere", {370, 750})]
)
def test_jars_are_of_sizes_sold_there_and_enough_for_everyone(
    country: str, sizes_ml: set[int]
) -> None:
    tables = first_notes(replace(NORTH, country=country), date(2027, 2, 1))
    jars = {jar.name: jar for jar in season_from_tables(tables).jars}
    twice = replace(NORTH, country=country, adults=6)
    more = season_from_tables(first_notes(twice, date(2027, 2, 1))).jars

    used = {p.jar for p in season_from_tables(tables).preserves if p.method == "boiling water"}
    assert {round(jars[name].volume_l * 1000) for name in used} == sizes_ml
    assert all(other.owned == 2 * (jars[other.name].owned or 0) for other in more if other.owned)


def test_guesses_are_marked_and_named() -> None:
    tables = first_notes(KINDS["pressure"], date(2027, 2, 1))
    named = guesses(tables)

    assert named["frosts.csv"] == ("last spring frost", "first autumn frost")
    assert len(named["foods.csv"]) == 9
    assert "tomato" in named["plantings.csv"]
    for file in ("jars.csv", "equipment.csv", "plantings.csv", "preserves.csv", "foods.csv"):
        assert len(named[file]) == len(tables.tables[file].rows)
    assert "beds.csv" not in named


def test_a_household_is_told_its_faults_in_its_own_units() -> None:
    answers = replace(NORTH, units="US", bed_area_m2=2e5, kitchen_hours_a_week=200.0)
    with pytest.raises(model.SeasonProblems) as caught:
        first_notes(answers, date(2027, 2, 1))

    told = {problem.file: str(problem) for problem in caught.value.problems}
    assert "area_ft2" in told["beds.csv"]
    assert "give 0 to 112" in told["kitchen_hours.csv"]


def test_first_households_of_every_kind_are_planned_on_any_day() -> None:
    rng = np.random.default_rng(58)
    for answers in KINDS.values():
        today = date(2027, 1, 1) + timedelta(days=int(rng.integers(365)))
        season = season_from_tables(first_notes(answers, today))
        assert model.plan_season(season, today, years=10).plan.weeks.today == today


def test_what_a_household_does_not_grow_is_in_none_of_its_tables() -> None:
    chosen = ("tomato", "bush bean", "winter squash")
    season = season_from_tables(first_notes(replace(NORTH, crops=chosen), date(2027, 3, 1)))

    assert {planting.crop for planting in season.plantings} == set(chosen)
    assert {crop for food in season.foods for crop in food.crops} == set(chosen)
    assert {crop for preserve in season.preserves for crop in preserve.crops} == set(chosen)
    # USDA's crushed tomatoes are of any tomatoes, so that they need no paste tomatoes
    assert "crushed tomatoes" in {preserve.name for preserve in season.preserves}


@pytest.mark.parametrize("crop", FirstAnswers.CROPS)
@pytest.mark.parametrize("month", [3, 8])
def test_whoever_grows_one_crop_only_has_a_season(crop: str, month: int) -> None:
    answers = replace(KINDS["pressure"], crops=(crop,))
    season = season_from_tables(first_notes(answers, date(2027, month, 20)))

    assert [planting.crop for planting in season.plantings] == [crop]


def test_a_guessed_amount_is_no_fact_once_its_day_is_past() -> None:
    """Who follows the plan has planted what it said, not what the first notes guessed."""
    tables = first_notes(NORTH, date(2027, 3, 1))
    season = season_from_tables(tables)
    day = next(p.started for p in season.plantings if p.crop == "bush bean") or date.max
    before, after = (
        model.plan_season(season, when, years=20) for when in (day - timedelta(1), day)
    )
    told = replace(season, plantings=tuple(replace(p, guessed=False) for p in season.plantings))
    fixed = model.plan_season(told, day, years=20)
    (b,) = (b for b, p in enumerate(before.case.forecast.plantings) if p.crop == "bush bean")
    guess = season.plantings[b].amount

    assert all(planting.guessed for planting in season.plantings)
    assert fixed.plan.amounts[b] == pytest.approx(guess)
    assert before.plan.amounts[b] != pytest.approx(guess, rel=0.05)
    assert after.plan.amounts[b] == pytest.approx(before.plan.amounts[b], rel=0.2)


def test_who_grows_nothing_is_told_so() -> None:
    with pytest.raises(ValueError, match="one crop at least"):
        first_notes(replace(NORTH, crops=()), date(2027, 3, 1))


def test_where_nothing_can_be_kept_it_is_said() -> None:
    with pytest.raises(ValueError, match="nothing can be kept"):
        first_notes(replace(KINDS["only a store"], root_store_kg=0.0), date(2027, 2, 1))


@pytest.mark.parametrize(
    "altitude",
    ["1.200 m", "1 200 m", "2 500 ft", "1.2 km", "12 hundred m", "640 m above sea", "5000", "ft"],
)
def test_an_altitude_that_can_be_misread_is_refused_not_read_in_part(altitude: str) -> None:
    with pytest.raises(model.SeasonProblems, match="altitude"):
        first_notes(replace(NORTH, altitude=altitude), date(2027, 2, 1))


# 0.3048 m to the foot: international yard and pound agreement of 1959.
@pytest.mark.parametrize(
    ("altitude", "feet"),
    [
        ("2,500 ft", 2500.0),
        ("2500ft", 2500.0),
        ("2,500 Feet", 2500.0),
        ("2500'", 2500.0),
        ("762 m", 2500.0),
        (" 762m ", 2500.0),
        ("1,219.2 metres", 4000.0),
    ],
)
def test_an_altitude_is_read_whole_and_in_its_unit(altitude: str, feet: float) -> None:
    season = season_from_tables(first_notes(replace(NORTH, altitude=altitude), date(2027, 2, 1)))

    assert season.altitude_ft == feet
