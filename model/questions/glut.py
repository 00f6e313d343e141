"""A glut on the table: what of it to eat, put up, hold and give away, in which order.

The pile is all there is this week; what else is picked in it waits for the next one, and the
rest of the season stays as it is expected, so that jars and hours are not spent on what comes
better later. This week's loads and jars are whole, later ones may be in part: it has to
answer at once. What is bruised or cut does not keep: it is worked first, and neither waits nor
goes to the root store.
"""

from collections.abc import Callable, Iterable, Mapping
from dataclasses import asdict, dataclass, fields, replace
from datetime import date, datetime, time, timedelta
from functools import partial

import numpy as np
import pandas as pd

from model.case import Case
from model.optimization.make_plan import WeekSketch
from model.optimization.solve import Solver
from model.outlook.day_product import Wanted, day_products
from model.outlook.day_sheet import day_sheet
from model.plan import Plan
from model.planning import PlannedSeason
from model.questions.glut_limit import (
    ENOUGH,
    LEAST_KG,
    MORE_HOURS,
    NO_LOAD,
    SHORT_OF_HOURS,
    limit_of,
)
from model.questions.pile import (
    MOST_HOURS,
    check_hours,
    check_pile,
    families_of,
    with_minutes,
    with_pile,
)
from model.season.kitchen import CANNING
from model.season.season import Season

STORE, HOLD, GIVE = "store", "hold", "give away"
# Minutes too few to look for work for, and how often more work is tried out.
LEAST_MINUTES, MOST_TRIES = 10.0, 4
KEEPS_ON_DAYS = 21.0


@dataclass(frozen=True, slots=True)
class GlutStep:
    """One thing to do with part of the pile; ``bruised_kg`` of its kilograms are bruised or cut.

    ``action`` is eat, can, freeze, dry, ferment, store, hold or give away; ``units``, ``loads``
    and ``minutes``, those of hands and canners one after the other, are 0 where nothing is put up.
    """

    action: str
    crop: str
    preserve: str
    kg: float
    bruised_kg: float
    units: float
    unit: str
    loads: int
    minutes: float


@dataclass(frozen=True, slots=True)
class GlutSplit:
    """What to do with a pile, in order, and the one thing that limits it.

    ``clock_minutes`` is how long it all takes as the preserving day orders it.

    >>> split = model.Glut(planned, {"apple": 8.0}).split(hours=3)
    >>> [step.action for step in split.steps]
    ['eat', 'hold']
    """

    steps: tuple[GlutStep, ...]
    limit: str
    clock_minutes: float

    @property
    def given_kg(self) -> float:
        """Give how much of it is given away."""
        return sum(step.kg for step in self.steps if step.action == GIVE)

    @property
    def wanted(self) -> tuple[Wanted, ...]:
        """Give what of it is put up, in whole jars and packs, for a preserving day."""
        return _wanted(self.steps)


class Glut:
    """A pile on the table, by crop in kilograms, to be split among the hours there are.

    Its program is built once; the splits of the same pile among other hours take a third of the
    time, and do not hang on each other.

    Parameters
    ----------
    bruised_kg : by crop, how much of the pile is bruised or cut; the rest is sound.

    Raises
    ------
    SeasonProblems : for crops that the season does not know, and impossible numbers.

    >>> split = model.Glut(planned, {"apple": 8.0}).split(hours=3)
    >>> round(sum(step.kg for step in split.steps), 6)
    8.0
    >>> model.Glut(planned, {"mango": 8.0})
    Traceback (most recent call last):
        ...
    model.errors.SeasonProblems: 1 problem in the season:
      - the pile: 'mango' is not grown; one of apple, beetroot, ...
    """

    def __init__(
        self,
        planned: PlannedSeason,
        pile_kg: Mapping[str, float],
        bruised_kg: Mapping[str, float] | None = None,
    ) -> None:
        """Check the pile and build its program."""
        self._bruised_kg = {crop: kg for crop, kg in (bruised_kg or {}).items() if kg != 0}
        check_pile(planned.case, pile_kg, self._bruised_kg)
        self._pile_kg, self._case = dict(pile_kg), with_pile(planned, pile_kg)
        families = families_of(self._case, pile_kg, self._bruised_kg)
        self._sketch = WeekSketch(self._case, planned.basis, families)

    def split(self, hours: float) -> GlutSplit:
        """Split the pile among so many hours of this week; raises SeasonProblems for impossible."""
        check_hours(hours)
        within = partial(self._within, self._sketch.begun())
        split = _by_the_clock(within, hours * 60)
        if split.limit in (ENOUGH, NO_LOAD):
            # Whole jars and loads leave minutes over that are too few for the next of them.
            longer = within(MOST_HOURS * 60)
            if split.given_kg - longer.given_kg > LEAST_KG:
                split = replace(split, limit=MORE_HOURS)
        return split

    def _within(self, solver: Solver, minutes: float) -> GlutSplit:
        case = with_minutes(self._case, minutes)
        plan = self._sketch.plan(solver, minutes)
        steps = tuple(_steps(case, plan, self._pile_kg, self._bruised_kg))
        limit = limit_of(case, plan, self._pile_kg)
        return GlutSplit(steps, limit, _day_minutes(case.season, steps, case.today))


