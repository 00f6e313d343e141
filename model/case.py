"""One planning case: a season on a day, with its numbers, harvest forecast and demand."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, timedelta

import numpy as np

from model.demand.eating import Demand, demand
from model.demand.lean_weeks import LeanStretch, fresh_portions, lean_stretches, still_in_hand
from model.demand.since_count import portions_eaten, standing_today, unseen_share
from model.forecast.beds import check_beds_hold
from model.forecast.harvest import HarvestForecast, forecast_harvest, ordinary_harvest
from model.forecast.picked import BEFORE_WEEKS
from model.learning.seal_rate import SealRate, seal_rate
from model.learning.use_intervals import Wants
from model.learning.use_rate import AppetiteCv, UseRates, use_rates
from model.season.arrays import Bools, Floats, SeasonArrays, season_arrays
from model.season.ledger import Ledger, Standing, ledgers
from model.season.seals_due import seals_due
from model.season.season import Season
from model.season.weeks import Weeks, monday_of

# Counts older than this say nothing of how the household eats now.
USE_LEARNED_FROM = timedelta(weeks=156)


@dataclass(frozen=True, eq=False)
class Case:
    """Everything that the plan and the simulated years are computed from.

    Parameters
    ----------
    books : of every preserve, to the evening of today.
    stock : what stands there by the book, less what was usually eaten since it was seen; the
        arrays begin with it and with what should prove sealed of this year's jars.
    past_keeping : what by the book stands there longer than it keeps, and is no stock.
    before_kg : shape (C, H), picked before and still in hand, the newest last, of this week.
    fresh : shape (F, W), portions that the expected harvest of the amounts written down
        lets be eaten fresh, up to the want.
    kept_want : shape (F,), portions wanted over the weeks to cover that fresh food leaves.
    plate : shape (F,), the foods that make up the plate.
    seals, use : what the household's own batches and counts have taught.
    """

    season: Season
    today: date
    books: Mapping[str, Ledger]
    stock: tuple[Standing, ...]
    past_keeping: tuple[Standing, ...]
    arrays: SeasonArrays
    forecast: HarvestForecast
    demand: Demand
    before_kg: Floats
    fresh: Floats
    kept_want: Floats
    plate: Bools
    lean: tuple[LeanStretch, ...]
    seals: SealRate
    use: UseRates

    @property
    def weeks(self) -> Weeks:
        """Give the weeks of the case."""
        return self.arrays.weeks

    @property
    def seen_units(self) -> Floats:
        """Give what stands on the shelf without the jars whose seals wait; shape (R,), units."""
        units = dict.fromkeys(self.arrays.preserves, 0.0)
        for standing in self.stock:
            units[standing.preserve] += standing.units
        return np.array(list(units.values()))

    @property
    def appetite_cv(self) -> AppetiteCv:
        """Give how much eating still varies, all foods together and each alone, of the usual."""
        return self.use.varying(self.weeks, self.demand.wanted)

    @property
    def unseen_since(self) -> date | None:
        """Give the day since which nobody saw something that stands there by the book.

        None where nothing does. What is put up after a count was seen on that day.
        """
        days = (one.since for book in self.books.values() for one in book.standing)
        return min(days, default=None)


def make_case(season: Season, today: date) -> Case:
    """Work out the case of a season on a day; raises SeasonProblems for contradictions."""
    forecast = forecast_harvest(season, today)
    check_beds_hold(season, forecast)
    books, seals = ledgers(season, today), seal_rate(season, today)
    use = _use(season, books, today)
    stock, past_keeping = _stock_today(season, books, use, today)
    due = seals_due(season, today, forecast.year.begins, seals.share)
    arrays = season_arrays(season, forecast.weeks, stock + due, seals.share)
    after = forecast.weeks.monday(len(forecast.weeks))
    weeks = [forecast.weeks.index(forecast.new_crop.get(food, after)) for food in arrays.foods]
    cover = np.clip(np.array(weeks, dtype=int), 0, len(forecast.weeks))
    needs = demand(season, forecast.weeks, cover, use.factors(forecast.weeks))
    harvest = forecast.kg_by_crop(forecast.amounts, len(arrays.crops))
    a_week = needs.usual[:, 0] * 7 / (7 - forecast.weeks.days_over)
    before = still_in_hand(arrays, forecast.before_kg, a_week, forecast.weeks.days_over)
    fresh = fresh_portions(arrays, harvest, needs.wanted, before)
    plate = np.array([food.plate for food in season.foods], dtype=bool)
    lean = lean_stretches(arrays, needs, fresh, plate, season.settings.lean_share)
    return Case(
        season=season,
        today=today,
        books=books,
        stock=stock,
        past_keeping=past_keeping,
        arrays=arrays,
        forecast=forecast,
        demand=needs,
        before_kg=before,
        fresh=fresh,
        kept_want=(needs.wanted - fresh).sum(axis=1),
        plate=plate,
        lean=tuple(lean),
        seals=seals,
        use=use,
    )


def _use(season: Season, books: Mapping[str, Ledger], today: date) -> UseRates:
    """Learn what is eaten from the counts of the last years, set beside what the notes say."""
    days = [c.day for c in season.counts if today - USE_LEARNED_FROM <= c.day <= today]
    first = monday_of(min(days, default=today))
    weeks = Weeks(first, (today - first).days // 7 + 1)
    arrays = season_arrays(season, weeks, (), season.settings.seal_failure_share)
    return use_rates(season, books, Wants(weeks, *wanted_and_fresh(season, arrays)))


def wanted_and_fresh(
    season: Season, arrays: SeasonArrays, own_use: Floats | float = 1.0
) -> tuple[Floats, Floats]:
    """Give what is wanted of each food in weeks gone by, and usually eaten fresh; (F, W) each.

    What was picked in the weeks before them, and still held, was eaten fresh too.
    """
    weeks = arrays.weeks
    wanted = demand(season, weeks, np.full(len(arrays.foods), len(weeks)), own_use).wanted
    harvest = ordinary_harvest(season, weeks)
    before = Weeks(weeks.first - timedelta(weeks=BEFORE_WEEKS), BEFORE_WEEKS)
    held = still_in_hand(arrays, ordinary_harvest(season, before), wanted[:, 0], 7)
    this_week = np.zeros((len(arrays.crops), 1))
    return wanted, fresh_portions(arrays, harvest, wanted, np.hstack([held, this_week]))


def _stock_today(
    season: Season, books: Mapping[str, Ledger], use: UseRates, today: date
) -> tuple[tuple[Standing, ...], tuple[Standing, ...]]:
    """Give the book's stock, less what was usually eaten and lost since, and what is past it."""
    standing = tuple(s for book in books.values() for s in book.standing)
    now = monday_of(today)
    first = min((monday_of(one.since) for one in standing), default=now)
    since = Weeks(first, (now - first).days // 7 + 1)
    arrays = season_arrays(season, since, standing, season.settings.seal_failure_share)
    wanted, fresh = wanted_and_fresh(season, arrays, use.factors(since))
    eaten = portions_eaten(books, arrays, since)
    unseen = unseen_share(standing, arrays, since, today)
    return standing_today(standing, arrays, since, unseen * (wanted - fresh) - eaten)
