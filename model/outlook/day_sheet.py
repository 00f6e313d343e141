"""The day sheet: the loads of a preserving day in order, with clock times and the finish.

One cook prepares and fills one load after the other; meanwhile a canner works by itself. What
spoils first goes first, of equals what is canned (so that a canner works while hands do the
rest), then what is worth most a minute; another load goes before it while its canner is still
taken. Times are plain local clock times, in whole minutes, each step rounded up.
"""

import math
from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from datetime import datetime, time, timedelta

from model.outlook.day_pace import delay
from model.outlook.day_product import DayProduct, Refused
from model.outlook.day_waiting import Waiting, fitting_today, waiting
from model.reference.blanching import blanching
from model.reference.curing import curing
from model.safety.canner_steps import after_process, before_process
from model.season.kitchen import Canner
from model.season.season import Season
from model.season.settings import Settings

PREPARE, FILL, PROCESS = "prepare", "fill, wipe, lid and load", "process"
PACK = {
    "freeze": "prepare, pack and freeze",
    "dry": "prepare and lay out to dry",
    "ferment": "prepare and salt",
    "root store": "sort and store",
}
CURE = "lay out to cure; store once cured"
HANDS = "hands"
PAST_BEDTIME = "it would end past bedtime"


@dataclass(frozen=True, slots=True)
class DayStep:
    """One step of a load; ``equipment`` is the canner's name, or the cook's hands."""

    phase: str
    equipment: str
    begins: datetime
    ends: datetime


@dataclass(frozen=True, slots=True)
class Load:
    """Units of one product that are done together; ``canner`` is None where hands are enough.

    >>> made, refused = model.day_products(season, [model.Wanted("crushed tomatoes", 9)])
    >>> sheet = model.day_sheet(season, made, refused, datetime(2027, 8, 16, 9))
    >>> [(load.units, load.canner.name) for load in sheet.loads]
    [(7, 'big pan'), (2, 'big pan')]
    """

    number: int
    product: DayProduct
    units: int
    canner: Canner | None
    steps: tuple[DayStep, ...]

    @property
    def begins(self) -> datetime:
        """Give when work on it begins."""
        return self.steps[0].begins

    @property
    def ends(self) -> datetime:
        """Give when it is done: out of its canner, or packed."""
        return self.steps[-1].ends

    @property
    def cures(self) -> bool:
        """Say whether it is laid out to cure today, and stored only once it is cured."""
        return any(step.phase == CURE for step in self.steps)

    @property
    def process(self) -> DayStep | None:
        """Give the step that was looked up; None for what is not canned."""
        return next((step for step in self.steps if step.phase == PROCESS), None)


@dataclass(frozen=True, slots=True)
class DaySheet:
    """The loads of a day, what is left for tomorrow, and what is refused.

    ``all_done`` is when everything would be done that is not refused, bedtime or not; ``done``
    are the numbers of the loads that were put up already.

    Times are local clock times.

    >>> made, refused = model.day_products(season, [model.Wanted("ketchup", 6)])
    >>> sheet = model.day_sheet(season, made, refused, datetime(2027, 8, 16, 9))
    >>> len(sheet.loads), sheet.late, sheet.bedtime.hour
    (1, False, 22)
    """

    begins: datetime
    bedtime: datetime
    loads: tuple[Load, ...]
    waiting: tuple[Waiting, ...]
    refused: tuple[Refused, ...]
    all_done: datetime
    done: frozenset[int]

    @property
    def finish(self) -> datetime:
        """Give when the last load that is still to do is done."""
        left = (load.ends for load in self.loads if load.number not in self.done)
        return max(left, default=self.begins)

    @property
    def late(self) -> bool:
        """Say whether everything together would run past bedtime."""
        return self.all_done > self.bedtime

    @property
    def to_make(self) -> tuple[DayProduct, ...]:
        """Give the products of the loads still to do, each with its units in them."""
        units = Counter[str]()
        for load in self.loads:
            if load.number not in self.done:
                units[load.product.name] += load.units
        products = {load.product.name: load.product for load in self.loads}
        return tuple(replace(products[name], units=number) for name, number in units.items())


def day_sheet(
    season: Season,
    products: Iterable[DayProduct],
    refused: tuple[Refused, ...],
    begins: datetime,
    *,
    past_bedtime: bool = False,
    put_up: Mapping[str, float] | None = None,
) -> DaySheet:
    """Put the loads of some products in order from a clock time on.

    Parameters
    ----------
    begins : local clock time, without an offset.
    past_bedtime : whether loads that end past bedtime are done too, instead of left.
    put_up : units of each product that were put up that day already: loads of their own. By as
        much as the last of them ended earlier or later than was said, the rest is moved.

    Raises ValueError for a time with an offset from UTC.

    >>> made, refused = model.day_products(season, [model.Wanted("ketchup", 6)])
    >>> model.day_sheet(season, made, refused, datetime(2027, 8, 16, 9, tzinfo=UTC))
    Traceback (most recent call last):
        ...
    ValueError: 2027-08-16 09:00:00+00:00 has an offset: the day sheet takes plain local clock time
    """
    if begins.tzinfo is not None:
        raise ValueError(f"{begins} has an offset: the day sheet takes plain local clock time")
    bedtime = datetime.combine(begins.date(), time()) + timedelta(
        hours=season.settings.bedtime_hour
    )
    kept, over = fitting_today(season, sorted(products, key=_rank), begins.date())
    there = {} if put_up is None else put_up
    every, _, done = _schedule(season, kept, begins, None, there)
    all_done = max((load.ends for load in every), default=begins)
    loads, late = every, dict[str, int]()
    if all_done > bedtime and not past_bedtime:
        loads, late, done = _schedule(season, kept, begins, bedtime, there)
    loads, moved = _at_real_pace(season, loads, done, begins)
    return DaySheet(
        begins=begins,
        bedtime=bedtime,
        loads=loads,
        waiting=waiting(kept, late, PAST_BEDTIME) + over,
        refused=refused,
        all_done=all_done + moved,
        done=done,
    )


