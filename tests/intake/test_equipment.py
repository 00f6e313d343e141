"""Canners and kitchen hours say what is missing, once."""

from datetime import date

import pytest

from tests.intake.faulty import faults
from tests.small_season import TABLES, small_season

PLACES = "place,kind,shelf_area_m2,volume_l,holds_kg,{},humidity_percent\nshelf,shelf,1,,,{},\n"
FREEZER, CELLAR = "freezer,freezer,,150,,,\n", "cellar,root store,,,100,{},{}\n"


def test_a_canner_without_its_jar_says_which_there_are() -> None:
    pan = "pan,boiling-water canner,,7\n"
    problem = next(p for p in faults(equipment=TABLES["equipment.csv"] + pan) if p.row == 4)

    assert problem.found == "jar is empty"
    assert problem.wanted == "use one of: quart, pint, pack"


def test_the_hours_of_every_other_week_are_asked_for_once() -> None:
    (problem,) = faults(kitchen_hours="begins,ends,hours_a_week\n")

    assert problem.found == "not one row stands for all other weeks"


def test_hours_at_fault_are_not_told_again_as_missing() -> None:
    (problem,) = faults(kitchen_hours="begins,ends,hours_a_week\n,,many\n")

    assert problem.found == "hours_a_week is 'many'"


def test_a_cellar_in_fahrenheit_is_as_warm_as_in_celsius() -> None:
    for unit, warmth in (("temp_c", "5"), ("temp_f", "41")):
        places = PLACES.format(unit, "") + FREEZER + CELLAR.format(warmth, "90")
        cellar = small_season(places=places).places[-1]

        assert cellar.temp_c == pytest.approx(5)
        assert cellar.humidity_percent == 90


@pytest.mark.parametrize(("warmth", "humidity"), [("55", "90"), ("-40", "90"), ("5", "130")])
def test_air_that_no_store_has_is_a_fault(warmth: str, humidity: str) -> None:
    places = PLACES.format("temp_c", "") + FREEZER + CELLAR.format(warmth, humidity)
    (problem,) = faults(places=places)

    assert problem.row == 4


def test_the_air_of_a_shelf_is_not_asked_for() -> None:
    (problem,) = faults(places=PLACES.format("temp_c", "18") + FREEZER)

    assert problem.wanted == "only for root stores"


def test_a_freezer_works_from_a_day_and_nothing_else_does() -> None:
    places = (
        "place,kind,shelf_area_m2,volume_l,works_from\nshelf,shelf,1,,{}\nfreezer,freezer,,150,{}\n"
    )

    assert small_season(places=places.format("", "2027-08-18")).places[1].works_from == date(
        2027, 8, 18
    )
    (problem,) = faults(places=places.format("2027-08-18", ""))
    assert problem.wanted == "only for freezers"
