"""Kilograms a unit of planting gives: the published figure moved by the garden's own record.

The published typical yield is a prior: gardens differ lastingly by a factor of about 1.8
(log-normal, mean 1), and a season by the crop's own scatter. With ``n`` normal own seasons
whose mean log ratio to the published figure is ``x``, the logarithm of the garden's factor is
normal (the textbook normal-normal rule) with

    variance  v = 1 / (1 / t^2 + n / s^2)        mean  n x / (n + s^2 / t^2) - v / 2

where ``t`` is the log of the garden factor's spread and ``s`` the season's log spread. The
mean factor is then ``exp(n x / (n + s^2 / t^2))``.

An abnormal season stays out of the mean but not out of the risk: it counts as so much of a
near-total loss as it fell short of what this garden gives. The chance of such a loss is the
published one, as good as ten seasons, moved by the household's own (Beta-binomial rule).
"""

import math
from dataclasses import dataclass, replace
from datetime import date

from model.forecast.growth import expected_week_shares, picking_dates
from model.season.garden import Crop, GardenSeason, Planting
from model.season.season import Season
from model.season.weeks import Weeks, monday_of

# A crop may be picked on after its garden year ends.
WEEKS_AFTER = 9
LEAST_SHARE = 0.05
# Judgement: the published chance of a near-total loss is worth so many seasons of one's own.
CHANCE_SEASONS = 10.0
# The standard normal's 90th percentile.
ONE_IN_TEN = 1.2816


@dataclass(frozen=True, slots=True)
class OwnYield:
    """What one crop's own record says: a factor on the published yield, and its spread.

    ``seasons`` are the normal ones, ``abnormal`` those that count for the chance of a
    near-total loss, ``chance_lost``, alone.
    """

    crop: str
    seasons: int
    factor: float
    garden_log_sd: float
    abnormal: int
    chance_lost: float

    @property
    def range(self) -> tuple[float, float]:
        """Give what the garden's lasting factor lies between, eight times in ten."""
        middle = math.log(self.factor) - self.garden_log_sd**2 / 2
        off = ONE_IN_TEN * self.garden_log_sd
        return math.exp(middle - off), math.exp(middle + off)


def own_yield(season: Season, crop: Crop, today: date) -> OwnYield:
    """Blend a crop's own normal, finished seasons with the published yield."""
    prior_sd = math.log(season.settings.garden_spread_factor)
    season_sd = math.sqrt(math.log(1.0 + crop.season_cv**2))
    ratios = season_ratios(season, crop.name, today)
    count = len(ratios)
    # a season's luck has mean 1, so the mean of its logarithm lies below 0
    logs = [math.log(ratio) + season_sd**2 / 2 for ratio in ratios.values()]
    mean = sum(logs) / (count + season_sd**2 / prior_sd**2)
    spread = math.sqrt(1.0 / (1.0 / prior_sd**2 + count / season_sd**2))
    factor = math.exp(mean)
    bad = season_ratios(season, crop.name, today, normal=False).values()
    whole = 1.0 - season.settings.near_total_loss_left
    lost = sum(min(1.0, max(0.0, 1.0 - ratio / factor) / whole) for ratio in bad)
    chance = (CHANCE_SEASONS * crop.chance_near_total_loss + lost) / (
        CHANCE_SEASONS + count + len(bad)
    )
    return OwnYield(crop.name, count, factor, spread, len(bad), chance)


def season_ratios(
    season: Season, crop: str, today: date, *, normal: bool = True
) -> dict[str, float]:
    """Give what each finished season, normal or not, picked, as a ratio to the published figure.

    A season counts when something of the crop was planted and logged in it, and how much was
    planted is no guess that nobody put right; an abnormal one also when other crops were logged
    in it and nothing of this one. The published figure is that of a full picking time; what
    frost usually cuts off is taken from it, as it is from every forecast.
    """
    ratios, own = {}, [picking for picking in season.pickings if picking.crop == crop]
    for year in season.garden_seasons:
        if year.ends >= today or year.normal is not normal:
            continue
        grown = [p for p in season.plantings if (p.season, p.crop) == (year.name, crop)]
        expected = sum(p.amount * p.kg_per_unit * _share_picked(season, p, year) for p in grown)
        if expected <= 0 or any(planting.guessed for planting in grown):
            continue
        picked = sum(picking.kg for picking in own if year.begins <= picking.day <= year.ends)
        if picked > 0 or (not normal and _anything_logged(season, year)):
            ratios[year.name] = picked / expected
    return ratios


def _anything_logged(season: Season, year: GardenSeason) -> bool:
    return any(year.begins <= picking.day <= year.ends for picking in season.pickings)


def _share_picked(season: Season, planting: Planting, year: GardenSeason) -> float:
    """Give the share of a full crop that frosts usually leave, as the forecast counts it."""
    begins = monday_of(year.begins)
    weeks = Weeks(begins, (year.ends - begins).days // 7 + WEEKS_AFTER)
    # a season in which the young plants were killed is no normal one
    dates = replace(picking_dates(season, planting, year.begins), chance_killed_young=0.0)
    return max(LEAST_SHARE, float(expected_week_shares(dates, weeks).sum()))


def expected_kg(planting: Planting, own: OwnYield) -> float:
    """Give the expected kilograms of one unit of a planting in a year without a total loss."""
    return planting.kg_per_unit * own.factor
