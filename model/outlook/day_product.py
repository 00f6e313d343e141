"""What is to be made on a preserving day, each with its tested process or refused."""

from collections.abc import Hashable, Iterable, Mapping
from dataclasses import dataclass, replace
from datetime import date
from typing import Any

from model.errors import NoTestedProcess
from model.outlook.kitchen_table import batch_table
from model.outlook.process_card import ProcessCard, process_card
from model.planning import PlannedSeason
from model.reference.hand_work import hand_minutes
from model.reference.lookup import crop as find_crop
from model.reference.lookup import fresh_per_jar, product_crops
from model.safety.methods import ways_that_remain
from model.season.kitchen import Canner, Ingredient, Jar, Preserve
from model.season.season import Season

# So far below a whole kilogram is a slip of the sums.
A_HAIR = 1e-6


@dataclass(frozen=True, slots=True)
class Wanted:
    """So many units of a preserve of the notes; or jars of a tested product.

    Of a preserve the last three are blank: they stand in the notes.

    >>> model.Wanted("ketchup", 6)
    Wanted(name='ketchup', units=6, method='', pack='', jar='')
    >>> model.Wanted("Apples, sliced", 6, "boiling water", "hot", "435 ml jar").jar
    '435 ml jar'
    """

    name: str
    units: int
    method: str = ""
    pack: str = ""
    jar: str = ""


@dataclass(frozen=True, slots=True)
class DayProduct:
    """One thing to be made today.

    ``card`` holds its tested process and is None for what is not canned; ``preserve`` is None
    for a product that stands in no notes. ``ingredients`` and ``minutes_per_unit`` are of one
    unit, ``hold_days`` is how long its crops wait, ``worth`` what one unit is worth (portions
    times liking, 0 where it is not known).

    Minutes are those of hands, ``hold_days`` days.

    >>> (made,), _ = model.day_products(season, [model.Wanted("crushed tomatoes", 7)])
    >>> made.unit, made.card.process.minutes, made.card.figure
    ('jar', 50, '50 minutes in boiling water')
    """

    name: str
    units: int
    unit: str
    jar: Jar | None
    method: str
    ingredients: tuple[Ingredient, ...]
    minutes_per_unit: float
    hold_days: float
    worth: float
    card: ProcessCard | None
    preserve: Preserve | None

    @property
    def tags(self) -> set[str]:
        """Give what cautions and the checklist are chosen by."""
        if self.card is None:
            return {self.method}
        gauge = {"dial gauge"} if "dial" in self.card.process.method else set()
        return self.card.tags | gauge

    def suitable(self, canners: Iterable[Canner]) -> list[Canner]:
        """List the canners that can process a load of it."""
        if self.card is None or self.jar is None:
            return []
        method, jar = self.card.process.method, self.jar.name
        return [c for c in canners if c.method == method and c.load_of(jar)]


@dataclass(frozen=True, slots=True)
class Refused:
    """Something that is not made today, why, and the ways that remain.

    >>> _, (refused,) = model.day_products(
    ...     season, [model.Wanted("pumpkin butter", 6, "boiling water", "hot", "435 ml jar")]
    ... )
    >>> refused.ways
    ('freeze',)
    """

    name: str
    reason: str
    ways: tuple[str, ...]


def day_products(
    season: Season, wanted: Iterable[Wanted]
) -> tuple[tuple[DayProduct, ...], tuple[Refused, ...]]:
    """Look up what is wanted; whatever has no tested process here is refused, never timed.

    Raises KeyError for a preserve or a jar that is not in the notes.

    >>> made, refused = model.day_products(
    ...     season,
    ...     [
    ...         model.Wanted("ketchup", 6),
    ...         model.Wanted("pumpkin butter", 6, "boiling water", "hot", "435 ml jar"),
    ...     ],
    ... )
    >>> [product.name for product in made], [other.name for other in refused]
    (['ketchup'], ['pumpkin butter'])
    >>> model.day_products(season, [model.Wanted("marmalade", 6)])
    Traceback (most recent call last):
        ...
    KeyError: 'marmalade'
    """
    made, refused = [], []
    for one in _together(wanted):
        try:
            made.append(_of_product(season, one) if one.method else _of_preserve(season, one))
        except NoTestedProcess as error:
            refused.append(Refused(one.name, error.reason, error.ways))
    return tuple(made), tuple(refused)


