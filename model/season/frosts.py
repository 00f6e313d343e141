"""The last spring frost and the first autumn frost, as dates with odds.

Source: the dates of a station over twenty and more years are close to a normal
distribution (Weather Bureau practice; checked against the table of Moyer 1970,
University of Delaware, in tests/published).
"""

from dataclasses import dataclass
from datetime import date, timedelta
from statistics import NormalDist

from model.season.weeks import YearDay

TENTH = NormalDist().inv_cdf(0.9)


@dataclass(frozen=True, slots=True)
class Frost:
    """One frost date: its median, and the dates it beats in one year of ten.

    >>> season.frosts.last_spring.median
    YearDay(month=5, day=12)
    >>> season.frosts.last_spring.chance_after(date(2027, 5, 12))
    0.5
    """

    early: YearDay
    median: YearDay
    late: YearDay

    @property
    def sd_days(self) -> float:
        """Give the standard deviation in days that the two tenths imply."""
        middle = self.median.in_year(2001)
        early, late = self.early.nearest(middle), self.late.nearest(middle)
        return (late - early).days / (2 * TENTH)

    def chance_after(self, day: date) -> float:
        """Give the chance that the frost of that year comes after a day."""
        return 1.0 - self.chance_by(day)

    def chance_by(self, day: date) -> float:
        """Give the chance that the frost of that year has come by a day."""
        middle = self.median.nearest(day)
        return NormalDist(0.0, self.sd_days).cdf((day - middle).days)

    def date_with_chance_after(self, chance: float, year: int) -> date:
        """Give the date after which the frost comes with a given chance."""
        days = NormalDist(0.0, self.sd_days).inv_cdf(1.0 - chance)
        return self.median.in_year(year) + timedelta(days=round(days))


@dataclass(frozen=True, slots=True)
class Frosts:
    """The two frosts that bound the growing season."""

    last_spring: Frost
    first_autumn: Frost

    @property
    def longest_day(self) -> YearDay:
        """Give the longest day: which half of the world this is, the spring frost says."""
        return YearDay(6, 21) if self.last_spring.median.month <= 7 else YearDay(12, 21)

    def midwinter_before(self, day: date) -> date:
        """Give the middle of the last frost season that began on or before a day."""
        begins = self.first_autumn.median.on_or_before(day)
        ends = self.last_spring.median.on_or_after(begins)
        return begins + (ends - begins) // 2
