"""A glut on the table: what of it to eat, put up, hold and give away, in which order.

The pile is all there is this week; what else is picked in it waits for the next one, and the
rest of the season stays as it is expected, so that jars and hours are not spent on what comes
better later. This week's loads and jars are whole, later ones may be in part: it has to
answer at once. What is bruised or cut does not keep: it is worked first, and neither waits nor
goes to the root store.
"""

from collections.abc import Mapping
from dataclasses import asdict, dataclass, fields, replace
from functools import partial
from itertools import accumulate

import numpy as np
import pandas as pd

from model.case import Case
from model.errors import Problem, SeasonProblems
from model.forecast.harvest import with_given
from model.optimization.ground import with_amounts
from model.optimization.harvest_constraints import only_sound_waits
from model.optimization.make_plan import relaxed_plan
from model.optimization.planning_program import FAMILIES
from model.outlook.day_product import Wanted
from model.outlook.limits import limit_uses
from model.plan import Plan
from model.planning import PlannedSeason
from model.season.arrays import Bools, Floats
from model.season.kitchen import CANNING

STORE, HOLD = "store", "hold"
LEAST_KG = 0.05
KEEPS_ON_DAYS = 21.0
ENOUGH = "enough: what is wanted of it until the new crop is met, or its work is worth less"
MORE_HOURS = "hours: too few are left for the next whole jar or load"
MOST_KG = 10_000.0
MOST_HOURS = 168.0


@dataclass(frozen=True, slots=True)
class GlutStep:
    """One thing to do with part of the pile; ``bruised_kg`` of its kilograms are bruised or cut.

    ``action`` is eat, can, freeze, dry, ferment, store, hold or give away; ``units``, ``loads``
    and ``minutes`` are 0 where nothing is put up. ``done_minutes`` runs from the start of work.
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
    done_minutes: float


@dataclass(frozen=True, slots=True)
class GlutSplit:
    """What to do with a pile, in order, and the one thing that limits it.

    ``minutes`` is the kitchen time of all of it.

    >>> split = model.split_glut(planned, {"apple": 8.0}, hours=3)
    >>> [step.action for step in split.steps]
    ['eat', 'hold']
    """

    steps: tuple[GlutStep, ...]
    limit: str

    @property
    def minutes(self) -> float:
        """Give the kitchen time of all of it."""
        return max((step.done_minutes for step in self.steps), default=0.0)

    @property
    def wanted(self) -> tuple[Wanted, ...]:
        """Give what of it is put up, in whole jars and packs, for a preserving day."""
        return tuple(Wanted(step.preserve, round(step.units)) for step in self.steps if step.units)


def split_glut(
    planned: PlannedSeason,
    pile_kg: Mapping[str, float],
    hours: float,
    bruised_kg: Mapping[str, float] | None = None,
) -> GlutSplit:
    """Split a pile: by crop, kilograms on the table today.

    Parameters
    ----------
    hours : free in the kitchen for it, this week.
    bruised_kg : by crop, how much of the pile is bruised or cut; the rest is sound.

    Raises
    ------
    SeasonProblems : for crops that the season does not know, and impossible numbers.

    >>> split = model.split_glut(planned, {"apple": 8.0}, hours=3)
    >>> round(sum(step.kg for step in split.steps), 6)
    8.0
    >>> model.split_glut(planned, {"mango": 8.0}, hours=3)
    Traceback (most recent call last):
        ...
    model.errors.SeasonProblems: 1 problem in the season:
      - the pile: 'mango' is not grown; one of apple, beetroot, ...
    """
    _check(planned.case, pile_kg, hours)
    bruised = {crop: kg for crop, kg in (bruised_kg or {}).items() if kg != 0}
    _check_bruised(pile_kg, bruised)
    case, plan = _split_in(hours, planned, pile_kg, bruised)
    steps, limit = _steps(case, plan, pile_kg, bruised), _limit(case, plan, pile_kg)
    if limit == ENOUGH:
        # Whole jars and loads leave minutes over that are too few for the next of them.
        _, longer = _split_in(MOST_HOURS, planned, pile_kg, bruised)
        if plan.spare_kg[:, 0].sum() - longer.spare_kg[:, 0].sum() > LEAST_KG:
            limit = MORE_HOURS
    return GlutSplit(tuple(steps), limit)


def _split_in(
    hours: float,
    planned: PlannedSeason,
    pile_kg: Mapping[str, float],
    bruised_kg: Mapping[str, float],
) -> tuple[Case, Plan]:
    case = _with_pile(planned, pile_kg, hours)
    families = FAMILIES
    if bruised_kg:
        sound = [pile_kg.get(crop, 0.0) - bruised_kg.get(crop, 0.0) for crop in case.arrays.crops]
        families = (*FAMILIES, partial(only_sound_waits, np.array(sound)))
    return case, relaxed_plan(case, planned.basis, weeks_ahead=1, families=families).plan


def _check_bruised(pile_kg: Mapping[str, float], bruised_kg: Mapping[str, float]) -> None:
    problems = [
        Problem("the pile", 0, f"{kg:g} kg of {crop} bruised", f"0 to {pile_kg.get(crop, 0.0):g}")
        for crop, kg in bruised_kg.items()
        if not 0 <= kg <= pile_kg.get(crop, 0.0)
    ]
    if problems:
        raise SeasonProblems(problems)


def _check(case: Case, pile_kg: Mapping[str, float], hours: float) -> None:
    problems = []
    for crop, kg in pile_kg.items():
        if crop not in case.arrays.crops:
            known = ", ".join(case.arrays.crops)
            problems.append(Problem("the pile", 0, f"{crop!r} is not grown", f"one of {known}"))
        elif not 0 <= kg <= MOST_KG:
            wanted = f"kilograms from 0 to {MOST_KG:g}"
            problems.append(Problem("the pile", 0, f"{kg:g} kg of {crop}", wanted))
    if not 0 <= hours <= MOST_HOURS:
        wanted = f"hours of this week, 0 to {MOST_HOURS:g}"
        problems.append(Problem("the pile", 0, f"{hours:g} hours", wanted))
    if problems:
        raise SeasonProblems(problems)


def _with_pile(planned: PlannedSeason, pile_kg: Mapping[str, float], hours: float) -> Case:
    """Give the case in which the pile is all of this week's harvest."""
    case = with_amounts(planned.case, planned.plan.amounts)
    arrays, forecast = case.arrays, case.forecast
    kg_per_unit = forecast.kg_per_unit.copy()
    waits = np.array([crop not in pile_kg for crop in arrays.crops], dtype=bool)[forecast.crop_of]
    kg_per_unit[waits, 1] += kg_per_unit[waits, 0]
    kg_per_unit[:, 0] = 0.0
    on_table = np.zeros((len(arrays.crops), len(case.weeks)))
    on_table[:, 0] = [pile_kg.get(crop, 0.0) for crop in arrays.crops]
    minutes = arrays.kitchen_minutes.copy()
    minutes[0] = hours * 60
    return replace(
        case,
        before_kg=np.zeros_like(case.before_kg),
        arrays=replace(arrays, kitchen_minutes=minutes),
        forecast=with_given(replace(forecast, kg_per_unit=kg_per_unit), on_table),
    )


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
    spare = [
        _with_bruised(case, _fresh("give away", crop, kg), left) for crop, kg in spare_kg.items()
    ]
    ends = accumulate(step.minutes for step in work)
    done = [replace(step, done_minutes=end) for step, end in zip(work, ends, strict=True)]
    steps = [*eaten, *done, *held, *spare]
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
    return GlutStep(action, crop, "", float(kg), 0.0, 0.0, "", 0, 0.0, 0.0)


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
    made = (units, preserve.unit, loads, float(minutes), 0.0)
    return [GlutStep(action, own[0].crop, preserve.name, kg, 0.0, *made)]


