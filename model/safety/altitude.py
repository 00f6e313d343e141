"""Altitude: read exactly, and what it does to boiling water.

Source: U.S. Standard Atmosphere 1976 for pressure, the Antoine equation for water;
agrees with the published table of boiling points within 0.1 C (tests/published).
"""

import math
import re
from fractions import Fraction

FOOT_M = Fraction(3048, 10000)
_ALTITUDE = re.compile(
    r"^\s*(-?\d+(?:[.]\d+)?)\s*(m|metres?|meters?|ft|feet|foot|')\s*$", re.IGNORECASE
)


def altitude_ft(text: str) -> Fraction:
    """Read an altitude such as ``762 m`` or ``2,500 ft`` as exact feet.

    Raises ValueError when there is no unit or no number: an altitude is never guessed.
    """
    match = _ALTITUDE.match(text.replace(",", "")) if text else None
    if match is None:
        raise ValueError(f"{text!r} is not an altitude; write it with its unit: 762 m, 2500 ft")
    number = Fraction(match[1])
    return number / FOOT_M if match[2].lower().startswith("m") else number


def air_pressure_kpa(altitude_m: float) -> float:
    """Give the pressure of the standard atmosphere at an altitude."""
    return float(101.325 * (1 - 2.25577e-5 * altitude_m) ** 5.25588)


def boiling_point_c(altitude_m: float) -> float:
    """Give the temperature at which water boils at an altitude."""
    pressure_mmhg = air_pressure_kpa(altitude_m) * 7.500616827
    return 1730.63 / (8.07131 - math.log10(pressure_mmhg)) - 233.426
