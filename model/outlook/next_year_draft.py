"""How a preserve was used in a year, and how many to aim at in the next one."""

import math
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, timedelta

import pandas as pd

from model.case import Case
from model.forecast.growth import picking_dates
from model.outlook.gone_unknown import MOST_TIMES, gone_unknown
from model.outlook.review_table import NONE_LEFT, review_table, shelf_runs
from model.season.kitchen import Preserve
from model.season.ledger import Ledger
from model.season.record import NOT_AGAIN, RAN_OUT, TOO_MUCH
from model.season.season import Season

YEAR_DAYS = 365


@dataclass(frozen=True, slots=True)
class Use:
    """The use of a preserve over at most a year: units by where they went, and days.

    ``unknown`` is what went unknown and is taken as eaten, ``doubtful`` what is not, because it
    is more than can have been. ``stood`` are the days on which some stood there, ``missing``
    those without after the first of them, ``left`` what stands there at the end,
    ``days_to_come`` the days to its new crop, ``keeps_days`` its keeping life, ``age_days`` how
    old the newest of it is. ``paced`` are the
    days that its pace is taken from: all of them, or only those on which some stood there.
    ``begins`` and ``ends`` are the first and last day of the year; ``seen`` says that all of what
    stands there was counted since it came.
    """

    eaten: float
    given: float
    unknown: float
    doubtful: float
    stood: int
    missing: int
    left: float
    days_to_come: int
    keeps_days: int
    age_days: int
    paced: int
    begins: date
    ends: date
    seen: bool

    @property
    def units(self) -> float:
        """Give what was used: what went unknown counts as far as it is taken as eaten."""
        return self.eaten + self.given + self.unknown

    @property
    def pace(self) -> float:
        """Give what was used a day."""
        return self.units / self.paced if self.paced else 0.0

    @property
    def short(self) -> int:
        """Give the days that a year of it has still to come: to its new crop, while it keeps."""
        a_year = min(YEAR_DAYS, self.keeps_days)
        return max(0, min(self.days_to_come, a_year - self.stood - self.missing))

    @property
    def a_year(self) -> float:
        """Give what a year of it takes at this pace."""
        return self.units + self.pace * self.short

    @property
    def days_after(self) -> int:
        """Give the days that the newest of it still keeps after the new crop; below 0, before."""
        return self.keeps_days - self.age_days - self.days_to_come

    @property
    def keeps(self) -> bool:
        """Say whether what is left keeps to the new crop."""
        return self.days_after >= 0

    @property
    def carried(self) -> float:
        """Give what will still stand there at the new crop, at this pace."""
        return max(0.0, self.left - self.pace * self.days_to_come) if self.keeps else 0.0

    @property
    def still_eaten(self) -> float:
        """Give what of it is used after the new crop, at this pace, before it is past keeping."""
        return min(self.carried, self.pace * max(0, self.days_after))


@dataclass(frozen=True, slots=True)
class Draft:
    """A preserve's first draft: its use, the verdict, what was meant (or None) and filled."""

    preserve: Preserve
    verdict: str
    use: Use
    meant: float | None
    filled: float

    @property
    def before(self) -> float:
        """Give what was meant; what was filled where nothing was."""
        return self.filled if self.meant is None else self.meant

    @property
    def enough_there(self) -> bool:
        """Say whether a year's use is still there at the new crop, and keeps for that year."""
        return self.use.units > 0 and self.use.still_eaten >= self.use.a_year

    @property
    def stretched(self) -> bool:
        """Say whether its use is stretched over the weeks it was missing."""
        return self.verdict == RAN_OUT and bool(self.use.missing and self.use.stood)

    @property
    def unknown(self) -> bool:
        """Say whether nobody knows if any was used: none was taken, none missing, none counted."""
        use = self.use
        silent = use.units == 0 and not use.doubtful and use.left > NONE_LEFT and not use.seen
        return silent and self.verdict not in (NOT_AGAIN, TOO_MUCH)

    @property
    def aim(self) -> int:
        """Give the sealed units to aim at."""
        if self.verdict == NOT_AGAIN or self.enough_there:
            return 0
        if self.unknown:
            return math.ceil(self.before - NONE_LEFT)
        wanted = self.use.a_year
        if self.verdict == TOO_MUCH:
            wanted -= self.use.still_eaten
        elif self.stretched:
            wanted += self.use.pace * self.use.missing
        return max(0, math.ceil(wanted - NONE_LEFT))