def _an_hour(case: Case, step: GlutStep) -> float:
    r = case.arrays.preserves.index(step.preserve)
    return float(case.arrays.portions[r] * step.units / max(step.minutes, 1.0))


def _limit(case: Case, plan: Plan, pile_kg: Mapping[str, float]) -> str:
    """Name the one thing because of which more of the pile is not put up."""
    arrays = case.arrays
    piled = np.array([pile_kg.get(crop, 0.0) > 0 for crop in arrays.crops], dtype=bool)
    over = plan.spare_kg[:, 0] * piled
    if over.sum() <= LEAST_KG:
        return "nothing: all of it is used"
    made_of: Bools = np.any(arrays.fresh_kg[:, over > LEAST_KG] > 0, axis=1)
    if not made_of.any():
        return "recipes: nothing in the notes is made of what is left"
    for use in limit_uses(case, plan):
        if (
            use.kind != "bed"
            and (use.tight[0] or use.available[0] <= 0)
            and (use.holds_back & made_of).any()
        ):
            mine = use.kind == "kitchen hours"
            return "hours: all that there are for it" if mine else f"{use.limit}: used up this week"
    if _fills_no_load(case, over, made_of):
        return "loads: what is left does not fill one"
    return ENOUGH


def _fills_no_load(case: Case, over_kg: Floats, made_of: Bools) -> bool:
    """Say whether every canned recipe of what is left needs more of it for a whole load."""
    arrays = case.arrays
    canned = np.flatnonzero(made_of & (arrays.units_per_load > 0))
    needed = arrays.fresh_kg[canned] * arrays.units_per_load[canned, None]
    return bool(len(canned) and ((needed > over_kg) & (needed > 0)).any(axis=1).all())


def glut_table(split: GlutSplit) -> pd.DataFrame:
    """One row a step of a split pile, in order.

    >>> print(*model.glut_table(model.split_glut(planned, {"apple": 8.0}, hours=3)))
    action crop preserve kg bruised_kg units unit loads minutes done_minutes
    """
    names = [field.name for field in fields(GlutStep)]
    return pd.DataFrame([asdict(step) for step in split.steps], columns=names)
