"""Beds, crops and plantings: what grows where, and what was picked."""

from dataclasses import dataclass
from datetime import date

SOWN, OUT = STEPS = ("sown", "planted out")


@dataclass(frozen=True, slots=True)
class CropYield:
    """A published yield of one crop: kg per plant, per metre of row or per m2 of bed."""

    form: str
    per: str
    kg_low: float
    kg_typical: float
    kg_high: float


@dataclass(frozen=True, slots=True)
class Crop:
    """How one crop grows and holds; figures of the reference tables.

    ``days_low`` and ``days_high`` run from sowing or planting out to the first picking
    (None where the household gives that date), ``picking_days_*`` from the first to the
    last picking. ``hold_days`` is how long a picking waits before it must be used.
    """

    name: str
    family: str
    tender: bool
    counted_from: str
    days_low: float | None
    days_high: float | None
    picking_days_low: float
    picking_days_high: float
    shape: str
    frost: str
    season_cv: float
    chance_near_total_loss: float
    plants_per_m2: float | None
    hold_days: float
    edible_share: float
    yields: tuple[CropYield, ...]


@dataclass(frozen=True, slots=True)
class Bed:
    """A bed and its size."""

    name: str
    area_m2: float


@dataclass(frozen=True, slots=True)
class GardenSeason:
    """One garden year; an abnormal one is kept in the risk but not in the mean.

    >>> year = season.garden_seasons[-1]
    >>> year.name, year.begins, year.normal
    ('2027', datetime.date(2027, 3, 1), True)
    """

    name: str
    begins: date
    ends: date
    normal: bool


@dataclass(frozen=True, slots=True)
class Planting:
    """One crop in one bed: how much, and when it was or will be started.

    ``amount`` is in ``per`` units (m2 of bed, plants, m of row). ``least`` and ``most``
    differ where the plan may choose; they equal ``amount`` where it may not. Plantings of one
    ``choice`` (another bed, another sowing day) share one amount, written with the first. The
    amount of a ``guessed`` one was never the household's: it is no fact once its day is past.
    ``done`` is the last of STEPS that was written down as done; blank where none was.

    >>> planting = season.plantings[0]
    >>> planting.crop, planting.bed, planting.per
    ('tomato', 'south bed', 'plant')
    """

    season: str
    crop: str
    bed: str
    form: str
    sown: date | None
    planted_out: date | None
    first_picking: date | None
    per: str
    amount: float
    least: float
    most: float
    kg_per_unit: float
    area_m2_per_unit: float
    choice: str
    guessed: bool = False
    done: str = ""

    @property
    def started(self) -> date | None:
        """Give the day on which it takes its place in the bed, if that is known."""
        return self.planted_out or self.sown

    @property
    def label(self) -> str:
        """Name the planting for a table or a message."""
        return f"{self.crop} in {self.bed}"


@dataclass(frozen=True, slots=True)
class Picking:
    """Something that was picked."""

    day: date
    crop: str
    kg: float


@dataclass(frozen=True, slots=True)
class Temperatures:
    """A day's highest and lowest temperature, from the household's own thermometer."""

    day: date
    high_c: float
    low_c: float


@dataclass(frozen=True, slots=True)
class Setback:
    """About so much of a crop is gone: hail, blight, late frost, rats."""

    noticed: date
    crop: str
    share_lost: float
