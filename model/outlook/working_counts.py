"""How the workings count preserves, and where the shares and portions in them are from."""

import math
from collections.abc import Callable

from model.outlook.arithmetic import (
    TIMES,
    Pen,
)
from model.outlook.own_units import in_own
from model.outlook.working import (
    FROM_NOTES,
    FROM_SETTING,
    Source,
    WorkingLine,
    line,
    of_reference,
)
from model.planning import PlannedSeason
from model.season.kitchen import Preserve

# What is counted in whole kilograms or litres goes up in steps of their own unit elsewhere.
STEP = "step"
Lines = tuple[WorkingLine, ...]


def counted(number: float, unit: str, units: str) -> str:
    """Give a number of a preserve with its noun, in the household's own unit."""
    own, word = in_own(number, unit, units)
    return f"{Pen(1).written(own)} {noun(word, own)}"


def noun(unit: str, number: float = 2.0, ends: str = "") -> str:
    """Give the noun of a unit for a number of it, with words after it; it holds no digit."""
    one = unit.removeprefix("100 g ")
    return (one if number == 1 or one in ("kg", "lb", "qt") else f"{one}s") + ends


def steps(unit: str, units: str) -> str:
    """Name what a preserve is counted in, for a household that weighs in another unit."""
    return unit if in_own(1.0, unit, units)[1] == unit else STEP


def of_steps(pen: Pen, number: float, unit: str, units: str) -> Lines:
    """Give whole steps in the household's own unit; nothing where it counts in that already."""
    each, word = in_own(1.0, unit, units)
    if word == unit:
        return ()
    whole = pen.sum(number, noun(STEP, number), TIMES, each, f"{word} each", unit=word)
    return (line(whole),)


def of_unit(unit: str, ends: str = "") -> Callable[[float], str]:
    """Give the noun of a unit for the number that a sum comes to."""
    return lambda number: noun(unit, number, ends)


def plain(name: str) -> str:
    """Give a name for the middle of a sum, where a digit of it would be read as a number."""
    return "this food" if any(letter.isdigit() for letter in name) else name


def seal_source(planned: PlannedSeason) -> Source:
    """Say where the share that does not seal is from: own batches once there are any."""
    if planned.case.seals.batches:
        return Source(FROM_NOTES, "seals.csv")
    return Source(FROM_SETTING, "seal_failure_share")


def loss_source(preserve: Preserve) -> Source | None:
    """Say where the loss in store is from."""
    return of_reference("store_loss", crop=preserve.crops[0])


def portions_source(planned: PlannedSeason, preserve: Preserve) -> Source | None:
    """Say where the portions of one jar are from: its volume and the published portion, or own."""
    food = planned.case.season.food(preserve.food)
    jars = {jar.name: jar.volume_l for jar in planned.case.season.jars}
    volume = jars.get(preserve.jar or "", 1.0)
    if preserve.unit in ("jar", "pack", "litre") and math.isclose(
        preserve.portions, volume * 1000 / food.portion_ml, rel_tol=1e-6
    ):
        return of_reference("portions", group=food.group)
    return Source(FROM_NOTES, "preserves.csv", preserve.name)
