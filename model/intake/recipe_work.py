"""What a recipe takes: minutes of hand and canner, weeks it keeps, room it fills."""

from dataclasses import dataclass
from fractions import Fraction

from model.intake.rows import TypedRow
from model.reference.hand_work import hand_minutes
from model.reference.lookup import keeping
from model.reference.store_life import STORE, store_life
from model.season.household import Food
from model.season.kitchen import (
    CANNING,
    Canner,
    Ingredient,
    Jar,
    Place,
    ProcessTime,
)
from model.season.settings import Settings


@dataclass(frozen=True, slots=True)
class Kitchen:
    """What a recipe is made with."""

    foods: tuple[Food, ...]
    jars: tuple[Jar, ...]
    canners: tuple[Canner, ...]
    places: tuple[Place, ...]
    altitude_ft: Fraction | None
    chosen: Settings


@dataclass(frozen=True, slots=True)
class Measure:
    """What is counted, how large it is and what of the kitchen it takes."""

    unit: str
    jar: Jar | None
    volume_l: float
    canner: Canner | None
    process: ProcessTime | None


def minutes_per_unit(
    row: TypedRow, ingredients: tuple[Ingredient, ...], measure: Measure, chosen: Settings
) -> float:
    """Give the hand minutes for one jar (pack, bag, kilogram, litre)."""
    given = row.known("minutes_per_jar")
    if given is not None:
        return given
    parts = {part.crop: part.kg for part in ingredients}
    product = measure.process.product if measure.process else ""
    return hand_minutes(parts, row.text("method"), measure.volume_l, product, chosen)


def minutes_per_load(measure: Measure, chosen: Settings) -> float:
    """Give the minutes that one load holds the canner and the cook."""
    if measure.process is None:
        return 0.0
    if measure.process.method == "boiling water":
        around = chosen.come_up_minutes_boiling + chosen.rest_minutes_boiling
    else:
        around = chosen.come_up_minutes_pressure + chosen.cool_minutes_pressure
    return chosen.fill_minutes_per_load + around + measure.process.minutes


def keeps_weeks(row: TypedRow, crop: str, place: Place, chosen: Settings) -> int:
    """Give the weeks after which it is past it: the household's figure, else the published one."""
    given = row.whole("keeps_weeks")
    if given is not None:
        return given
    method = row.text("method")
    if method == STORE:
        stored = store_life(crop, place, chosen)
        return stored.planned_weeks if stored else 26
    life = keeping("can" if method in CANNING else method, crop)
    if life is None:
        return 26
    after = chosen.frozen_past_best_weeks if method == "freeze" else 0.0
    return max(1, round(life.weeks_high + after))


def space_per_unit(row: TypedRow, measure: Measure, chosen: Settings) -> float:
    """Give the room one takes, in the unit of its kind of place."""
    method = row.text("method")
    if method in CANNING and measure.jar is not None:
        return measure.jar.footprint_cm2
    if method == "dry":
        return chosen.pint_footprint_cm2 / 2
    return 1.0 if method == "root store" else measure.volume_l