def _by_the_clock(within: Callable[[float], GlutSplit], minutes: float) -> GlutSplit:
    """Give the split that fills the minutes there are, while a canner works beside the hands.

    ``within`` counts hands and canners one after the other; by the clock a day is shorter where
    they work side by side, longer where it waits for a canner.
    """
    low, high, budget = 0.0, np.inf, minutes
    best: GlutSplit | None = None
    for _ in range(MOST_TRIES):
        split = within(budget)
        left = minutes - split.clock_minutes
        if left < -1e-9:
            high = budget
        else:
            low, best = budget, split
            if left < LEAST_MINUTES or split.limit not in SHORT_OF_HOURS:
                break
        budget = max(0.0, budget + left) if np.isinf(high) else (low + high) / 2
    return best or within(0.0)


def _day_minutes(season: Season, steps: Iterable[GlutStep], day: date) -> float:
    """Give how long the work takes by the clock, each thing in its turn on the preserving day.

    What does not fit one freezer or dryer that day is work of another, as long as its hands take.
    """
    made, refused = day_products(season, _wanted(steps))
    begins = datetime.combine(day, time())
    sheet = day_sheet(season, made, refused, begins, past_bedtime=True)
    exact = {step.preserve: step.units for step in steps}
    later = sum(
        max(0.0, exact[left.product.name] - left.product.units + left.units)
        * left.product.minutes_per_unit
        for left in sheet.waiting
    )
    return (sheet.finish - begins) / timedelta(minutes=1) + later


def _wanted(steps: Iterable[GlutStep]) -> tuple[Wanted, ...]:
    return tuple(Wanted(step.preserve, round(step.units)) for step in steps if step.units)


def _steps(
    case: Case, plan: Plan, pile_kg: Mapping[str, float], bruised_kg: Mapping[str, float]
) -> list[GlutStep]:
    """Put the parts in order: bruised first, then what spoils first, then what feeds most an hour.

    What is bruised goes into the first work that can take it, else it is eaten or given away.
    What keeps for weeks need not go this week, though the plan has no use for it yet.
    """
    arrays, left = case.arrays, dict(bruised_kg)
    pile = [crop for crop in arrays.crops if pile_kg.get(crop, 0.0) > 0]
    work = [step for r in range(len(arrays.preserves)) for step in _put_up(case, plan, r, pile)]
    hold_days = {crop.name: crop.hold_days for crop in case.season.crops}
    work.sort(key=lambda step: (hold_days[step.crop], -_an_hour(case, step), step.preserve))
    work = [_with_bruised(case, step, left) for step in work]
    work.sort(key=lambda step: step.bruised_kg <= LEAST_KG)
    eaten_kg, held_kg, spare_kg = (
        {crop: float(kg[arrays.crops.index(crop), 0]) for crop in pile}
        for kg in (plan.eaten_kg, plan.on_hand_kg, plan.spare_kg)
    )
    eaten = [_with_bruised(case, _fresh("eat", crop, kg), left) for crop, kg in eaten_kg.items()]
    for crop in pile:
        if hold_days[crop] >= KEEPS_ON_DAYS:
            sound_kg = max(0.0, spare_kg[crop] - left.get(crop, 0.0))
            held_kg[crop] += sound_kg
            spare_kg[crop] -= sound_kg
    held = [_fresh(HOLD, crop, kg) for crop, kg in held_kg.items()]
    spare = [_with_bruised(case, _fresh(GIVE, crop, kg), left) for crop, kg in spare_kg.items()]
    steps = [*eaten, *work, *held, *spare]
    return [step for step in steps if step.kg > LEAST_KG or step.units > 0]


def _with_bruised(case: Case, step: GlutStep, left_kg: dict[str, float]) -> GlutStep:
    """Give a step with as much of what is left bruised as it can take, and take it off."""
    if step.action in (STORE, HOLD):
        return step
    parts = {step.crop: step.kg}
    if step.preserve:
        ingredients = case.season.preserve(step.preserve).ingredients
        parts = {part.crop: part.kg * step.units for part in ingredients}
    taken = {crop: min(kg, left_kg.get(crop, 0.0)) for crop, kg in parts.items()}
    for crop in taken.keys() & left_kg.keys():
        left_kg[crop] -= taken[crop]
    return replace(step, bruised_kg=sum(taken.values()))


def _fresh(action: str, crop: str, kg: float) -> GlutStep:
    return GlutStep(action, crop, "", float(kg), 0.0, 0.0, "", 0, 0.0)


def _put_up(case: Case, plan: Plan, r: int, pile: list[str]) -> list[GlutStep]:
    arrays, preserve = case.arrays, case.season.preserves[r]
    units, loads = float(plan.put_up[r, 0]), int(plan.loads[r, 0])
    own = [part for part in preserve.ingredients if part.crop in pile]
    if units <= 1e-6 or not own:
        return []
    minutes = units * arrays.minutes_per_unit[r] + loads * arrays.minutes_per_load[r]
    kg = units * sum(part.kg for part in own)
    action = "can" if preserve.method in CANNING else preserve.method
    action = STORE if action == "root store" else action
    made = (units, preserve.unit, loads, float(minutes))
    return [GlutStep(action, own[0].crop, preserve.name, kg, 0.0, *made)]


def _an_hour(case: Case, step: GlutStep) -> float:
    r = case.arrays.preserves.index(step.preserve)
    return float(case.arrays.portions[r] * step.units / max(step.minutes, 1.0))


def glut_table(split: GlutSplit) -> pd.DataFrame:
    """One row a step of a split pile, in order.

    >>> print(*model.glut_table(model.Glut(planned, {"apple": 8.0}).split(hours=3)))
    action crop preserve kg bruised_kg units unit loads minutes
    """
    names = [field.name for field in fields(GlutStep)]
    return pd.DataFrame([asdict(step) for step in split.steps], columns=names)
