"""Made-up years: harvests that vary as real ones do, all years at once.

A year's luck of a crop is log-normal with mean 1. Its logarithm mixes a draw shared by all
crops (correlation about 0.2), one shared by the crop family (0.6 inside a family) and the
crop's own. A near-total loss (blight, hail) is drawn through the same mix, so that it
strikes families together; abnormal seasons of the household's own have moved its chance. The
garden's lasting factor is drawn from what is still unknown of it; half of that is shared by
all crops. First pickings move together with the spring.
"""

from collections.abc import Callable, Iterator
from dataclasses import dataclass

import numpy as np
from scipy.stats import norm

from model.forecast.growth import week_shares
from model.forecast.harvest import HarvestForecast
from model.forecast.yields import expected_kg
from model.season.arrays import Bools, Floats, Ints, Singles
from model.season.season import Season

YEARS_AT_ONCE = 500


@dataclass(frozen=True, eq=False)
class Luck:
    """Standard normal draws for N years; every row is one year.

    Parameters
    ----------
    season, garden, spring, autumn : shape (N,), shared by the whole garden.
    family : shape (N, families).
    crop, crop_loss, crop_garden : shape (N, C).
    first, length, young : shape (N, B); ``first`` normal, the others uniform.
    """

    season: Floats
    garden: Floats
    spring: Floats
    autumn: Floats
    family: Floats
    family_loss: Floats
    season_loss: Floats
    crop: Floats
    crop_loss: Floats
    crop_garden: Floats
    first: Floats
    length: Floats
    young: Floats


def draw_luck(
    generator: np.random.Generator, years: int, families: int, crops: int, plantings: int
) -> Luck:
    """Draw the luck of ``years`` years.

    Each planting draws from a stream of its own: one more leaves the years of the others.
    """
    normal = generator.standard_normal
    own = generator.spawn(1)[0].spawn(plantings)
    return Luck(
        season=normal(years),
        garden=normal(years),
        spring=normal(years),
        autumn=normal(years),
        family=normal((years, families)),
        family_loss=normal((years, families)),
        season_loss=normal(years),
        crop=normal((years, crops)),
        crop_loss=normal((years, crops)),
        crop_garden=normal((years, crops)),
        first=_each(own, lambda stream: stream.standard_normal(years), years),
        length=_each(own, lambda stream: stream.random(years), years),
        young=_each(own, lambda stream: stream.random(years), years),
    )


def _each(
    streams: list[np.random.Generator], draw: Callable[[np.random.Generator], Floats], years: int
) -> Floats:
    """Draw once from every stream, a column each; shape (N, streams)."""
    drawn: Floats = np.array([draw(stream) for stream in streams]).reshape(-1, years).T
    return drawn


def sampled_harvest(
    season: Season,
    forecast: HarvestForecast,
    amounts: Floats,
    years: int,
    generator: np.random.Generator,
) -> Singles:
    """Sample the harvest of each crop by week; shape (Y, C, W), kilograms, in single precision.

    Parameters
    ----------
    amounts : shape (B,), how much of each planting is grown, in its own unit.
    """
    harvest = np.zeros((years, len(season.crops), len(forecast.weeks)), dtype=np.float32)
    for some, b, kg in _pickings(season, forecast, amounts > 0, years, generator):
        harvest[some, forecast.crop_of[b], :] += (kg * amounts[b]).astype(np.float32)
    return harvest


def sampled_kg_per_unit(
    season: Season, forecast: HarvestForecast, years: int, generator: np.random.Generator
) -> Floats:
    """Sample what one unit of each planting gives; shape (Y, B, W), kilograms.

    The same generator gives the same years as ``sampled_harvest``, whatever is grown.
    """
    per_unit = np.zeros((years, len(forecast.plantings), len(forecast.weeks)))
    grown = np.ones(len(forecast.plantings), dtype=bool)
    for some, b, kg in _pickings(season, forecast, grown, years, generator):
        per_unit[some, b] = kg
    return per_unit


