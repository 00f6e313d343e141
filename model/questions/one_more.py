"""What limits the plan, by name, and what one more of each limit would bring."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from datetime import date

import numpy as np
import pandas as pd

from model.case import Case, make_case
from model.optimization.ground import with_amounts
from model.optimization.make_plan import relaxed_plan
from model.optimization.marginal import WORTHWHILE, Gain, Widening
from model.outlook.limits import LimitUse, limit_uses
from model.planning import SEED, PlannedSeason
from model.planting.fresh_years import lived, met_portions
from model.planting.margin import with_margin
from model.planting.ways import mean_difference
from model.season.arrays import Bools, Floats
from model.season.garden import Planting
from model.season.season import Season

Progress = Callable[[float], None]
HELPER_HOURS = 4
MOST_WEEKS = 8
SKETCH_YEARS = 300


@dataclass(frozen=True, slots=True)
class Step:
    """One more of a limit as people can get it: words, and how much it is for the optimiser."""

    words: str
    amount: float


@dataclass(frozen=True, eq=False)
class Sketch:
    """A plan in outline: units put up (R,), and portions met in each simulated year (Y,)."""

    put_up: Floats
    met: Floats


STEPS = {
    "kitchen hours": (
        Step("one more hour", 60.0),
        Step(f"a helper for {HELPER_HOURS} hours", 60.0 * HELPER_HOURS),
    ),
    "jars": (Step("one more jar", 1.0),),
    "lids": (Step("one more lid", 1.0),),
    "shelf": (Step("0.1 m2 more shelf", 1000.0),),
    "freezer": (Step("one more litre", 1.0),),
    "root store": (Step("room for one more kg", 1.0),),
    "crock": (Step("one more litre", 1.0),),
    "freezing": (Step("freezing one more kg that week", 1.0),),
    "dryer": (Step("drying one more kg that week", 1.0),),
}
UNIT_WORDS = {"plant": "plant", "m2 of bed": "square metre", "m of row": "metre of row"}
BY_WEEK = ("kitchen hours", "freezing", "dryer")
COLUMNS = ("limit", "week", "step", "steps", "portions", "jars")


def one_more_table(planned: PlannedSeason, progress: Progress = lambda _: None) -> pd.DataFrame:
    """One row a limit that is used up and a step: what the step brings, the most first.

    ``steps`` says how many of the step at once are the fewest that bring anything (0: even
    sixteen bring nothing), ``portions`` and ``jars`` what those bring.

    >>> print(*model.one_more_table(small))
    limit week step steps portions jars
    """
    tight = [use for use in limit_uses(planned.case, planned.plan) if use.tight.any()]
    widening = Widening(planned.case, planned.plan)
    rows: list[dict[str, object]] = []
    for done, use in enumerate(tight):
        progress(0.5 * done / len(tight))
        if use.kind != "bed":
            rows += _steps(planned, widening, use)
    if planned.planting.tried:
        beds = [use for use in tight if use.kind == "bed"]
        rows += _ground(planned, beds, lambda part: progress(0.5 + 0.5 * part))
    frame = pd.DataFrame(rows, columns=list(COLUMNS))
    return frame.sort_values(["portions", "limit"], ascending=[False, True], ignore_index=True)


def _steps(
    planned: PlannedSeason, widening: Widening, use: LimitUse
) -> Iterator[dict[str, object]]:
    for step in STEPS[use.kind]:
        found = max(_gains(widening, use, step), key=_best_first)
        yield _row(planned, use.limit, step.words, *found)


def _gains(widening: Widening, use: LimitUse, step: Step) -> Iterator[tuple[int, Gain | None]]:
    weeks = np.flatnonzero(use.tight)
    for week in weeks[:MOST_WEEKS] if use.kind in BY_WEEK else weeks[:1]:
        rows = widening.rows(*use.constraint, int(week) if use.kind in BY_WEEK else None)
        yield int(week), widening.gain(rows, step.amount) if len(rows) else None


def _best_first(found: tuple[int, Gain | None]) -> tuple[float, float, int]:
    week, gain = found
    return (-gain.steps, gain.worth, -week) if gain else (-np.inf, 0.0, -week)


def _row(
    planned: PlannedSeason, limit: str, words: str, week: int, gain: Gain | None
) -> dict[str, object]:
    monday: date = planned.case.weeks.monday(week)
    found = gain or Gain(0, 0.0, 0.0, 0.0)
    return {
        "limit": limit,
        "week": monday,
        "step": words,
        "steps": found.steps,
        "portions": found.portions,
        "jars": found.units,
    }


def _ground(
    planned: PlannedSeason, beds: list[LimitUse], progress: Progress
) -> Iterator[dict[str, object]]:
    """More of a bed, or of a planting than the notes allow: what to plant is chosen again."""
    case = planned.case
    before = _sketch(case, planned)
    counted = np.array([preserve.in_pieces for preserve in case.season.preserves])
    wider = [
        (use.limit, "one more square metre", _first(use), _larger_bed(case, use)) for use in beds
    ]
    at_most = planned.plan.amounts >= case.forecast.most - 1e-6
    for b in np.flatnonzero(at_most & (case.forecast.most > case.forecast.least)):
        planting = case.forecast.plantings[b]
        words = f"one more {UNIT_WORDS[planting.per]}"
        sown = f" ({planting.started})" if planting.started else ""
        limit = f"{planting.label}{sown}, all that the notes allow"
        wider.append((limit, words, 0, _more_of(case, planting)))
    for done, (limit, words, week, season) in enumerate(wider):
        progress(done / len(wider))
        after = _sketch(make_case(season, case.today), planned)
        yield _row(planned, limit, words, week, _difference(before, after, counted))


def _first(use: LimitUse) -> int:
    return int(np.flatnonzero(use.tight)[0])


def _larger_bed(case: Case, use: LimitUse) -> Season:
    beds = tuple(
        replace(bed, area_m2=bed.area_m2 + 1.0) if bed.name == use.limit else bed
        for bed in case.season.beds
    )
    return replace(case.season, beds=beds)


def _more_of(case: Case, planting: Planting) -> Season:
    plantings = tuple(
        replace(one, most=one.most + 1.0) if one is planting else one
        for one in case.season.plantings
    )
    return replace(case.season, plantings=plantings)


def _difference(before: Sketch, after: Sketch, counted: Bools) -> Gain | None:
    """Give what the step brings over the same simulated years; None within their noise."""
    found = mean_difference(after.met, before.met)
    if found.low <= WORTHWHILE:
        return None
    units = float((after.put_up - before.put_up)[counted].sum())
    return Gain(1, found.value, found.value, units)


def _sketch(case: Case, planned: PlannedSeason) -> Sketch:
    amounts, basis = with_margin(case, planned.planting.margin, planned.basis)
    plan = relaxed_plan(with_amounts(case, amounts), basis).plan
    met = met_portions(case, lived(case, plan, SKETCH_YEARS, SEED))
    return Sketch(plan.put_up.sum(axis=1), met.sum(axis=(1, 2)).astype(float))
