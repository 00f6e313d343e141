"""How much more to plant than the mean year asks for: a margin, tuned in simulated years.

The plan for the mean year has no reserve for the others. Planting as if every crop gave
``1 / (1 + margin)`` of what is expected gives one; each margin is tried in the simulator,
where nobody foresees the season, and the best one is taken. Held against areas chosen for
many years at once it is as good (figures in the README), and simpler. Where few loads are
canned, amounts for whole loads are tried beside those for parts of them.
"""

from collections.abc import Callable
from dataclasses import dataclass, replace

import numpy as np

from model.case import Case
from model.optimization.ground import whole_amounts, with_amounts
from model.optimization.make_plan import make_plan, relaxed_plan
from model.optimization.solve import Basis
from model.optimization.two_stage import weighed
from model.optimization.whole_planting import amounts_for_whole_loads
from model.planting.fresh_years import lived, met_portions
from model.planting.outlooks import OUTLOOKS
from model.season.arrays import Floats

Progress = Callable[[float], None]
MARGINS = (0.0, 0.5, 1.0, 1.5, 2.0)
TUNING_YEARS = 300
# Between margins whose worth differs by less, the smaller one is taken.
TIED_SHARE = 1e-3
# With as many loads as this, what a part of one is off is next to nothing.
MANY_LOADS = 15


@dataclass(frozen=True, eq=False)
class PlantingChoice:
    """Amounts of every planting (B,), in whole plants and tenths, and the margin behind them.

    ``tried`` pairs every margin with what it is worth: portions met in the years it was
    tuned on, the bad ones weighted. ``whole_loads`` says that they are chosen for whole loads.
    """

    amounts: Floats
    margin: float
    tried: tuple[tuple[float, float], ...]
    whole_loads: bool = False


def with_margin(
    case: Case, margin: float, start: Basis | None = None, *, whole_loads: bool = False
) -> tuple[Floats, Basis | None]:
    """Give the amounts (B,) for harvests that are ``1 / (1 + margin)`` of the expected ones."""
    kg_per_unit = case.forecast.kg_per_unit / (1 + margin)
    less = replace(case, forecast=replace(case.forecast, kg_per_unit=kg_per_unit))
    if whole_loads:
        return amounts_for_whole_loads(less, start), start
    made = relaxed_plan(less, start)
    return whole_amounts(case, made.plan.amounts), made.basis


def tuned_margin(
    case: Case,
    generator: np.random.Generator,
    *,
    years: int = TUNING_YEARS,
    progress: Progress = lambda _: None,
) -> PlantingChoice:
    """Choose the margin under which ``years`` simulated years meet most, the bad ones weighted.

    Parameters
    ----------
    generator : draws the years, the same ones for every margin.
    progress : told the part that is done; may raise to stop.
    """
    tail = OUTLOOKS[case.season.plan_for]
    seed = int(generator.integers(2**32))
    if (case.forecast.least >= case.forecast.most).all():
        return PlantingChoice(case.forecast.least, 0.0, ())
    tried: dict[float, float] = {}
    chosen: dict[float, Floats] = {}
    loads: dict[float, float] = {}
    start: Basis | None = None
    for done, margin in enumerate(MARGINS):
        progress(done / len(MARGINS))
        chosen[margin], start = with_margin(case, margin, start)
        plan = relaxed_plan(with_amounts(case, chosen[margin]), start).plan
        met = met_portions(case, lived(case, plan, years, seed))
        tried[margin] = weighed(met.sum(axis=(1, 2)), tail)
        loads[margin] = float(plan.loads.sum())
    enough = max(tried.values()) * (1 - TIED_SHARE)
    best = min(margin for margin, worth in tried.items() if worth >= enough)
    found = PlantingChoice(chosen[best], best, tuple(tried.items()))
    if loads[best] >= MANY_LOADS or not case.arrays.canned.any():
        return found
    whole = (
        replace(found, amounts=amounts, margin=margin, whole_loads=True)
        for margin in sorted({MARGINS[0], best})
        for amounts, _ in (with_margin(case, margin, start, whole_loads=True),)
    )

    def worth(choice: PlantingChoice) -> float:
        plan = make_plan(with_amounts(case, choice.amounts), start=start).plan
        return weighed(met_portions(case, lived(case, plan, years, seed)).sum(axis=(1, 2)), tail)

    return max((found, *whole), key=worth)
