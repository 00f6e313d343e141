"""Jars, canners, preserves and the hours to fill them in."""

from dataclasses import dataclass
from datetime import date

CANNING = ("boiling water", "pressure")
METHODS = (*CANNING, "freeze", "dry", "ferment", "root store")
CANNER_METHOD = {
    "boiling-water canner": "boiling water",
    "pressure canner, dial gauge": "pressure, dial gauge",
    "pressure canner, weighted gauge": "pressure, weighted gauge",
}


@dataclass(frozen=True, slots=True)
class Jar:
    """A size of jar, freezer pack or bag that the household owns.

    ``owned`` and ``lids`` are None where any number can be had.
    """

    name: str
    volume_l: float
    owned: int | None
    lids: int | None
    footprint_cm2: float


@dataclass(frozen=True, slots=True)
class Canner:
    """A canner and how many jars of each size one load holds."""

    name: str
    kind: str
    jars_per_load: tuple[tuple[str, int], ...]

    @property
    def method(self) -> str:
        """Give the tested method that it serves."""
        return CANNER_METHOD[self.kind]

    def load_of(self, jar: str) -> int | None:
        """Give the jars of one size in a full load."""
        return dict(self.jars_per_load).get(jar)


@dataclass(frozen=True, slots=True)
class Dryer:
    """A dryer: fresh kilograms a load, and the loads that fit in a week."""

    name: str
    fresh_kg_per_load: float
    loads_per_week: float


@dataclass(frozen=True, slots=True)
class ProcessTime:
    """One tested process, as looked up: never computed, never lowered.

    ``from_ft`` and ``to_ft`` are the altitude band. ``jar`` is the tested size, at least as
    large as the jar.
    """

    product: str
    method: str
    pack: str
    jar: str
    from_ft: int
    to_ft: int
    minutes: int
    pressure_psi: int | None
    headspace_mm: float | None
    acid_in_every_jar: bool
    sterilise_empty_jars: bool
    source: str


@dataclass(frozen=True, slots=True)
class Place:
    """A place that keeps food: a shelf, a freezer, a root store or a crock.

    ``capacity`` is in cm2 of shelf (all tiers together), litres of freezer or crock that
    can be filled, or kilograms of root store. ``temp_c`` and ``humidity_percent`` are the air
    of a root store in winter, None where nobody measured it. ``works_from`` is when a freezer
    that died takes food again.
    """

    name: str
    kind: str
    capacity: float
    volume_l: float
    temp_c: float | None = None
    humidity_percent: float | None = None
    works_from: date | None = None

    def works_on(self, day: date) -> bool:
        """Say whether it takes food on a day."""
        return self.works_from is None or day >= self.works_from


@dataclass(frozen=True, slots=True)
class Ingredient:
    """Fresh kilograms of one crop in one jar (or pack, kilogram, litre) of a preserve."""

    crop: str
    kg: float


@dataclass(frozen=True, slots=True)
class Preserve:
    """A recipe in a jar: what the plan decides how many of to make.

    ``unit`` names what is counted (jar, pack, kg, litre). ``units_per_load`` is None where nothing
    is done in loads. ``keeps_weeks`` is the household's own figure where ``own_weeks``, and then
    goes before every published one. ``loss_per_week`` is the root store's shrink and rot, a share.
    ``portions``, minutes and ``space_per_unit`` (cm2 of shelf, litres or kg of its ``place``) are
    of one unit; ``liking`` is 1 to 5.

    >>> ketchup = season.preserve("ketchup")
    >>> ketchup.canned, ketchup.unit, ketchup.jar
    (True, 'jar', '435 ml jar')
    """

    name: str
    food: str
    method: str
    product: str
    pack: str
    jar: str | None
    unit: str
    ingredients: tuple[Ingredient, ...]
    portions: float
    minutes_per_unit: float
    minutes_per_load: float
    units_per_load: int | None
    keeps_weeks: int
    own_weeks: bool
    ready_after_weeks: int
    loss_per_week: float
    place: str
    space_per_unit: float
    share_of_food: float
    liking: float
    most_portions_a_week: float | None
    target: int | None
    process: ProcessTime | None

    @property
    def canned(self) -> bool:
        """Say whether it is heat-processed in sealed glass."""
        return self.method in CANNING

    @property
    def in_pieces(self) -> bool:
        """Say whether it is counted in jars or packs, and not by weight or volume."""
        return self.unit in ("jar", "pack")

    @property
    def crops(self) -> tuple[str, ...]:
        """List the crops it is made of."""
        return tuple(ingredient.crop for ingredient in self.ingredients)


@dataclass(frozen=True, slots=True)
class KitchenHours:
    """Free kitchen hours a week in a stretch of dates; without dates, in every other week."""

    begins: date | None
    ends: date | None
    hours_a_week: float


@dataclass(frozen=True, slots=True)
class Counted:
    """A count of what stands on the shelf: a day, a preserve, a number, when it was made."""

    day: date
    preserve: str
    units: float
    put_up: date


@dataclass(frozen=True, slots=True)
class Gift:
    """Jars promised away on a day; the jar does not come back."""

    day: date
    preserve: str
    units: float
