from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

import model
from dashboard.units import (
    US,
    altitude,
    amount,
    from_own,
    in_own,
    part_units,
    temperatures,
    units_of,
    weight,
    weights,
)


def test_weights_are_told_in_the_household_s_unit() -> None:
    # the international pound, exactly 0.45359237 kg
    assert weight(4.5359237, "US") == "10 lb"
    assert weight(4.5, "metric") == "4.5 kg"
    assert weights(0, 4.5359237, "US") == "0 to 10 lb"


def test_plants_are_whole_and_areas_keep_their_unit() -> None:
    assert amount(2.2, "plant", "metric") == "3 plants"
    assert amount(1, "plant", "US") == "1 plant"
    assert amount(9.290304, "m2 of bed", "US") == "100 ft²"
    assert amount(9.3, "m2 of bed", "metric") == "9.3 m²"
    # 119 of 10.7639 ft² a m², so that the rows of a garden add up to its ground
    assert amount(11.1, "m2 of bed", "US") == "119 ft²"
    assert amount(3.048, "m of row", "US") == "10 ft of row"


def test_parts_of_jars_are_told_as_people_say_them() -> None:
    assert part_units(0.5, "jar", "metric") == "half a jar"
    assert part_units(1.0, "pack", "metric") == "1 pack"
    assert part_units(2.4, "jar", "metric") == "2½ jars"
    assert part_units(0.2, "jar", "metric") == "one jar in 5 weeks"


def test_kilograms_and_litres_of_a_preserve_are_told_in_pounds_and_quarts() -> None:
    assert units_of(3.2, "kg", "metric") == "3.2 kg"
    assert units_of(4.5359237, "kg", "US") == "10 lb"
    assert part_units(4.5359237, "kg", "US") == "10 lb"
    # the US liquid quart, exactly 0.946352946 l
    assert units_of(1.892705892, "litre", "US") == "2 qt"
    assert units_of(1, "litre", "metric") == "1 litre"
    assert units_of(1, "100 g bag", "US") == "1 bag"


@pytest.mark.parametrize("unit", ["kg", "litre", "l", "m2 of bed", "m of row", "plant"])
@pytest.mark.parametrize("units", ["US", "metric"])
def test_what_is_shown_in_a_unit_is_read_back_as_it_was(unit: str, units: str) -> None:
    assert from_own(in_own(7.3, unit, units)[0], unit, units) == pytest.approx(7.3)


@given(st.integers(-500, 6000), st.sampled_from(["US", "metric"]))
def test_an_altitude_is_never_told_lower_than_it_is(metres: int, units: str) -> None:
    feet = Fraction(metres) / Fraction(3048, 10000)
    told = model.altitude_ft(altitude(feet, units))

    assert told >= feet
    assert told == feet if units == "metric" else told - feet < 1


def test_temperatures_are_told_in_the_household_s_degrees() -> None:
    assert temperatures(0.0, 0.0, "metric") == "0 °C"
    assert temperatures(-1.0, 4.5, "metric") == "-1 to 4.5 °C"
    assert temperatures(26.7, 29.4, US) == "80 to 85 °F"
