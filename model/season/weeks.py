"""Weeks named by their Monday, and dates that come round every year."""

from dataclasses import dataclass
from datetime import date, timedelta
from functools import lru_cache

WEEK = timedelta(days=7)


def monday_of(day: date) -> date:
    """Give the Monday of the week that holds a day."""
    return day - timedelta(days=day.weekday())


@dataclass(frozen=True, slots=True)
class Weeks:
    """A run of whole weeks, counted from 0; of the first, ``days_over`` days have passed."""

    first: date
    count: int
    days_over: int = 0

    def __post_init__(self) -> None:
        """Refuse a first day that is no Monday and an empty run."""
        if self.first.weekday() != 0:
            raise ValueError(f"{self.first} is not a Monday")
        if self.count < 1:
            raise ValueError("a run of weeks needs at least one week")
        if not 0 <= self.days_over < 7:
            raise ValueError("of a week, 0 to 6 days can be over")

    def __len__(self) -> int:
        """Count the weeks."""
        return self.count

    def monday(self, week: int) -> date:
        """Give the Monday of a week; weeks before 0 and after the end count on."""
        return self.first + week * WEEK

    def index(self, day: date) -> int:
        """Give the week that holds a day; below 0 or past the end when outside."""
        return (monday_of(day) - self.first).days // 7

    @property
    def today(self) -> date:
        """Give the first day that is not over."""
        return self.first + timedelta(days=self.days_over)

    @property
    def mondays(self) -> tuple[date, ...]:
        """List every Monday of the run."""
        return _mondays(self.first, self.count)

    def days_inside(self, begins: date, ends: date) -> tuple[int, ...]:
        """Count, for each week, its days from ``begins`` to ``ends``, both included."""
        first, last = (begins - self.first).days, (ends - self.first).days
        mondays = range(0, 7 * self.count, 7)
        return tuple(max(0, min(day + 6, last) - max(day, first) + 1) for day in mondays)


@lru_cache
def _mondays(first: date, count: int) -> tuple[date, ...]:
    """List the Mondays of a run once: few runs are asked for thousands of times."""
    return tuple(first + week * WEEK for week in range(count))


@dataclass(frozen=True, slots=True, order=True)
class YearDay:
    """A month and a day that come round every year.

    >>> model.YearDay(5, 12).in_year(2027)
    datetime.date(2027, 5, 12)
    """

    month: int
    day: int

    def in_year(self, year: int) -> date:
        """Give the date in a year; 29 February becomes the 28th in common years."""
        try:
            return date(year, self.month, self.day)
        except ValueError:
            return date(year, self.month, self.day - 1)

    def nearest(self, day: date) -> date:
        """Give the occurrence closest to a date."""
        years = (day.year - 1, day.year, day.year + 1)
        return min((self.in_year(year) for year in years), key=lambda d: abs((d - day).days))

    def on_or_after(self, day: date) -> date:
        """Give the first occurrence on or after a date."""
        this_year = self.in_year(day.year)
        return this_year if this_year >= day else self.in_year(day.year + 1)

    def on_or_before(self, day: date) -> date:
        """Give the last occurrence on or before a date."""
        this_year = self.in_year(day.year)
        return this_year if this_year <= day else self.in_year(day.year - 1)


def a_year_later(day: date) -> date:
    """Give the same day of the next year."""
    return YearDay(day.month, day.day).in_year(day.year + 1)