def _at_real_pace(
    season: Season, loads: tuple[Load, ...], done: frozenset[int], begins: datetime
) -> tuple[tuple[Load, ...], timedelta]:
    """Move the loads still to do by how much the day goes later or earlier; gives also that."""
    over = [load for load in loads if load.number in done]
    rest = [load for load in loads if load.number not in done]
    if not over or not rest:
        return loads, timedelta()
    said = ((load.product.name, load.process.ends if load.process else None) for load in over)
    late = delay(season, begins.date(), said)
    moved = max(late, begins - min(load.begins for load in rest))
    return tuple(one if one.number in done else _moved(one, moved) for one in loads), moved


def _moved(load: Load, by: timedelta) -> Load:
    steps = (replace(step, begins=step.begins + by, ends=step.ends + by) for step in load.steps)
    return replace(load, steps=tuple(steps))


def _schedule(
    season: Season,
    products: tuple[DayProduct, ...],
    begins: datetime,
    bedtime: datetime | None,
    put_up: Mapping[str, float],
) -> tuple[tuple[Load, ...], dict[str, int], frozenset[int]]:
    """Put loads in order; gives also the units that end past bedtime, and which loads are done."""
    left = {p.name: p.units for p in products if p.units}
    there = {name: min(units, round(put_up.get(name, 0.0))) for name, units in left.items()}
    done = set[int]()
    by_name = {product.name: product for product in products}
    free = {canner.name: begins for canner in season.canners}
    hands, loads, late = begins, list[Load](), dict[str, int]()
    while left:
        number = len(loads) + 1
        choices = [
            _load(number, by_name[name], there[name] or units, season, hands, free)
            for name, units in left.items()
        ]
        load = min(choices, key=lambda one: _idle(one, hands))
        name = load.product.name
        if bedtime is not None and load.ends > bedtime:
            late[name] = left.pop(name)
            continue
        loads.append(load)
        hands = max(step.ends for step in load.steps if step.equipment == HANDS)
        if load.canner is not None:
            free[load.canner.name] = load.ends
        left[name] -= load.units
        if there[name]:
            there[name] -= load.units
            done.add(number)
        if not left[name]:
            del left[name]
    return tuple(loads), late, frozenset(done)


def _rank(product: DayProduct) -> tuple[float, bool, float, str]:
    a_minute = product.worth / max(product.minutes_per_unit, 1.0)
    return product.hold_days, product.card is None, -a_minute, product.name


def _idle(load: Load, hands: datetime) -> timedelta:
    """Give how long the cook would wait for the load's canner."""
    worked = sum(
        (step.ends - step.begins for step in load.steps if step.equipment == HANDS), timedelta()
    )
    return max(step.ends for step in load.steps if step.equipment == HANDS) - hands - worked


def _by_hand(product: DayProduct) -> str:
    """Say what is done with what needs no canner; what is to be cured is not stored fresh."""
    own = product.preserve
    if product.method == "freeze" and (blanched := blanching(product.ingredients[0].crop)):
        return f"prepare, {blanched}, cool, pack and freeze"
    if own is not None and product.method == "root store" and curing(own.crops[0]) is not None:
        return CURE
    return PACK[product.method]


def _load(
    number: int,
    product: DayProduct,
    left: int,
    season: Season,
    hands: datetime,
    free: Mapping[str, datetime],
) -> Load:
    """Give the next load of a product, in the canner that is free first."""
    canners = product.suitable(season.canners)
    if product.card is None or product.jar is None or not canners:
        ends = hands + _whole(left * product.minutes_per_unit)
        done = DayStep(_by_hand(product), HANDS, hands, ends)
        return Load(number, product, left, None, (done,))
    canner = min(canners, key=lambda one: free[one.name])
    units = min(left, canner.load_of(product.jar.name) or left)
    prepared = hands + _whole(units * product.minutes_per_unit)
    fill = _whole(season.settings.fill_minutes_per_load)
    filling = max(prepared, free[canner.name] - fill)
    steps = [
        DayStep(PREPARE, HANDS, hands, prepared),
        DayStep(FILL, HANDS, filling, filling + fill),
    ]
    for phase, minutes in _in_canner(product, season.settings):
        begins = steps[-1].ends
        steps.append(DayStep(phase, canner.name, begins, begins + _whole(minutes)))
    return Load(number, product, units, canner, tuple(steps))


def _in_canner(product: DayProduct, chosen: Settings) -> list[tuple[str, float]]:
    if product.card is None:
        return []
    process = product.card.process
    return [
        *before_process(process, chosen),
        (PROCESS, process.minutes),
        *after_process(process, chosen),
    ]


def _whole(minutes: float) -> timedelta:
    return timedelta(minutes=math.ceil(minutes - 1e-9))
