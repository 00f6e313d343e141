"""A household begins with a dozen answers: whatever they are, there is a season to plan."""

from dataclasses import replace
from datetime import date

import pytest

import model
from model import FirstAnswers, YearDay, first_notes, guesses, season_from_tables

NORTH = FirstAnswers(
    household="Our garden",
    adults=2,
    children_ages=(4, 9),
    bed_area_m2=40.0,
    altitude="640 m",
    units="metric",
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
    "only a store": replace(NORTH, canner="", freezer_l=0.0, shelf_m2=0.0),
    "one person, one bed": replace(NORTH, adults=1, children_ages=(), bed_area_m2=4.0),
    "twelve in US units": replace(NORTH, adults=12, units="US", bed_area_m2=400.0),
}


@pytest.mark.parametrize("answers", KINDS.values(), ids=list(KINDS))
@pytest.mark.parametrize("month", [1, 4, 7, 11])
def test_every_household_has_a_season_to_plan_from_any_month(
    answers: FirstAnswers, month: int
) -> None:
    today = date(2027, month, 10)
    season = season_from_tables(first_notes(answers, today))

    assert season.garden_seasons[0].begins <= today <= season.garden_seasons[-1].ends
    assert all(p.started and p.started >= today for p in season.plantings)
    assert not answers.altitude or season.altitude_ft is not None


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


def test_guesses_are_marked_and_named() -> None:
    named = guesses(first_notes(NORTH, date(2027, 2, 1)))

    assert named["frosts.csv"] == ("last spring frost", "first autumn frost")
    assert len(named["foods.csv"]) == 9
    assert "tomato" in named["plantings.csv"]
    assert "beds.csv" not in named


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
