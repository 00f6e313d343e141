"""Made-up years: harvests that vary as real ones do, all years at once.

A year's luck of a crop is log-normal with mean 1. Its logarithm mixes a draw shared by all
crops (correlation about 0.2), one shared by the crop family (0.6 inside a family) and the
crop's own. A near-total loss (blight, hail) is drawn through the same mix, so that it
strikes families together. The garden's lasting factor is drawn from what is still unknown
of it; half of that is shared by all crops. First pickings move together with the spring.
"""

from dataclasses import dataclass
from datetime import timedelta

import numpy as np
from scipy.stats import norm

from model.forecast.growth import week_shares
from model.forecast.harvest import HarvestForecast
from model.forecast.yields import expected_kg
from model.season.arrays import Floats, Ints, Singles
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
    """Draw the luck of ``years`` years."""
    normal = generator.standard_normal
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
        first=normal((years, plantings)),
        length=generator.random((years, plantings)),
        young=generator.random((years, plantings)),
    )


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
    families = sorted({crop.family for crop in season.crops})
    family_of = np.array([families.index(crop.family) for crop in season.crops])
    for begins in range(0, years, YEARS_AT_ONCE):
        count = min(YEARS_AT_ONCE, years - begins)
        luck = draw_luck(
            generator, count, len(families), len(season.crops), len(forecast.plantings)
        )
        factors = _crop_factors(season, forecast, luck, family_of)
        _pick(season, forecast, amounts, luck, factors, harvest[begins : begins + count])
    return harvest


def _crop_factors(season: Season, forecast: HarvestForecast, luck: Luck, family_of: Ints) -> Floats:
    """Give each year's factor on the expected yield of each crop; shape (N, C), mean 1."""
    chosen = season.settings
    season_sd = np.sqrt(np.log1p(np.array([crop.season_cv for crop in season.crops]) ** 2))
    garden_sd = np.zeros(len(season.crops))
    for own in forecast.own:
        garden_sd[[crop.name for crop in season.crops].index(own.crop)] = own.garden_log_sd
    mixed = _mix(season, luck.season, luck.family[:, family_of], luck.crop)
    shared = chosen.garden_shared_share
    garden = np.sqrt(shared) * luck.garden[:, None] + np.sqrt(1.0 - shared) * luck.crop_garden
    factor = np.exp(season_sd * mixed - season_sd**2 / 2 + garden_sd * garden - garden_sd**2 / 2)
    lost = _mix(season, luck.season_loss, luck.family_loss[:, family_of], luck.crop_loss)
    chance = np.array([crop.chance_near_total_loss for crop in season.crops])
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


def _pick(
    season: Season,
    forecast: HarvestForecast,
    amounts: Floats,
    luck: Luck,
    factors: Floats,
    harvest: Singles,
) -> None:
    """Add each planting's pickings to the harvest of its crop, in place."""
    spring = season.frosts.last_spring
    for b, (planting, dates) in enumerate(zip(forecast.plantings, forecast.dates, strict=True)):
        if amounts[b] <= 0:
            continue
        timing = np.sqrt(0.5) * luck.spring + np.sqrt(0.5) * luck.first[:, b]
        first = (dates.first - forecast.weeks.first).days + dates.sd_days * timing
        low, high = dates.length_low_days, dates.length_high_days
        length = low + (high - low) * luck.length[:, b]
        kill = np.full(len(first), np.inf)
        if dates.kill is not None:
            middle = dates.kill.median.on_or_after(dates.first - timedelta(days=60))
            days = (middle - forecast.weeks.first).days
            kill = days + dates.kill.sd_days * luck.autumn + dates.kill_delay_days
        shares = week_shares(dates, forecast.weeks, first, length, kill)
        crop = forecast.crop_of[b]
        kg = amounts[b] * expected_kg(planting, forecast.own[b]) * factors[:, crop]
        if dates.chance_killed_young > 0:
            # a late last frost strikes every tender planting of the year together
            started = planting.started or dates.first
            after = (started - spring.median.nearest(started)).days / spring.sd_days
            caught = (luck.spring > after) & (luck.young[:, b] < season.settings.frost_caught_share)
            kg = kg * ~caught
        harvest[:, crop, :] += (shares * kg[:, None] * forecast.still_to_come[b]).astype(np.float32)
