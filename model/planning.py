"""The one story: a season on a day becomes a case, a plan, and years lived with it."""

from collections.abc import Callable
from dataclasses import dataclass, replace
from datetime import date

import numpy as np

from model.case import Case, make_case
from model.cover import CoverWindow, cover_windows
from model.demand.hand_rule import HandRule
from model.forecast.years import sampled_harvest
from model.optimization.ground import with_amounts
from model.optimization.make_plan import make_plan
from model.optimization.solve import Basis
from model.optimization.whole_loads import Meant
from model.plan import Plan
from model.planting.margin import PlantingChoice, tuned_margin, with_margin
from model.season.arrays import Floats, Singles
from model.season.season import Season
from model.simulation.food_years import FoodYears, food_years
from model.simulation.lived_years import Follower, LivedYears, live_through
from model.simulation.luck import draw_kitchen_luck

Progress = Callable[[str, float], None]
YEARS = 1000
SEED = 1


@dataclass(frozen=True, eq=False)
class PlannedSeason:
    """A case with its plan and what came of it in simulated years.

    C counts crops, R preserves, W weeks from this one on.

    Parameters
    ----------
    harvest_low, harvest_high : shape (C, W), kilograms; one year in ten gives less, or more.
    shelf_low, shelf_high : shape (R, W), units; one year in ten has less, or more, when the
        household keeps to the plan's pace.
    filled : shape (Y, R), units put up in those years; minutes : shape (Y,), all kitchen work.
    years : the same years when it eats what it wants until it is gone.
    planting : how much to plant, and the margin behind it.
    basis : where the program stood, for planning again after a small change.

    >>> planned.harvest_low.shape == (len(season.crops), len(planned.case.weeks))
    True
    >>> planned.shelf_low.shape == planned.plan.shelf.shape
    True
    """

    case: Case
    plan: Plan
    planting: PlantingChoice
    harvest_low: Floats
    harvest_high: Floats
    shelf_low: Floats
    shelf_high: Floats
    filled: Singles
    minutes: Singles
    years: FoodYears
    windows: tuple[CoverWindow, ...]
    by_hand: tuple[HandRule, ...]
    basis: Basis | None


def _no_progress(_: str, __: float) -> None:
    return None


def plan_season(
    season: Season,
    today: date,
    *,
    years: int = YEARS,
    seed: int = SEED,
    before: PlannedSeason | None = None,
    progress: Progress = _no_progress,
) -> PlannedSeason:
    """Plan a season from a day on and live through ``years`` simulated years with the plan.

    Parameters
    ----------
    seed : of the simulated years; the same seed gives the same years.
    before : an earlier plan of this household: its margin is kept, its batches stay where that
        costs next to nothing, and the new plan is found quicker.
    progress : told in words what is being done, and the part done; may raise to stop.

    Raises
    ------
    SeasonProblems : when the notes contradict themselves on that day.
    ValueError : for fewer than one year.

    >>> again = model.plan_season(small.case.season, small.case.today, years=10, before=small)
    >>> again.plan.amounts.shape
    (2,)
    >>> model.plan_season(season, date(2037, 3, 15))
    Traceback (most recent call last):
        ...
    model.errors.SeasonProblems: 1 problem in the season:
      - seasons.csv: today, 2037-03-15, lies after the last season with plantings (2028-02-29); add
      the new season and its plantings, or choose an earlier day
    >>> model.plan_season(season, date(2027, 3, 15), years=0)
    Traceback (most recent call last):
        ...
    ValueError: 0 years cannot be lived through; give one or more
    """
    if years < 1:
        raise ValueError(f"{years} years cannot be lived through; give one or more")
    progress("Reading the season", 0.0)
    case = make_case(season, today)
    generator = np.random.default_rng(seed)
    planting = _planting(case, generator.spawn(1)[0], before, progress)
    made = make_plan(
        with_amounts(case, planting.amounts),
        start=before.basis if before else None,
        meant=_meant(before, case) if before else None,
        progress=lambda part: progress("Filling whole loads", 0.4 + 0.3 * part),
    )
    plan = made.plan
    harvest = sampled_harvest(season, case.forecast, plan.amounts, years, generator)
    progress("Living through simulated years", 0.7)
    at_pace, as_wanted = _live(case, plan, harvest, generator, progress)
    low, high = np.percentile(harvest, [10, 90], axis=0)
    shelf_low, shelf_high = np.percentile(at_pace.shelf, [10, 90], axis=0)
    windows = cover_windows(case)
    return PlannedSeason(
        case=case,
        plan=plan,
        planting=planting,
        harvest_low=low,
        harvest_high=high,
        shelf_low=shelf_low,
        shelf_high=shelf_high,
        filled=at_pace.filled,
        minutes=at_pace.minutes.sum(axis=1),
        years=food_years(as_wanted, case.arrays),
        windows=windows,
        by_hand=tuple(window.hand_rule for window in windows),
        basis=made.basis,
    )


def _meant(before: PlannedSeason, case: Case) -> Meant:
    """Give what an earlier plan said for the weeks of a case, preserve by preserve."""
    earlier, names = before.plan, before.case.arrays.preserves
    shift = (case.weeks.first - earlier.weeks.first).days // 7
    loads = np.full((len(case.arrays.preserves), len(case.weeks)), np.nan)
    put_up = loads.copy()
    weeks = [w for w in range(len(case.weeks)) if 0 <= w + shift < len(earlier.weeks)]
    for r, name in enumerate(case.arrays.preserves):
        if name in names:
            then = names.index(name)
            loads[r, weeks] = earlier.loads[then, [w + shift for w in weeks]]
            put_up[r, weeks] = earlier.put_up[then, [w + shift for w in weeks]]
    return Meant(loads, put_up)


def _planting(
    case: Case,
    generator: np.random.Generator,
    before: PlannedSeason | None,
    progress: Progress,
) -> PlantingChoice:
    """Choose what to plant; after a small change with the margin that was chosen before."""
    words = "Trying how much more to plant than an ordinary year needs"
    same = before is not None and before.case.season.plan_for == case.season.plan_for
    if before is not None and same and before.planting.tried:
        choice = before.planting
        amounts, _ = with_margin(case, choice.margin, before.basis, whole_loads=choice.whole_loads)
        return replace(before.planting, amounts=amounts)
    return tuned_margin(case, generator, progress=lambda part: progress(words, 0.05 + 0.35 * part))


def _live(
    case: Case, plan: Plan, harvest: Singles, generator: np.random.Generator, progress: Progress
) -> tuple[LivedYears, LivedYears]:
    arrays = case.arrays
    luck = draw_kitchen_luck(
        generator,
        len(harvest),
        arrays.sealed_share,
        len(case.weeks),
        case.appetite_cv,
        case.seals.clump_chance,
    )

    def lived(begins: float, *, as_wanted: bool) -> LivedYears:
        follower = Follower(plan, arrays, case.demand.cover_until, as_wanted)
        return live_through(
            follower,
            harvest,
            luck,
            lambda part: progress("Living through simulated years", begins + 0.15 * part),
        )

    return lived(0.7, as_wanted=False), lived(0.85, as_wanted=True)
