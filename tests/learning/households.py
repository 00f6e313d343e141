"""Made-up households whose true eating and seals are known, and what they write down.

They are simulated with other formulas than they are learned by: the run of eating through the
year is drawn from the dense covariance on a circle of 52 weeks, jars are opened one at a time
and with the mood of the weeks,
gardens give more or less than is usual, and shelves run out.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import date, timedelta
from functools import cache

import numpy as np

from model.case import wanted_and_fresh
from model.season.arrays import season_arrays
from model.season.kitchen import Counted
from model.season.record import Batch, Record, SealCheck
from model.season.season import Season
from model.season.weeks import Weeks
from tests.small_season import TABLES, small_season

BEGINS = Weeks(date(2025, 9, 29), 1).first
TODAY = date(2027, 10, 4)
COUNTED_EVERY = 7
OF = {"tomatoes": "whole tomatoes", "beans": "frozen beans"}


@dataclass(frozen=True, eq=False)
class Household:
    """What it wrote down, and the truth: ``factor`` and ``kept`` have the shape (F, 52)."""

    season: Season
    factor: np.ndarray
    kept: np.ndarray


@cache
def two_years() -> tuple[Season, Weeks, np.ndarray, np.ndarray]:
    """Give notes of two years without a count, and what is wanted and usually eaten fresh."""
    seasons = "".join(f"{y},{y}-01-01,{y}-12-31\n" for y in (2026, 2027, 2028))
    rows = TABLES["plantings.csv"].splitlines()[1:]
    plantings = "".join(
        f"{row.replace('2027', str(year))}\n" for year in (2026, 2027, 2028) for row in rows
    )
    season = small_season(
        seasons=f"season,begins,ends\n{seasons}",
        plantings=f"{TABLES['plantings.csv'].splitlines()[0]}\n{plantings}",
        stock=None,
    )
    weeks = Weeks(BEGINS, (TODAY - BEGINS).days // 7)
    arrays = season_arrays(season, weeks, (), season.settings.seal_failure_share)
    return season, weeks, *wanted_and_fresh(season, arrays)


def true_factors(foods: int, generator: np.random.Generator) -> np.ndarray:
    """Draw how a household differs from its notes: 12 % in all foods, 22 % and a run in each."""
    apart = np.arange(52)[:, None] - np.arange(52) + 52 * np.arange(-2, 3)[:, None, None]
    run = 0.25**2 * np.exp(-(apart**2) / (2 * 6.0**2)).sum(axis=0)
    lasting = 0.75 * 0.12**2
    # A root that is the same on every processor, unlike that of the usual way to draw them.
    root = np.linalg.cholesky(0.0481 + run + 1e-8 * np.eye(52))
    of_food = generator.standard_normal((foods, 52)) @ root.T
    factor: np.ndarray = 1 + np.sqrt(lasting) * generator.standard_normal() + of_food
    return np.maximum(factor, 0.0)


def household(generator: np.random.Generator, *, batches_written: bool = True) -> Household:
    """Let a household eat for two years, put up in autumn and count every seven weeks."""
    season, weeks, wanted, fresh = two_years()
    foods = [food.name for food in season.foods]
    factor = true_factors(len(foods), generator)
    of_year = np.array([min(51, (m.timetuple().tm_yday - 1) // 7) for m in weeks.mondays])
    counts, batches, kept = list[Counted](), list[Batch](), np.zeros((len(foods), 52))
    for f, food in enumerate(foods):
        np.add.at(kept[f], of_year, np.maximum(wanted[f] - fresh[f], 0))
        preserve = season.preserve(OF[food])
        lived = _lived(
            factor[f][of_year] * wanted[f], fresh[f], weeks, preserve.portions, generator
        )
        for day, makings, made in lived:
            if makings is not None:
                none = [(day, 0)]
                counts += [Counted(day, preserve.name, n, m) for m, n in makings or none]
            if made and batches_written:
                code = f"{preserve.name} {day}"
                batches.append(Batch(code, day, None, preserve.name, made, "", ""))
    checks = tuple(SealCheck(b.code, b.put_up, b.filled, "") for b in batches)
    record = Record(batches=tuple(batches), seal_checks=checks)
    return Household(replace(season, counts=tuple(counts), record=record), factor, kept)


Makings = list[tuple[date, int]]


def _lived(
    want: np.ndarray, fresh: np.ndarray, weeks: Weeks, portions: float, gen: np.random.Generator
) -> Iterator[tuple[date, Makings | None, int]]:
    """Eat week by week; give each week's day, a count of the makings (or none), and jars made."""
    year_want = np.maximum(want - fresh, 0).sum() / len(weeks) * 52 / portions
    makings: Makings = [(weeks.first, round(year_want * gen.uniform(0.7, 1.3)))]
    luck = np.exp(0.35 * gen.standard_normal(5) - 0.35**2 / 2)
    mood = np.exp(0.1 * gen.standard_normal(len(weeks) // COUNTED_EVERY + 1))
    for week, monday in enumerate(weeks.mondays):
        day = monday + timedelta(days=6)
        made = 0
        if 35 <= monday.isocalendar().week < 39:
            made = round(year_want * gen.uniform(0.7, 1.3) / 4)
            makings.append((day, made))
        garden = fresh[week] * luck[monday.year - 2025]
        opened = gen.poisson(mood[week // COUNTED_EVERY] * max(0.0, want[week] - garden) / portions)
        while opened and makings:
            first, there = makings[0]
            gone = min(opened, there)
            opened -= gone
            makings = [(first, there - gone), *makings[1:]] if there > gone else makings[1:]
        yield day, (list(makings) if week % COUNTED_EVERY == 0 else None), made


def sealed_batches(
    chance: float, share: float, batches: int, jars: int, generator: np.random.Generator
) -> list[tuple[int, int]]:
    """Put up batches of which some lose a fifth to a half; give (filled, failed) of each."""
    clump = generator.random(batches) < chance
    loses = np.where(clump, generator.uniform(0.2, 0.5, batches), share)
    return [(jars, int(failed)) for failed in generator.binomial(jars, loses)]
