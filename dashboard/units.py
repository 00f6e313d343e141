"""Quantities in the household's own units; inside, everything is metric.

Amounts of a preserve are counted in its own unit (jar, pack, kg, litre, 100 g bag): only
kilograms and litres are told otherwise in a household of US units.
"""

import math
from fractions import Fraction

import model
from dashboard.words import about
from model import US, from_own, in_own

__all__ = ["US", "from_own", "in_own"]

LEAST_WHOLE = 10
LEAST_KG, OZ_PER_LB = 0.1, 16
M_PER_FT = Fraction(3048, 10000)
_NOUNS = {"jar": "jar", "pack": "pack", "100 g bag": "bag", "plant": "plant", "litre": "litre"}


def weight(kg: float, units: str) -> str:
    """Give a weight in the household's own unit, a small one in the next below it."""
    if 0 < kg < LEAST_KG:
        each, unit = _told_in(kg, units)
        return f"{about(each * kg)} {unit}"
    return units_of(kg, "kg", units)


def weight_with(kg: float, low_kg: float, high_kg: float, units: str) -> str:
    """Give a weight, and in brackets from what to what it may be; their unit stands once."""
    each, unit = _told_in(kg, units)
    told, low, high = (about(each * one) for one in (kg, low_kg, high_kg))
    return f"{told} {unit} ({low} to {high})"


def _told_in(kg: float, units: str) -> tuple[float, str]:
    """Give the unit that a weight is told in, and how many of it a kilogram is."""
    each, unit = in_own(1.0, "kg", units)
    if kg >= LEAST_KG:
        return each, unit
    return (OZ_PER_LB * each, "oz") if units == US else (1000.0, "g")


def weights(low_kg: float, high_kg: float, units: str) -> str:
    """Give a range of weights, its unit once."""
    low, unit = in_own(low_kg, "kg", units)
    return f"{about(low)} to {about(in_own(high_kg, 'kg', units)[0])} {unit}"


def amount(number: float, per: str, units: str) -> str:
    """Give how much is planted, in its own unit; plants are whole."""
    if per == "plant":
        plants = math.ceil(number - 1e-9)
        return f"{plants} plant{'s' if plants != 1 else ''}"
    own, word = in_own(number, per, units)
    # Ground is marked out to the foot or metre, and beds add up only so.
    told = f"{own:,.0f}" if per.startswith("m2") and own >= LEAST_WHOLE else about(own)
    return f"{told} {word}"


def altitude(feet: Fraction, units: str) -> str:
    """Give an altitude in whole units, never lower than it is: a lower one asks for less."""
    if units == US:
        return f"{math.ceil(feet)} ft"
    return f"{math.ceil(feet * M_PER_FT)} m"


def temperatures(low_c: float, high_c: float, units: str) -> str:
    """Give a temperature, or a range of them, in whole degrees F or half degrees C."""
    own = (round(c * 1.8 + 32) if units == US else round(2 * c) / 2 for c in (low_c, high_c))
    low, high = (f"{degree:g}" for degree in own)
    degrees = model.FAHRENHEIT if units == US else model.CELSIUS
    return f"{low} {degrees}" if low == high else f"{low} to {high} {degrees}"


def units_of(number: float, unit: str, units: str) -> str:
    """Give a number of jars, packs, kilograms or litres with the right noun."""
    if unit not in _NOUNS or (unit == "litre" and units == US):
        own, word = in_own(number, unit, units)
        return f"{about(own)} {word}"
    if unit == "litre":
        return f"{about(number)} {'litre' if about(number) == '1' else 'litres'}"
    whole = round(number)
    return f"{whole} {_NOUNS[unit]}{'' if whole == 1 else 's'}"


def part_units(number: float, unit: str, units: str) -> str:
    """Give part of a jar or pack as people say it: half a jar, 2 1/2 jars, or one a fortnight."""
    if unit in ("kg", "litre"):
        return units_of(number, unit, units)
    halves, noun = round(2 * number), _NOUNS[unit]
    if halves == 0:
        return f"one {noun} in {round(1 / number)} weeks"
    if halves == 1:
        return f"half a {noun}"
    whole = f"{halves // 2}½" if halves % 2 else f"{halves // 2}"
    return f"{whole} {noun if halves == 2 else noun + 's'}"