def _pickings(
    season: Season,
    forecast: HarvestForecast,
    grown: Bools,
    years: int,
    generator: np.random.Generator,
) -> Iterator[tuple[slice, int, Floats]]:
    """Give, for some years at a time, what one unit of each planting gives; shape (N, W)."""
    families = sorted({crop.family for crop in season.crops})
    family_of = np.array([families.index(crop.family) for crop in season.crops], dtype=int)
    for begins in range(0, years, YEARS_AT_ONCE):
        some = slice(begins, min(years, begins + YEARS_AT_ONCE))
        luck = draw_luck(
            generator,
            some.stop - some.start,
            len(families),
            len(season.crops),
            len(forecast.plantings),
        )
        factors = _crop_factors(season, forecast, luck, family_of)
        for b in np.flatnonzero(grown):
            yield some, int(b), _picking(season, forecast, int(b), luck, factors)


def _crop_factors(season: Season, forecast: HarvestForecast, luck: Luck, family_of: Ints) -> Floats:
    """Give each year's factor on the expected yield of each crop; shape (N, C), mean 1."""
    chosen = season.settings
    season_sd = np.sqrt(np.log1p(np.array([crop.season_cv for crop in season.crops]) ** 2))
    garden_sd, chance = np.zeros(len(season.crops)), np.zeros(len(season.crops))
    for own in forecast.own:
        c = [crop.name for crop in season.crops].index(own.crop)
        garden_sd[c], chance[c] = own.garden_log_sd, own.chance_lost
    mixed = _mix(season, luck.season, luck.family[:, family_of], luck.crop)
    shared = chosen.garden_shared_share
    garden = np.sqrt(shared) * luck.garden[:, None] + np.sqrt(1.0 - shared) * luck.crop_garden
    factor = np.exp(season_sd * mixed - season_sd**2 / 2 + garden_sd * garden - garden_sd**2 / 2)
    lost = _mix(season, luck.season_loss, luck.family_loss[:, family_of], luck.crop_loss)
    strikes = lost < norm.ppf(chance)
    result: Floats = np.where(strikes, chosen.near_total_loss_left, 1.0) * factor
    return result


def _mix(season: Season, all_crops: Floats, family: Floats, own: Floats) -> Floats:
    together = season.settings.season_correlation
    inside = max(season.settings.family_correlation, together)
    mixed: Floats = (
        np.sqrt(together) * all_crops[:, None]
        + np.sqrt(inside - together) * family
        + np.sqrt(1.0 - inside) * own
    )
    return mixed


def _picking(
    season: Season, forecast: HarvestForecast, b: int, luck: Luck, factors: Floats
) -> Floats:
    """Give the kilograms a week from one unit of a planting; shape (N, W)."""
    planting, dates = forecast.plantings[b], forecast.dates[b]
    spring = season.frosts.last_spring
    timing = np.sqrt(0.5) * luck.spring + np.sqrt(0.5) * luck.first[:, b]
    first = (dates.first - forecast.weeks.first).days + dates.sd_days * timing
    low, high = dates.length_low_days, dates.length_high_days
    length = low + (high - low) * luck.length[:, b]
    kill = np.full(len(first), np.inf)
    middle = dates.usual_kill
    if dates.kill is not None and middle is not None:
        days = (middle - forecast.weeks.first).days
        kill = days + dates.kill.sd_days * luck.autumn + dates.kill_delay_days
    shares = week_shares(dates, forecast.weeks, first, length, kill)
    kg = expected_kg(planting, forecast.own[b]) * factors[:, forecast.crop_of[b]]
    if dates.chance_killed_young > 0:
        # a late last frost strikes every tender planting of the year together
        started = planting.started or dates.first
        after = (started - spring.median.nearest(started)).days / spring.sd_days
        caught = (luck.spring > after) & (luck.young[:, b] < dates.caught_share)
        kg = kg * ~caught
    picked: Floats = shares * kg[:, None] * forecast.still_to_come[b]
    return picked