def drafts(case: Case, year: str) -> Iterator[Draft]:
    """Give the draft of every preserve of the year's review."""
    for row in review_table(case, year).to_dict("records"):
        own = case.season.preserve(row["preserve"])
        verdict = row["verdict"] or _still_unwanted(case.season, own, year)
        use = _use(case, year, own, verdict)
        meant = None if pd.isna(row["meant_units"]) else row["meant_units"]
        yield Draft(own, verdict, use, meant, row["filled_units"])


def _still_unwanted(season: Season, own: Preserve, year: str) -> str:
    """Give that a preserve was not wanted again, until the household says otherwise of it."""
    said = {one.season: one.verdict for one in season.record.verdicts if one.preserve == own.name}
    over = (one for one in season.garden_seasons if one.begins <= season.garden_season(year).begins)
    verdicts = [said[one.name] for one in over if one.name in said]
    return NOT_AGAIN if verdicts and verdicts[-1] == NOT_AGAIN else ""


def _use(case: Case, year: str, own: Preserve, verdict: str) -> Use:
    """Give the use of a preserve in the last year before the new crop, as far as it is known."""
    begins, ends, new_crop = draft_year(case, year, own.food)
    stood, missing = _days(shelf_runs(case.books[own.name], begins, ends))
    moved = case.books[own.name].between(begins, ends)
    # What was too much was not all eaten: no more than is wanted.
    times = 1.0 if verdict == TOO_MUCH else MOST_TIMES
    gone = gone_unknown(case, own, begins, ends, times)
    return Use(
        eaten=moved.eaten,
        given=moved.given,
        unknown=gone.as_eaten,
        doubtful=gone.doubtful,
        stood=stood,
        missing=missing,
        left=moved.left,
        days_to_come=(new_crop - ends).days,
        keeps_days=7 * own.keeps_weeks,
        age_days=_age_days(case.books[own.name], ends),
        paced=stood if verdict == RAN_OUT else stood + missing,
        begins=begins,
        ends=ends,
        seen=_seen(case.books[own.name]),
    )


def _age_days(book: Ledger, ends: date) -> int:
    """Give how old the newest is of what stands there; what is eaten first is older."""
    newest = max((one.put_up for one in book.standing), default=ends)
    return max(0, (ends - newest).days)


def _seen(book: Ledger) -> bool:
    """Say whether all that stands there was counted since it came."""
    return book.counted is not None and all(one.since <= book.counted for one in book.standing)


def draft_year(case: Case, year: str, food: str) -> tuple[date, date, date]:
    """Give the first and last day that a food's draft looks at, and the day of its new crop."""
    new_crop = crop_after(case.season, year, food, case.today)
    ends = min(case.today, new_crop)
    return ends - timedelta(days=YEAR_DAYS - 1), ends, new_crop


def crop_after(season: Season, year: str, food: str, today: date) -> date:
    """Give the day of a food's crop after that of a garden year: its own crops a year later.

    The end of the garden year where it grew none.
    """
    crops = {p.crops[0] for p in season.preserves if p.food == food} | set(season.food(food).crops)
    firsts = [
        picking_dates(season, planting, today, years_later=1).late
        for planting in season.plantings
        if planting.season == year and planting.crop in crops
    ]
    ends = season.garden_season(year).ends
    return max(ends, min(firsts, default=ends))


def _days(runs: list[tuple[date, date, float]]) -> tuple[int, int]:
    """Count the days on which some stood there, and those without any after the first of them."""
    stood = missing = 0
    for first, last, units in runs:
        days = (last - first).days + 1
        if units > NONE_LEFT:
            stood += days
        elif stood:
            missing += days
    return stood, missing
