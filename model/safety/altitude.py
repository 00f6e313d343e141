"""Altitude: read exactly, and what it does to boiling water.

Source: U.S. Standard Atmosphere 1976 for pressure, the Antoine equation for water;
agrees with the published table of boiling points within 0.1 C (tests/published).
"""

import math
import re
from fractions import Fraction

FOOT_M = Fraction(3048, 10000)
# From below the shore of the Dead Sea to above the highest town: a kitchen lies between.
LOWEST_FT, HIGHEST_FT = Fraction(-1700), Fraction(20000)
_ALTITUDE = re.compile(
    r"\s*(-?(?:[0-9]{1,9}|[0-9]{1,3}(?:,[0-9]{3}){1,2})(?:[.][0-9]{1,9})?)\s*"
    r"(m|metres?|meters?|ft|feet|foot|')\s*",
    re.IGNORECASE,
)
_DOT_OR_THOUSANDS = re.compile(r"-?[1-9][0-9]{0,2}[.][0-9]{3}")


def altitude_ft(text: str) -> Fraction:
    """Read an altitude such as ``762 m`` or ``2,500 ft`` as exact feet.

    A comma is a thousands mark and nothing else, and what could be one in another country
    (``1.200 m``) is not read: an altitude is never guessed.

    Raises
    ------
    ValueError : when there is no unit or no number, when the number can be read in two ways,
        or when it is no place for a kitchen (see ``check_altitude``).

    >>> model.altitude_ft("762 m")
    Fraction(2500, 1)
    >>> model.altitude_ft("1.200 m")
    Traceback (most recent call last):
        ...
    ValueError: '1.200 m' can be read in two ways; write thousands without a mark (1200) and
    decimals with other than three figures
    """
    match = _ALTITUDE.fullmatch(text)
    if match is None:
        mark = "; a comma marks thousands only (2,500), a dot the decimals" if "," in text else ""
        raise ValueError(
            f"{text[:40]!r} is not an altitude; write it with its unit: 762 m, 2500 ft{mark}"
        )
    if _DOT_OR_THOUSANDS.fullmatch(match[1]):
        raise ValueError(
            f"{text[:40]!r} can be read in two ways; write thousands without a mark "
            f"({match[1].replace('.', '')}) and decimals with other than three figures"
        )
    number = Fraction(match[1].replace(",", ""))
    metric = match[2].lower().startswith("m")
    altitude = number / FOOT_M if metric else number
    check_altitude(altitude, metric=metric)
    return altitude


def check_altitude(altitude: Fraction, *, metric: bool = False) -> None:
    """Check that people cook at an altitude, in feet; say what is wrong in metres if ``metric``.

    Raises ValueError outside -1,700 to 20,000 ft, which are -518 to 6,096 m.
    """
    if not LOWEST_FT <= altitude <= HIGHEST_FT:
        of_foot, unit = (FOOT_M, "m") if metric else (Fraction(1), "ft")
        lowest, highest = math.ceil(LOWEST_FT * of_foot), math.floor(HIGHEST_FT * of_foot)
        raise ValueError(
            f"{float(altitude * of_foot):,.12g} {unit} is not the altitude of a kitchen; "
            f"give {lowest:,} to {highest:,} {unit}"
        )


def air_pressure_kpa(altitude_m: float) -> float:
    """Give the pressure of the standard atmosphere, in kPa, at an altitude in m."""
    return float(101.325 * (1 - 2.25577e-5 * altitude_m) ** 5.25588)


def boiling_point_c(altitude_m: float) -> float:
    """Give the temperature, in degrees C, at which water boils at an altitude in m.

    Sources: U.S. Standard Atmosphere 1976, the Antoine equation for water.
    """
    pressure_mmhg = air_pressure_kpa(altitude_m) * 7.500616827
    return 1730.63 / (8.07131 - math.log10(pressure_mmhg)) - 233.426
