"""The household's own frost odds and warmth, from daily temperatures, and over how many years.

A frost is a day at or below 0 C. The last one before midsummer and the first one after it are
taken from every year with enough days, and a normal distribution is laid through them, as in
the published freeze tables (Weather Bureau practice, see ``model.season.frosts``). The
chances are those of a year to come: with few years the odds lie further apart (Student's t).
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

import numpy as np
from scipy.stats import t as student_t

from model.forecast.degree_days import BASE_C, CEILING_C, clip_then_mean
from model.season.frosts import Frost, Frosts
from model.season.garden import Temperatures
from model.season.weeks import YearDay

FROST_C = 0.0
LEAST_YEARS = 5
# Common practice, no source: with more days missing, the frost may lie in the gap.
LEAST_SHARE_OF_DAYS = 0.95
MOST_FROSTLESS = 0.1
# Midsummer and midwinter; in the north records that end with a year lose nothing of it.
_NORTH = (YearDay(7, 16), YearDay(1, 1))
_SOUTH = (YearDay(1, 15), YearDay(7, 1))
_WARM_NORTH, _WARM_SOUTH = (6, 7, 8), (12, 1, 2)


@dataclass(frozen=True, slots=True)
class FrostOdds:
    """Both frosts as the records have them, and what they rest on.

    ``frosts`` is None where the records cannot say; ``why_not`` says why. ``spring_years`` and
    ``autumn_years`` count the frosts that were used; ``with_gaps`` and ``frostless`` name the
    half-years left out, such as spring 2019 (by the year of their midsummer).
    """

    frosts: Frosts | None
    spring_years: int
    autumn_years: int
    with_gaps: tuple[str, ...]
    frostless: tuple[str, ...]
    why_not: str


@dataclass(frozen=True, slots=True)
class OwnWarmth:
    """Degree-days (C, 10 to 30) between the two median frosts: mean, least and most of years."""

    mean_c_days: float
    least_c_days: float
    most_c_days: float
    years: int


def frost_odds(weather: Sequence[Temperatures]) -> FrostOdds:
    """Give the odds of both frosts, in either half of the world; days may come in any order."""
    low = {record.day: record.low_c for record in weather}
    midsummer, midwinter = _SOUTH if _is_south(low) else _NORTH
    offsets: dict[str, list[int]] = {"spring": [], "autumn": []}
    gaps, frostless = list[str](), list[str]()
    for year in sorted({day.year + n for day in low for n in (0, 1)}):
        middle = midsummer.in_year(year)
        begins, ends = midwinter.on_or_before(middle), midwinter.on_or_after(middle)
        for name, first, last in (("spring", begins, middle), ("autumn", middle, ends)):
            days = [day for day in _days(first, last) if day in low]
            frosts = [(day - middle).days for day in days if low[day] <= FROST_C]
            if days and len(days) < LEAST_SHARE_OF_DAYS * (last - first).days:
                gaps.append(f"{name} {year}")
            elif days and not frosts:
                frostless.append(f"{name} {year}")
            elif days:
                offsets[name].append(max(frosts) if name == "spring" else min(frosts))
    why_not = _why_not(offsets, frostless)
    found = None
    if not why_not:
        spring, autumn = (_frost(own, midsummer) for own in offsets.values())
        found = Frosts(spring, autumn)
    counts = [len(own) for own in offsets.values()]
    return FrostOdds(found, counts[0], counts[1], tuple(gaps), tuple(frostless), why_not)


def _is_south(low: Mapping[date, float]) -> bool:
    """Say whether December to February are the warmer months of the records."""
    north, south = (
        [c for day, c in low.items() if day.month in months]
        for months in (_WARM_NORTH, _WARM_SOUTH)
    )
    return bool(north and south) and float(np.mean(south)) > float(np.mean(north))


def _days(first: date, end: date) -> Iterable[date]:
    """Give the days from ``first`` to the day before ``end``."""
    return (first + timedelta(days=n) for n in range((end - first).days))


def _why_not(offsets: Mapping[str, list[int]], frostless: Sequence[str]) -> str:
    for name, own in offsets.items():
        without = sum(half.startswith(name) for half in frostless)
        if without > MOST_FROSTLESS * (without + len(own)):
            return f"{without} of {without + len(own)} years had no frost in {name}"
        if len(own) < LEAST_YEARS:
            return f"{len(own)} years have enough days in {name}, {LEAST_YEARS} are needed"
    return ""


def _frost(offsets: Sequence[int], midsummer: YearDay) -> Frost:
    """Lay the distribution of a year to come through the days before or after midsummer."""
    count = len(offsets)
    spread = float(np.std(offsets, ddof=1)) * np.sqrt(1 + 1 / count)
    to_tenth = timedelta(days=max(1, round(float(student_t.ppf(0.9, count - 1)) * spread)))
    middle = midsummer.in_year(2001) + timedelta(days=round(float(np.mean(offsets))))
    dates = (middle - to_tenth, middle, middle + to_tenth)
    early, median, late = (YearDay(day.month, day.day) for day in dates)
    return Frost(early, median, late)


def own_warmth(weather: Sequence[Temperatures], frosts: Frosts) -> OwnWarmth | None:
    """Sum the warmth between the median frosts of every year with enough days; None without one.

    Days that are missing count as the mean of the others.
    """
    recorded = {record.day: record for record in weather}
    sums = []
    for year in sorted({day.year for day in recorded}):
        begins = frosts.last_spring.median.in_year(year)
        every = list(_days(begins, frosts.first_autumn.median.on_or_after(begins)))
        days = [recorded[day] for day in every if day in recorded]
        if len(days) >= LEAST_SHARE_OF_DAYS * len(every):
            high = np.array([day.high_c for day in days])
            low = np.array([day.low_c for day in days])
            warmth = clip_then_mean(high, low, BASE_C, CEILING_C)
            sums.append(float(warmth.mean()) * len(every))
    if not sums:
        return None
    return OwnWarmth(float(np.mean(sums)), min(sums), max(sums), len(sums))