def wanted_today(planned: PlannedSeason) -> tuple[Wanted, ...]:
    """Give what this week's plan still puts up, and what was put up today already.

    Units are whole; nothing is wanted in a week in which nothing is put up.

    >>> model.wanted_today(planned)
    ()
    """
    batches = batch_table(planned)
    this = batches[batches["week"] == planned.case.weeks.monday(0)]
    units = put_up_on(planned.case.season, planned.case.today)
    for row in this.to_dict("records"):
        name = row["preserve"]
        units[name] = units.get(name, 0.0) + _whole(row)
    return tuple(Wanted(name, round(number)) for name, number in units.items())


def _whole(batch: Mapping[Hashable, Any]) -> float:
    """Give the whole units of a batch; of what is weighed no more than the week has, from 1 on."""
    weighed = batch["unit"] == "kg" and batch["units"] >= 1
    return float(min(batch["jars"], int(batch["units"] + A_HAIR)) if weighed else batch["jars"])


def put_up_on(season: Season, day: date) -> dict[str, float]:
    """Give the units of each preserve that were put up on a day.

    >>> model.put_up_on(season, date(2026, 10, 10))
    {'carrots in sand': 26.0, 'cabbages in the cellar': 10.0}
    """
    units: dict[str, float] = {}
    for batch in season.record.batches:
        if batch.put_up == day:
            units[batch.preserve] = units.get(batch.preserve, 0.0) + batch.filled
    return units


def _together(wanted: Iterable[Wanted]) -> list[Wanted]:
    """Add up what is wanted twice, and leave out what is not wanted."""
    units: dict[Wanted, int] = {}
    for one in wanted:
        same = replace(one, units=0)
        units[same] = units.get(same, 0) + one.units
    return [replace(same, units=number) for same, number in units.items() if number > 0]


def _of_preserve(season: Season, one: Wanted) -> DayProduct:
    own = season.preserve(one.name)
    jar = season.jar(own.jar) if own.jar else None
    card = None
    if own.canned:
        if own.process is None or jar is None:
            raise NoTestedProcess(
                f"{own.name} has no tested process", ways_that_remain(own.product)
            )
        tested = own.process
        card = _card(season, tested.product, tested.method, tested.pack, jar)
    return DayProduct(
        name=own.name,
        units=one.units,
        unit=own.unit,
        jar=jar,
        method=own.method,
        ingredients=own.ingredients,
        minutes_per_unit=own.minutes_per_unit,
        hold_days=_hold_days(own.crops),
        worth=own.portions * own.liking,
        card=card,
        preserve=own,
    )


def _of_product(season: Season, one: Wanted) -> DayProduct:
    jar = season.jar(one.jar)
    card = _card(season, one.name, one.method, one.pack, jar)
    product = card.process.product
    crops = product_crops(product)
    weights = fresh_per_jar(product, crops[0] if crops else "")
    parts = {weight.crop: weight.kg_per_l * jar.volume_l for weight in weights if weight.crop}
    return DayProduct(
        name=f"{product} ({card.process.pack} pack, {jar.name})",
        units=one.units,
        unit="jar",
        jar=jar,
        method="pressure" if card.process.pressure_psi else "boiling water",
        ingredients=tuple(Ingredient(crop, kg) for crop, kg in parts.items()),
        minutes_per_unit=hand_minutes(
            parts, card.process.method, jar.volume_l, product, season.settings
        ),
        hold_days=_hold_days(tuple(parts)),
        worth=0.0,
        card=card,
        preserve=None,
    )


def _card(season: Season, product: str, method: str, pack: str, jar: Jar) -> ProcessCard:
    text = f"{jar.volume_l * 1000:.10g} ml"
    card = replace(process_card(product, method, pack, text, season.altitude_ft), jar=jar.name)
    own = [canner for canner in season.canners if canner.method == card.process.method]
    if not any(canner.load_of(jar.name) for canner in own):
        missing = f"load of {jar.name}" if own else f"canner for {card.process.method}"
        raise NoTestedProcess(
            f"the notes have no {missing}",
            ["add it to equipment.csv", *ways_that_remain(card.process.product)],
        )
    return card


def _hold_days(crops: Iterable[str]) -> float:
    """Give how long the first of some crops to spoil waits; what is not known spoils first."""
    return min((find_crop(crop).hold_days for crop in crops), default=0.0)
