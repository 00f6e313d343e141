"""A season: one household's notes, checked and resolved against the reference tables."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from fractions import Fraction
from typing import Protocol, TypeVar
from zoneinfo import ZoneInfo

from model.season.frosts import Frosts
from model.season.garden import Bed, Crop, GardenSeason, Picking, Planting, Setback, Temperatures
from model.season.household import Away, Eater, Food, Guests, Habit
from model.season.kitchen import (
    Canner,
    Counted,
    Dryer,
    Gift,
    Jar,
    KitchenHours,
    Place,
    Preserve,
)
from model.season.record import Record
from model.season.settings import Settings


class _Named(Protocol):
    @property
    def name(self) -> str: ...


_T = TypeVar("_T", bound=_Named)


@dataclass(frozen=True, slots=True)
class Season:
    """Everything a plan is made from, except the day it is made on.

    ``altitude_ft`` is None where the household did not give it (then nothing is canned);
    ``date_form`` is one of ``household.DATE_FORMS``, ``tongue`` one of ``household.TONGUES``,
    ``plan_for`` one of ``settings.PLAN_FOR``; ``at_risk`` says that food poisoning would be
    worse for somebody at the table: the very young and old, in pregnancy, weak immune systems;
    ``time_zone`` is blank where it is the machine's.

    >>> season.household, season.invented, season.units
    ('Alder Lane', True, 'metric')
    >>> season.preserve("ketchup").food
    'sauces'
    >>> season.preserve("pumpkin butter")
    Traceback (most recent call last):
        ...
    KeyError: 'pumpkin butter'
    """

    household: str
    invented: bool
    units: str
    date_form: str
    tongue: str
    altitude_ft: Fraction | None
    at_risk: bool
    plan_for: str
    time_zone: str
    notes_date: date | None
    frosts: Frosts
    eaters: tuple[Eater, ...]
    away: tuple[Away, ...]
    guests: tuple[Guests, ...]
    habits: tuple[Habit, ...]
    foods: tuple[Food, ...]
    beds: tuple[Bed, ...]
    crops: tuple[Crop, ...]
    garden_seasons: tuple[GardenSeason, ...]
    plantings: tuple[Planting, ...]
    pickings: tuple[Picking, ...]
    setbacks: tuple[Setback, ...]
    weather: tuple[Temperatures, ...]
    jars: tuple[Jar, ...]
    canners: tuple[Canner, ...]
    dryers: tuple[Dryer, ...]
    places: tuple[Place, ...]
    kitchen_hours: tuple[KitchenHours, ...]
    preserves: tuple[Preserve, ...]
    counts: tuple[Counted, ...]
    gifts: tuple[Gift, ...]
    record: Record
    settings: Settings

    @property
    def zone(self) -> ZoneInfo | None:
        """Give the rules of the household's clock; None, as ``astimezone`` reads it: the machine's.

        The machine's rules are no fixed offset: an offset of today is wrong after a change.

        >>> season.zone is None
        True
        """
        return ZoneInfo(self.time_zone) if self.time_zone else None

    def crop(self, name: str) -> Crop:
        """Give the crop of a name."""
        return _named(self.crops, name)

    def food(self, name: str) -> Food:
        """Give the food of a name."""
        return _named(self.foods, name)

    def jar(self, name: str) -> Jar:
        """Give the size of jar of a name."""
        return _named(self.jars, name)

    def preserve(self, name: str) -> Preserve:
        """Give the preserve of a name."""
        return _named(self.preserves, name)

    def garden_season(self, name: str) -> GardenSeason:
        """Give the garden year of a name."""
        return _named(self.garden_seasons, name)

    def food_of_crop(self, crop: str) -> Food | None:
        """Give the food that a crop is eaten as when it is fresh."""
        return next((food for food in self.foods if crop in food.crops), None)

    def counted_on(self, today: date, crop: str = "") -> date | None:
        """Give the day of the last count on or before a day; of what a crop goes into, if named."""
        kept = {p.name for p in self.preserves if not crop or crop in p.crops}
        days = (count.day for count in self.counts if count.preserve in kept)
        return max((day for day in days if day <= today), default=None)


def _named(things: Sequence[_T], name: str) -> _T:
    for thing in things:
        if thing.name == name:
            return thing
    raise KeyError(name)
