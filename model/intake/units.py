"""Where units change: a heading's suffix, and the factor to the one unit used inside.

Source: exact definitions of the international yard and pound (1959) and US liquid measure.
"""

LB_KG = 0.45359237
FT_M = 0.3048
FL_OZ_ML = 29.5735295625

# Quantity -> heading suffix -> factor to the first suffix, which is the unit inside.
UNITS: dict[str, dict[str, float]] = {
    "area": {"m2": 1.0, "ft2": FT_M**2},
    "length": {"m": 1.0, "ft": FT_M},
    "mass": {"kg": 1.0, "lb": LB_KG, "oz": LB_KG / 16},
    "volume": {"ml": 1.0, "fl_oz": FL_OZ_ML, "l": 1000.0, "cu_ft": FT_M**3 * 1e6},
    "footprint": {"cm2": 1.0, "in2": 2.54**2},
    "temperature": {"c": 1.0, "f": 5 / 9},
}
FREEZING_F = 32.0


def inside(measure: str, unit: str, number: float) -> float:
    """Give a quantity in the unit used inside: the first of its measure."""
    if measure == "temperature" and unit == "f":
        number -= FREEZING_F
    return number * UNITS[measure][unit]


def outside(measure: str, unit: str, quantity: float) -> float:
    """Give a quantity of the unit used inside in another unit of its measure."""
    number = quantity / UNITS[measure][unit]
    return number + FREEZING_F if measure == "temperature" and unit == "f" else number
