"""The expected harvest of every planting by week, and when the next new crop comes."""

from dataclasses import dataclass, replace
from datetime import date, timedelta

import numpy as np

from model.errors import Problem, SeasonProblems
from model.forecast.ahead import share_to_come, within_a_good_year
from model.forecast.degree_days import LEAST_DAYS, first_picking_from_warmth
from model.forecast.growth import PickingDates, expected_week_shares, picking_dates
from model.forecast.picked import expected_by, picked_before
from model.forecast.rotation import grown_before
from model.forecast.setbacks import share_left
from model.forecast.yields import OwnYield, expected_kg, own_yield
from model.season.arrays import Floats, Ints
from model.season.garden import GardenSeason, Planting
from model.season.season import Season
from model.season.weeks import Weeks, monday_of

MOST_WEEKS = 120


@dataclass(frozen=True, slots=True)
class Choice:
    """Plantings (their numbers) that share one amount, between ``least`` and ``most``."""

    members: tuple[int, ...]
    least: float
    most: float


@dataclass(frozen=True, eq=False)
class HarvestForecast:
    """The plantings of this season and what they are expected to give.

    Parameters
    ----------
    year : the garden year the plan is about.
    kg_per_unit : shape (B, W), expected kilograms a week from one unit (m2, plant, m of row)
        of each planting, from the week of today on.
    still_to_come : shape (B, W), the part of it that setbacks, and what was picked before it
        was due, have left.
    before_kg : shape (C, H), picked up to today and not counted since; the newest last, this week.
    crop_of : shape (B,), index into ``season.crops``.
    least, most : shape (B,), how much of it may be grown; what has been started is fixed.
    occupies : shape (B, W), 1 where the planting stands in its bed.
    choices : plantings that share one amount.
    """

    year: GardenSeason
    weeks: Weeks
    plantings: tuple[Planting, ...]
    dates: tuple[PickingDates, ...]
    own: tuple[OwnYield, ...]
    crop_of: Ints
    least: Floats
    most: Floats
    kg_per_unit: Floats
    still_to_come: Floats
    before_kg: Floats
    occupies: Floats
    choices: tuple[Choice, ...]
    new_crop: dict[str, date]

    @property
    def amounts(self) -> Floats:
        """Give the amounts as the household wrote them down; shape (B,)."""
        return np.array([planting.amount for planting in self.plantings])

    def picked_so_far(self, season: Season, today: date) -> dict[str, float]:
        """Give the kilograms of each crop that an ordinary year gives before today."""
        so_far: dict[str, float] = {}
        for planting, dates, own in zip(self.plantings, self.dates, self.own, strict=True):
            whole_kg = planting.amount * expected_kg(planting, own) * (1 - _loss(season, own))
            picked = expected_by(season, planting, dates, whole_kg, today)
            so_far[planting.crop] = so_far.get(planting.crop, 0.0) + picked
        return so_far

    def kg_by_crop(self, amounts: Floats, crops: int) -> Floats:
        """Give the expected kilograms of each crop by week for given amounts; shape (C, W)."""
        harvest = np.zeros((crops, len(self.weeks)))
        np.add.at(harvest, self.crop_of, self.kg_per_unit * amounts[:, None])
        return harvest


def with_given(forecast: HarvestForecast, given_kg: Floats) -> HarvestForecast:
    """Add what comes for sure, bought in or on the table already; shape (C, W), kilograms.

    A heap is written as a planting that gives all it has and stands in no bed.
    """
    heaps = np.flatnonzero(given_kg.any(axis=1))
    by_week, ones = given_kg[heaps], np.ones(len(heaps))
    return replace(
        forecast,
        plantings=forecast.plantings + (forecast.plantings[0],) * len(heaps),
        crop_of=np.concatenate([forecast.crop_of, heaps]),
        least=np.concatenate([forecast.least, ones]),
        most=np.concatenate([forecast.most, ones]),
        kg_per_unit=np.concatenate([forecast.kg_per_unit, by_week]),
        occupies=np.concatenate([forecast.occupies, np.zeros_like(by_week)]),
    )


