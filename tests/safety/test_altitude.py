from fractions import Fraction

import pytest

from model.safety.altitude import air_pressure_kpa, altitude_ft


def test_metres_and_feet_are_read_exactly() -> None:
    assert altitude_ft("304.8 m") == 1000
    assert altitude_ft("2,500 ft") == 2500
    assert altitude_ft("762m") == 2500
    assert altitude_ft("1000.0001 ft") > 1000
    assert altitude_ft("-3 m") == Fraction(-30000, 3048)


@pytest.mark.parametrize("text", ["", "762", "high up", "ft", "1e3 m", "700 km", "nan m"])
def test_an_altitude_without_number_or_unit_is_refused(text: str) -> None:
    with pytest.raises(ValueError, match="not an altitude"):
        altitude_ft(text)


@pytest.mark.parametrize("text", ["1.200 m", "2.500 ft", "-1.200 m", "304.800 m"])
def test_a_dot_that_may_mark_thousands_is_refused(text: str) -> None:
    with pytest.raises(ValueError, match="two ways; write thousands without a mark"):
        altitude_ft(text)


@pytest.mark.parametrize("text", ["182,5 m", "1,20 m", "1200,500 ft", ",5 m", "1,2,000 ft"])
def test_a_comma_marks_thousands_and_nothing_else(text: str) -> None:
    with pytest.raises(ValueError, match="a comma marks thousands only"):
        altitude_ft(text)


def test_marks_that_can_be_read_in_one_way_are_read() -> None:
    assert altitude_ft("2,500.5 ft") == Fraction(5001, 2)
    assert altitude_ft("0.125 ft") == Fraction(1, 8)
    assert altitude_ft("1234.567 ft") == Fraction(1234567, 1000)


@pytest.mark.parametrize("text", ["-1701 ft", "20000.1 ft"])
def test_an_altitude_where_no_one_cooks_is_refused(text: str) -> None:
    with pytest.raises(ValueError, match=r"-1,700 to 20,000 ft"):
        altitude_ft(text)


# The foot is 0.3048 m by definition: 1,700 and 20,000 of them are 518.16 and 6,096 m.
@pytest.mark.parametrize("metres", ["-519", "6,096.4", "999,999,999"])
def test_what_was_typed_in_metres_is_refused_in_metres(metres: str) -> None:
    told = f"{metres} m is not the altitude of a kitchen; give -518 to 6,096 m"
    with pytest.raises(ValueError, match=f"^{told}$"):
        altitude_ft(f"{metres} m")


def test_the_bounds_themselves_are_read() -> None:
    assert (altitude_ft("-1,700 ft"), altitude_ft("20,000 ft")) == (-1700, 20000)
    assert altitude_ft("6,096 m") == 20000


def test_a_number_of_thousands_of_figures_is_refused_as_any_other_text() -> None:
    with pytest.raises(ValueError, match="not an altitude"):
        altitude_ft(f"{'9' * 5000} m")


def test_air_is_thinner_higher_up() -> None:
    heights = [0.0, 300.0, 640.0, 1500.0, 3000.0]
    pressures = [air_pressure_kpa(height) for height in heights]

    assert pressures == sorted(pressures, reverse=True)
    assert abs(pressures[0] - 101.325) < 1e-9
