"""A weather station's or thermometer's daily file becomes temperatures, or all its faults.

Three forms are read, told apart by their first row:

- GHCN-Daily by station ("access"): headings STATION, DATE, ..., TMAX, TMAX_ATTRIBUTES, TMIN, ...;
- GHCN-Daily one value a row: ID, YYYYMMDD, element, value, three flags, time; headings or none;
- own columns: date, min_c and max_c, or min_f and max_f.

Source: GHCN-Daily's readme and the readme of its by-station files (NOAA National Centers for
Environmental Information): TMAX and TMIN in tenths of degrees C, -9999 where missing, a
quality flag where the value failed a check. Downloads made to order hold whole degrees C or F
under the same headings without saying which: what cannot be told is refused.
"""

import csv
import io
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date
from itertools import zip_longest

from model.errors import Problem, SeasonProblems
from model.intake.cells import read_day
from model.intake.csv_text import decoded, file_fault
from model.intake.folder import MOST_BYTES, shown_name
from model.intake.units import inside
from model.season.garden import Temperatures

_MISSING = "-9999"
_LONG = ("id", "date", "element")
_ELEMENTS = {"TMAX": "high", "TMIN": "low"}
_FORMS = "give GHCN-Daily CSV (STATION, DATE, TMAX, TMIN), or columns date, min_c, max_c"
# The notes begin no earlier; some stations do.
_FIRST_YEAR = "1900"
LEAST_C, MOST_C = -90.0, 60.0
# No air temperature is as high in degrees C or F (the highest on record is 134 F).
_NO_WHOLE_DEGREES = 140.0
TENTHS, CELSIUS, FAHRENHEIT = "tenths", "c", "f"


@dataclass(frozen=True, slots=True)
class WeatherFile:
    """The days of one place in their order, and how many readings were left out as doubtful.

    ``station`` is blank where the file names none; ``one_sided`` counts days with only one of
    the two temperatures, which are left out too.
    """

    station: str
    days: tuple[Temperatures, ...]
    flagged: int
    one_sided: int


@dataclass(frozen=True, slots=True)
class _Reading:
    row: int
    station: str
    day: str
    side: str
    text: str
    flagged: bool = False


def read_weather(content: bytes, name: str) -> WeatherFile:
    """Read the bytes of a daily weather file.

    Raises SeasonProblems listing every fault: a file that is too large or of no known form,
    several stations, a day twice, what is no number or no temperature, an unknown unit.
    """
    file = shown_name(name)
    text = decoded(file, content, MOST_BYTES)
    try:
        lines = [
            [cell.strip() for cell in line] for line in csv.reader(io.StringIO(text, newline=""))
        ]
    except csv.Error as error:
        raise file_fault(file, f"it is no CSV ({error})", _FORMS) from error
    readings, unit = _readings(file, lines)
    stations = sorted({shown_name(reading.station) for reading in readings}) or [""]
    if len(stations) > 1:
        found = f"it holds {len(stations)} stations ({stations[0]}, {stations[1]}, ...)"
        raise file_fault(file, found, "keep the rows of the one nearest to the garden")
    sides, problems = _sides(file, readings, unit)
    both = [(day, own) for day, own in sorted(sides.items()) if len(own) > 1]
    days = tuple(Temperatures(day, own["high"], own["low"]) for day, own in both)
    problems += [
        Problem(file, 0, f"on {d.day} the lowest, {d.low_c:.1f} C, is above the highest", "mend it")
        for d in days
        if d.low_c > d.high_c
    ]
    if problems:
        raise SeasonProblems(problems)
    if not days:
        raise file_fault(file, "no day has both temperatures", _FORMS)
    flagged = sum(reading.flagged for reading in readings)
    return WeatherFile(stations[0], days, flagged, len(sides) - len(days))


