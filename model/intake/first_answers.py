"""What a household says before its first plan: a dozen answers and what it grows."""

from dataclasses import dataclass
from typing import ClassVar

from model.reference.read import table
from model.season.weeks import YearDay

# What stands in the note of a row that nobody in the household has looked at.
GUESS = "a guess: replace it by your own"
COUNTRIES = tuple(dict.fromkeys(row["country"] for row in table("first_jars")))


@dataclass(frozen=True, slots=True)
class FirstAnswers:
    """What a household says first; ``altitude`` blank means that nothing is canned.

    ``canner`` is blank or a kind of equipment.csv; ``units`` is metric or US; ``country``, one of
    ``COUNTRIES``, says which jars are sold there. Who has a pressure canner is taken to have
    a pot for boiling water too, which is marked as a guess.

    Quantities are in the unit of their name, ``freezer_l`` is litres; ages are in years. Of
    ``CROPS`` it grows the ``crops``.

    >>> answers.altitude, answers.last_spring_frost, answers.canner
    ('640 m', YearDay(month=5, day=10), 'boiling-water canner')
    """

    CROPS: ClassVar[tuple[str, ...]] = tuple(row["crop"] for row in table("first_plantings"))

    household: str
    adults: int
    children_ages: tuple[int, ...]
    bed_area_m2: float
    altitude: str
    units: str
    country: str
    last_spring_frost: YearDay
    first_autumn_frost: YearDay
    canner: str
    freezer_l: float
    shelf_m2: float
    root_store_kg: float
    kitchen_hours_a_week: float
    time_zone: str
    crops: tuple[str, ...] = CROPS
