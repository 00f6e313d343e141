"""When a planting is picked: its first picking, how long it lasts and in which shape."""

from dataclasses import dataclass
from datetime import date, timedelta
from statistics import NormalDist

import numpy as np

from model.forecast.degree_days import SPREAD_DAYS
from model.season.arrays import Floats
from model.season.frosts import TENTH, Frost
from model.season.garden import Crop, Planting
from model.season.season import Season
from model.season.weeks import Weeks, a_year_later

RAMP = 0.2
# What takes longer than this stands in the bed over winter: no frost of this year ends it.
OVER_WINTER_DAYS = 200.0
# So long after the usual frost a first picking is still one of the season that it ends.
SEASON_OVER_DAYS = 60
# Judgement: nobody covers what is tender for longer than this before the early last frosts.
MOST_COVERED = timedelta(weeks=4)
# Judgement: over so many days the slow growth of autumn sets in with the day of the start.
SLOWING_DAYS = 28


@dataclass(frozen=True, slots=True)
class PickingDates:
    """The picking of one planting: dates with their spread.

    ``late`` is the first picking of a late year: a last frost and a growing time that are
    beaten in nine years of ten. ``kill`` is the frost that ends picking, if one does, the first
    after ``kill_from``. ``caught_share`` is the part of late spring frosts that strike it.
    """

    first: date
    sd_days: float
    late: date
    length_low_days: float
    length_high_days: float
    shape: str
    kill: Frost | None
    kill_from: date
    kill_delay_days: float
    caught_share: float
    chance_killed_young: float

    @property
    def length_days(self) -> float:
        """Give the usual days from the first to the last picking."""
        return (self.length_low_days + self.length_high_days) / 2

    @property
    def usual_kill(self) -> date | None:
        """Give the day of the usual frost that ends its picking; None where none does."""
        return self.kill.median.on_or_after(self.kill_from) if self.kill else None

    @property
    def ends(self) -> date:
        """Give the usual last day in the bed."""
        return self.first + timedelta(days=round(self.length_days))


def picking_dates(
    season: Season,
    planting: Planting,
    today: date,
    *,
    years_later: int = 0,
    warm: date | None = None,
) -> PickingDates:
    """Date the picking of a planting, as it is or as it would be a year later.

    Published days to first picking are read as the span that holds eight years in ten;
    a date that the household wrote down goes before them, and one from its own thermometer
    (``warm``) before both. What is started after midsummer takes longer than the published
    days. A spring frost cannot take what stands past its late date. A tender crop is ended by the
    autumn frost that follows the spring it came into the open in, however late it would be ripe.
    """
    crop = season.crop(planting.crop)
    spring = season.frosts.last_spring
    started = planting.started
    killed_young, caught = 0.0, season.settings.frost_caught_share
    own_day = warm or planting.first_picking
    if own_day is not None:
        first, sd = own_day, SPREAD_DAYS if warm else season.settings.own_date_spread_days
        late = first + timedelta(days=round(TENTH * sd))
    else:
        counted = planting.planted_out if crop.counted_from == "planted out" else planting.sown
        if counted is None or crop.days_low is None or crop.days_high is None:
            raise ValueError(f"{planting.label} has no date to count from")
        longer = autumn_slowness(season, crop, counted)
        first = counted + timedelta(days=round((crop.days_low + crop.days_high) / 2 + longer))
        sd = (crop.days_high - crop.days_low) / (2 * TENTH)
        late = counted + timedelta(days=round(crop.days_high + longer))
        if crop.tender:
            in_the_open = started or counted
            safe = spring.late.nearest(in_the_open)
            late += max(timedelta(0), safe - in_the_open)
            if years_later or today < safe:
                if in_the_open < spring.early.nearest(in_the_open) - MOST_COVERED:
                    caught = 1.0
                killed_young = caught * spring.chance_after(in_the_open)
    kill_from = first - timedelta(days=SEASON_OVER_DAYS)
    if crop.frost == "kills" and started is not None:
        kill_from = spring.median.nearest(started)
    for _ in range(years_later):
        first, late, kill_from = map(a_year_later, (first, late, kill_from))
    return PickingDates(
        first=first,
        sd_days=sd,
        late=late,
        length_low_days=crop.picking_days_low,
        length_high_days=crop.picking_days_high,
        shape=crop.shape,
        kill=season.frosts.first_autumn if crop.frost in ("kills", "light") else None,
        kill_from=kill_from,
        kill_delay_days=season.settings.light_frost_days if crop.frost == "light" else 0.0,
        caught_share=caught,
        chance_killed_young=killed_young,
    )


