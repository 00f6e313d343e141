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


def test_air_is_thinner_higher_up() -> None:
    heights = [0.0, 300.0, 640.0, 1500.0, 3000.0]
    pressures = [air_pressure_kpa(height) for height in heights]

    assert pressures == sorted(pressures, reverse=True)
    assert abs(pressures[0] - 101.325) < 1e-9
