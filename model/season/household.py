"""Who eats, what, how often and when."""

from dataclasses import dataclass
from datetime import date

from model.season.weeks import YearDay

# How days are shown, and how a household of metric or of US units usually writes them.
DATE_FORMS = DAY_FIRST, MONTH_FIRST, YEAR_FIRST = ("28 Nov 2027", "Nov 28, 2027", "2027-11-28")
USUAL_DATE_FORM = {"metric": DAY_FIRST, "US": MONTH_FIRST}
UNITS = tuple(USUAL_DATE_FORM)
# Whose words are shown: zucchini or courgette.
TONGUES = ("UK", "US")
USUAL_TONGUE = dict(zip(UNITS, TONGUES, strict=True))

# Source: Rutgers NJAES, "Are you at risk?": under 5 and from 65 on, whatever the health.
RISK_UNDER_YEARS, RISK_FROM_YEARS = 5, 65


@dataclass(frozen=True, slots=True)
class Eater:
    """One person at the table; the scale of an adult's portion is 1.

    >>> model.household.Eater("Ann", vegetable_scale=1.0, fruit_scale=1.0).name
    'Ann'
    """

    name: str
    vegetable_scale: float
    fruit_scale: float


@dataclass(frozen=True, slots=True)
class Away:
    """Somebody (or everyone) is not at the table, first and last day included.

    >>> season.away[0].who
    'everyone'
    """

    who: str
    begins: date
    ends: date


@dataclass(frozen=True, slots=True)
class Guests:
    """So many adult guests, first and last day included.

    >>> model.household.Guests(2.0, date(2027, 12, 24), date(2027, 12, 26)).adults
    2.0
    """

    adults: float
    begins: date
    ends: date


@dataclass(frozen=True, slots=True)
class Habit:
    """How eating of a food runs through the year: a factor from each date on.

    >>> steps = ((model.YearDay(6, 1), 0.5), (model.YearDay(9, 1), 1.0))
    >>> model.household.Habit("little in summer", steps).factor(date(2027, 7, 15))
    0.5
    """

    name: str
    steps: tuple[tuple[YearDay, float], ...]

    def factor(self, day: date) -> float:
        """Give the factor of the last step at or before a day."""
        past = [(start.on_or_before(day), factor) for start, factor in self.steps]
        return max(past)[1]


@dataclass(frozen=True, slots=True)
class Food:
    """Something on the plate, fresh or kept.

    ``portions_a_week`` and ``most_a_week`` are for one adult; ``plate`` says whether it
    counts as part of the plate (jam and pickles do not); ``liking`` is 1 to 5.

    >>> season.food("tomatoes").crops
    ('tomato', 'paste tomato')
    """

    name: str
    group: str
    portions_a_week: float
    most_a_week: float
    liking: float
    habit: str
    portion_ml: float
    portion_g: float
    plate: bool
    crops: tuple[str, ...]