def this_season(season: Season, today: date) -> GardenSeason:
    """Give the garden year that a plan made today is about.

    The year that holds today; before the first one, the first. Raises SeasonProblems when
    today lies after every year that has plantings.
    """
    planted = [
        year
        for year in season.garden_seasons
        if any(planting.season == year.name for planting in season.plantings)
    ]
    for year in planted:
        if today <= year.ends:
            return year
    last = planted[-1].ends if planted else None
    found = f"today, {today}, lies after the last season with plantings ({last})"
    wanted = "add the new season and its plantings, or choose an earlier day"
    raise SeasonProblems([Problem("seasons.csv", 0, found, wanted)])


def forecast_harvest(season: Season, today: date) -> HarvestForecast:
    """Forecast the harvest from today to the late side of next year's first pickings."""
    year = this_season(season, today)
    plantings = tuple(p for p in season.plantings if p.season == year.name)
    new_crop = new_crop_dates(season, year, today)
    first = monday_of(today)
    last = max(new_crop.values(), default=first + timedelta(weeks=52))
    count = max(2, min(MOST_WEEKS, (last - first).days // 7 + 1))
    weeks = Weeks(first, count, (today - first).days)
    names = [crop.name for crop in season.crops]
    dates = tuple(
        picking_dates(season, p, today, warm=_seen_ripe(season, year, p, today)) for p in plantings
    )
    own = tuple(own_yield(season, season.crop(planting.crop), today) for planting in plantings)
    shares = np.array([expected_week_shares(d, weeks) for d in dates]).reshape(-1, count)
    survival = np.array([1 - _loss(season, one) for one in own])
    kg = np.array([expected_kg(p, o) for p, o in zip(plantings, own, strict=True)])
    left = np.array([share_left(season, p, today) for p in plantings])[:, None]
    least, most = _bounds(season, year, plantings, today)
    amounts = np.array([p.amount for p in plantings])
    crop_of = np.array([names.index(p.crop) for p in plantings], dtype=int)
    before, ahead = picked_before(season, year, plantings, dates, kg * survival * amounts, weeks)
    usual = shares * (kg * survival)[:, None] * left
    due = share_to_come(dates, usual * amounts[:, None], crop_of, ahead, today)
    whole, to_come = kg * survival * amounts, usual * due * amounts[:, None]
    due = due * within_a_good_year(season, year, crop_of, whole, to_come, today)[crop_of, None]
    return HarvestForecast(
        year=year,
        weeks=weeks,
        plantings=plantings,
        dates=dates,
        own=own,
        crop_of=crop_of,
        least=least,
        most=most,
        kg_per_unit=usual * due,
        still_to_come=left * due,
        before_kg=before,
        occupies=occupied_weeks(season, plantings, dates, weeks),
        choices=_choices(plantings, today),
        new_crop=new_crop,
    )


def _seen_ripe(season: Season, year: GardenSeason, planting: Planting, today: date) -> date | None:
    """Give the first picking by the own thermometer, which what was picked overrules."""
    warm = first_picking_from_warmth(season, planting, today)
    if warm is None or planting.started is None:
        return warm
    days = [
        picking.day
        for picking in season.pickings
        if picking.crop == planting.crop
        and max(year.begins, planting.started + timedelta(days=LEAST_DAYS)) <= picking.day <= today
    ]
    return min([warm, *days])


def _bounds(
    season: Season, year: GardenSeason, plantings: tuple[Planting, ...], today: date
) -> tuple[Floats, Floats]:
    """Give the least and the most of each planting; what has been started is fixed.

    What is sown and waits to be planted out can still be made smaller. A guess that nobody
    replaced when its day came is taken to have been planted as the plan says.

    Of one choice each planting may take nothing or all, but none goes where its family has
    stood, if another may.
    """
    amounts, least, most = np.array([(p.amount, p.least, p.most) for p in plantings]).T
    own = np.array([not p.guessed for p in plantings])
    begun = own & [_begun(p, today) for p in plantings]
    least = np.where(begun, amounts, least)
    most = np.where(begun | (own & [_sown(p, today) for p in plantings]), amounts, most)
    for choice in _choices(plantings, today):
        rested = [b for b in choice.members if not grown_before(season, plantings[b], year)]
        for b in choice.members:
            if not _begun(plantings[b], today):
                least[b] = 0.0
                most[b] = 0.0 if rested and b not in rested else most[b]
    return least, most


def _choices(plantings: tuple[Planting, ...], today: date) -> tuple[Choice, ...]:
    """Gather the plantings of each choice; what one of them has taken already is taken."""
    members: dict[str, list[int]] = {}
    for b, planting in enumerate(plantings):
        if planting.choice:
            members.setdefault(planting.choice, []).append(b)
    return tuple(
        Choice(tuple(own), plantings[own[0]].least, plantings[own[0]].most)
        for own in members.values()
        if not any(_begun(plantings[b], today) for b in own)
    )


def ordinary_harvest(season: Season, weeks: Weeks) -> Floats:
    """Give what all plantings of all years give over some weeks in ordinary years; (C, W)."""
    names = [crop.name for crop in season.crops]
    harvest = np.zeros((len(names), len(weeks)))
    for planting in season.plantings:
        own = own_yield(season, season.crop(planting.crop), weeks.first)
        kg = planting.amount * expected_kg(planting, own) * (1 - _loss(season, own))
        shares = expected_week_shares(picking_dates(season, planting, weeks.first), weeks)
        harvest[names.index(planting.crop)] += kg * shares
    return harvest


def _begun(planting: Planting, today: date) -> bool:
    return planting.started is not None and planting.started <= today


def _sown(planting: Planting, today: date) -> bool:
    return planting.sown is not None and planting.sown <= today


def _loss(season: Season, own: OwnYield) -> float:
    """Give the expected share lost to near-total losses."""
    return own.chance_lost * (1 - season.settings.near_total_loss_left)


def occupied_weeks(
    season: Season, plantings: tuple[Planting, ...], dates: tuple[PickingDates, ...], weeks: Weeks
) -> Floats:
    """Mark the weeks in which each planting stands in its bed; shape (B, W), 0 or 1.

    Perennials stand always; an annual from its start to its usual last picking.
    """
    stands = np.zeros((len(plantings), len(weeks)))
    for b, (planting, dated) in enumerate(zip(plantings, dates, strict=True)):
        perennial = season.crop(planting.crop).counted_from == "first picking"
        if perennial:
            stands[b] = 1.0
        else:
            begins = planting.started or dated.first - timedelta(days=90)
            stands[b] = np.array(weeks.days_inside(begins, dated.ends)) > 0
    return stands


def new_crop_dates(season: Season, year: GardenSeason, today: date) -> dict[str, date]:
    """Give, for each food, the late side of its first picking after this garden year's.

    The plantings of the next year are used where they are written down, else those of this
    year a year later. A food whose crops are nowhere planted has no date.
    """
    later = [other for other in season.garden_seasons if other.begins > year.ends]
    following = [p for p in season.plantings if later and p.season == later[0].name]
    found: dict[str, date] = {}
    for food in season.foods:
        crops = set(food.crops) | {
            preserve.crops[0] for preserve in season.preserves if preserve.food == food.name
        }
        firsts = [picking_dates(season, p, today).late for p in following if p.crop in crops]
        firsts += [
            picking_dates(season, p, today, years_later=1).late
            for p in season.plantings
            if p.season == year.name and p.crop in crops and not firsts
        ]
        if firsts:
            found[food.name] = min(firsts)
    return found