def autumn_slowness(season: Season, crop: Crop, counted: date) -> float:
    """Give the days beyond the published ones that a start after midsummer takes.

    Days grow shorter and cooler; what stands over winter is published with its winter.
    """
    if crop.days_high is None or crop.days_high >= OVER_WINTER_DAYS:
        return 0.0
    past = (counted - season.frosts.longest_day.nearest(counted)).days
    return season.settings.autumn_slow_days * min(1.0, max(0.0, past / SLOWING_DAYS))


def picked_by(shape: str, elapsed: Floats) -> Floats:
    """Give the share of the crop picked after a share ``elapsed`` of its picking time.

    A flush follows 3x^2 - 2x^3 (slow, fast, slow); repeated picking rises over the first
    fifth, runs level and falls over the last; what is lifted once is ready within a week.
    """
    x = np.clip(elapsed, 0.0, 1.0)
    if shape == "flush":
        return x * x * (3.0 - 2.0 * x)
    if shape == "repeated":
        height = 1.0 / (1.0 - RAMP)
        rising = height * np.minimum(x, RAMP) ** 2 / (2 * RAMP)
        level = height * np.clip(x - RAMP, 0.0, 1.0 - 2 * RAMP)
        last = np.clip(x - (1.0 - RAMP), 0.0, RAMP)
        return rising + level + height * (last - last**2 / (2 * RAMP))
    return x


def week_shares(
    dates: PickingDates, weeks: Weeks, first: Floats, length: Floats, kill: Floats
) -> Floats:
    """Give the share of a full crop picked in each week, for each sampled set of dates.

    Parameters
    ----------
    first, length, kill : shape (N,), days from the Monday of week 0 to the first picking,
        days of picking, days to the frost that ends it (infinite without one).

    Returns
    -------
    shape (N, W); a row sums to less than 1 when frost or the horizon cuts it. Days of the
    first week that are over do not count.
    """
    edges = np.arange(len(weeks) + 1) * 7.0
    edges[0] = weeks.days_over
    span = np.full_like(length, 7.0) if dates.shape == "single lift" else np.maximum(length, 7.0)
    reached = np.minimum(edges[None, :], kill[:, None])
    picked = picked_by(dates.shape, (reached - first[:, None]) / span[:, None])
    shares: Floats = np.diff(picked, axis=1)
    return shares


def expected_week_shares(dates: PickingDates, weeks: Weeks) -> Floats:
    """Give the share of a full crop expected in each week of an ordinary year; shape (W,).

    The usual first picking and length, with the share that frosts take on the average. The
    dates are those of one year, not smeared over all years: a plan made for a smeared
    season would see fresh food for longer, and gluts lower, than any year brings.
    """
    first = np.array([(dates.first - weeks.first).days], dtype=float)
    length = np.array([dates.length_days])
    kills = np.array([np.inf])
    middle = dates.usual_kill
    if dates.kill is not None and middle is not None:
        z = np.array([NormalDist().inv_cdf((step + 0.5) / 9) for step in range(9)])
        kills = (middle - weeks.first).days + dates.kill.sd_days * z + dates.kill_delay_days
    same = np.ones(len(kills))
    shares: Floats = week_shares(dates, weeks, first * same, length * same, kills).mean(axis=0)
    return shares * (1.0 - dates.chance_killed_young)
