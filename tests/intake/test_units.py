import pytest

from model.intake.units import UNITS, inside

# Source: the conversions practitioners use, to their printed digits.
CHECKS = [
    ("mass", "lb", 1, 0.45359),
    ("mass", "oz", 16, 0.45359),
    ("length", "ft", 100, 30.48),
    ("area", "ft2", 1, 0.0929),
    ("volume", "fl_oz", 32, 946.353),
    ("volume", "cu_ft", 1, 28316.8),
    ("temperature", "f", 32, 0.0),
    ("temperature", "f", 86, 30.0),
]


@pytest.mark.parametrize(("measure", "unit", "number", "expected"), CHECKS)
def test_conversions_agree_with_printed_ones(
    measure: str, unit: str, number: float, expected: float
) -> None:
    assert inside(measure, unit, number) == pytest.approx(expected, rel=1e-3, abs=1e-6)


def test_the_first_unit_of_a_measure_is_the_one_used_inside() -> None:
    for measure, units in UNITS.items():
        assert next(iter(units.values())) == 1.0, measure