def _readings(file: str, lines: list[list[str]]) -> tuple[list[_Reading], str]:
    """Give the readings of whichever form the file has, and the unit of its numbers."""
    first = lines[0] if lines else []
    headings = [cell.lower() for cell in first]
    if len(first) >= 6 and first[1].isdigit() and len(first[1]) == 8:
        return list(_one_a_row(lines, 1)), TENTHS
    if tuple(headings[:3]) == _LONG:
        return list(_one_a_row(lines[1:], 2)), TENTHS
    if {"station", "date", "tmax", "tmin"} <= set(headings):
        readings = list(_by_station(lines[1:], headings))
        return readings, _unit(file, readings)
    for unit in (CELSIUS, FAHRENHEIT):
        if {"date", f"min_{unit}", f"max_{unit}"} <= set(headings):
            return list(_own(lines[1:], headings, unit)), unit
    raise file_fault(file, "the form of this weather file is not known", _FORMS)


def _one_a_row(lines: list[list[str]], begins: int) -> Iterator[_Reading]:
    for row, line in enumerate(lines, start=begins):
        cells = line + [""] * (6 - len(line))
        side, day = _ELEMENTS.get(cells[2]), cells[1]
        if day.isdigit():
            day = f"{day[:4]}-{day[4:6]}-{day[6:]}"
        if side:
            yield _Reading(row, cells[0], day, side, cells[3], flagged=bool(cells[5]))


def _by_station(lines: list[list[str]], headings: list[str]) -> Iterator[_Reading]:
    for row, line in enumerate(lines, start=2):
        cells = dict(zip_longest(headings, line[: len(headings)], fillvalue=""))
        for element, side in _ELEMENTS.items():
            flags = cells.get(f"{element.lower()}_attributes", "").split(",")
            text = cells.get(element.lower(), "")
            if text:
                flagged = len(flags) > 1 and bool(flags[1].strip())
                yield _Reading(row, cells["station"], cells["date"], side, text, flagged)


def _own(lines: list[list[str]], headings: list[str], unit: str) -> Iterator[_Reading]:
    for row, line in enumerate(lines, start=2):
        cells = dict(zip_longest(headings, line[: len(headings)], fillvalue=""))
        for heading, side in ((f"max_{unit}", "high"), (f"min_{unit}", "low")):
            text = cells.get(heading, "")
            if text:
                yield _Reading(row, cells.get("station", ""), cells["date"], side, text)


def _unit(file: str, readings: Sequence[_Reading]) -> str:
    """Tell tenths of degrees C from degrees C; degrees F and what may be either are refused."""
    texts = [r.text for r in readings if r.text != _MISSING and not r.flagged]
    largest = max((abs(_number(text) or 0.0) for text in texts), default=0.0)
    if any("." in text for text in texts):
        unit = CELSIUS if largest <= MOST_C else ""
    else:
        unit = TENTHS if largest > _NO_WHOLE_DEGREES else ""
    if not unit:
        found = f"its temperatures go to {largest:g}, and nothing says in which unit"
        raise file_fault(file, found, "write columns date, min_c, max_c (or min_f, max_f)")
    return unit


def _number(text: str) -> float | None:
    try:
        return float(text)
    except ValueError:
        return None


def _sides(
    file: str, readings: Sequence[_Reading], unit: str
) -> tuple[dict[date, dict[str, float]], list[Problem]]:
    """Give the sound readings by day and side, and the faults of the others."""
    sides: dict[date, dict[str, float]] = {}
    problems = []
    for reading in readings:
        before = reading.day[:4].isdigit() and reading.day[:4] < _FIRST_YEAR
        if reading.flagged or reading.text == _MISSING or before:
            continue
        try:
            day = read_day(reading.day)
        except ValueError as error:
            found, wanted = error.args
            problems.append(Problem(file, reading.row, f"the date {found}", wanted))
            continue
        celsius = _celsius(reading.text, unit)
        if celsius is None or not LEAST_C <= celsius <= MOST_C:
            wanted = f"give {LEAST_C:g} to {MOST_C:g} C, or leave it out"
            problems.append(
                Problem(file, reading.row, f"a temperature is {reading.text[:80]!r}", wanted)
            )
        elif reading.side in sides.get(day, {}):
            problems.append(Problem(file, reading.row, f"{day} stands there twice", "keep one"))
        else:
            sides.setdefault(day, {})[reading.side] = round(celsius, 2)
    return sides, problems


def _celsius(text: str, unit: str) -> float | None:
    number = _number(text)
    if number is None:
        return None
    return number / 10 if unit == TENTHS else inside("temperature", unit, number)
