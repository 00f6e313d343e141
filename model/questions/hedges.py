"""Hedges against a bad year for one food, side by side on the same ground and years.

More of the same, a second sowing and a second kind each take the same area more; a box
bought in at the peak is as heavy as what that area gives; a second method takes no ground.
"""

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from datetime import timedelta

import numpy as np
import pandas as pd

from model.case import make_case
from model.forecast.harvest import with_given
from model.optimization.ground import with_amounts
from model.optimization.make_plan import relaxed_plan
from model.outlook.lasting import gives_out, winter_stretch
from model.outlook.own_units import in_own
from model.planning import PlannedSeason
from model.planting.fresh_years import lived
from model.planting.ways import BAD_YEAR
from model.season.arrays import Floats
from model.season.garden import Planting
from model.season.season import Season
from model.season.write_off import out_of_use
from model.simulation.food_years import food_years

Progress = Callable[[float], None]
HEDGE_YEARS = 1000
MORE_SHARE = 0.25
LATER_DAYS = 21
COLUMNS = ("hedge", "area_m2", "hours", "chance_lasts", "mean_portions", "bad_year_portions")


@dataclass(frozen=True, eq=False)
class Hedge:
    """A season with one thing more: words, more ground, and kilograms bought in (C, W)."""

    words: str
    season: Season
    area_m2: float
    bought_kg: Floats


def hedge_table(
    planned: PlannedSeason, food: str, seed: int, progress: Progress = lambda _: None
) -> pd.DataFrame:
    """One row a hedge: what it takes, and what it does for a food in a thousand years.

    No row where nothing of the food is still to be planted. ``hours`` are of the kitchen,
    ``progress`` is told the part done. Raises KeyError for a food that is not in the notes.

    >>> hedges = model.hedge_table(small, "beans", seed=1)
    >>> print(*hedges)
    hedge area_m2 hours chance_lasts mean_portions bad_year_portions
    >>> hedges["hedge"].iloc[0]
    'as planned'
    """
    hedges = list(_hedges(planned, food))
    rows = []
    for done, hedge in enumerate(hedges):
        progress(done / len(hedges))
        rows.append(_row(planned, hedge, food, seed))
    return pd.DataFrame(rows, columns=list(COLUMNS))


def _hedges(planned: PlannedSeason, food: str) -> Iterator[Hedge]:
    case = planned.case
    season = _as_planned(planned)
    nothing = np.zeros((len(case.arrays.crops), len(case.weeks)))
    free = _still_free(planned, food)
    if not free:
        return
    b, main = max(free, key=lambda pair: planned.plan.amounts[pair[0]] * pair[1].area_m2_per_unit)
    more = MORE_SHARE * float(planned.plan.amounts[b])
    area_m2 = more * main.area_m2_per_unit
    wide = _on_more_ground(season, main.bed, area_m2)
    yield Hedge("as planned", season, 0.0, nothing)
    extra = _fixed(main, more)
    yield Hedge(f"a quarter more {main.crop}", _and(wide, extra), area_m2, nothing)
    later = _later(extra)
    if later is not None:
        words = f"that quarter sown {LATER_DAYS // 7} weeks later"
        yield Hedge(words, _and(wide, later), area_m2, nothing)
    kinds = (p for _, p in free if p.crop != main.crop and p.area_m2_per_unit > 0)
    other = next(kinds, None)
    if other is not None:
        second = replace(_fixed(other, area_m2 / other.area_m2_per_unit), bed=main.bed)
        yield Hedge(f"as much ground of {other.crop}", _and(wide, second), area_m2, nothing)
    method = _second_method(season, food, main.crop, out_of_use(season, case.today))
    if method is not None:
        yield Hedge(*method, 0.0, nothing)
    kg = case.forecast.kg_per_unit[b]
    box = nothing.copy()
    box[case.arrays.crops.index(main.crop), int(kg.argmax())] = more * kg.sum()
    much, unit = in_own(more * kg.sum(), "kg", season.units)
    words = f"{much:.0f} {unit} of {main.crop} bought in at the peak"
    yield Hedge(words, season, 0.0, box)


def _as_planned(planned: PlannedSeason) -> Season:
    """Give the season with the plan's own amounts fixed."""
    season = planned.case.season
    amounts = {
        id(p): float(a)
        for p, a in zip(planned.case.forecast.plantings, planned.plan.amounts, strict=True)
    }
    plantings = (_fixed(p, amounts[id(p)]) if id(p) in amounts else p for p in season.plantings)
    return replace(season, plantings=tuple(plantings))


def _still_free(planned: PlannedSeason, food: str) -> list[tuple[int, Planting]]:
    """List the annual plantings that feed a food and are not in the ground yet."""
    season, today = planned.case.season, planned.case.today
    crops = {p.crops[0] for p in season.preserves if p.food == food} | set(season.food(food).crops)
    return [
        (b, planting)
        for b, planting in enumerate(planned.case.forecast.plantings)
        if planting.crop in crops and planting.started is not None and planting.started > today
    ]


def _fixed(planting: Planting, amount: float) -> Planting:
    return replace(planting, amount=amount, least=amount, most=amount, choice="")


def _and(season: Season, planting: Planting) -> Season:
    return replace(season, plantings=(*season.plantings, planting))


def _on_more_ground(season: Season, bed: str, area_m2: float) -> Season:
    beds = (
        replace(one, area_m2=one.area_m2 + area_m2 + 0.01) if one.name == bed else one
        for one in season.beds
    )
    return replace(season, beds=tuple(beds))


def _later(planting: Planting) -> Planting | None:
    """Give a planting sown later; None where the household dates its first picking itself."""
    if planting.first_picking is not None:
        return None
    after = timedelta(days=LATER_DAYS)
    return replace(
        planting,
        sown=planting.sown + after if planting.sown else None,
        planted_out=planting.planted_out + after if planting.planted_out else None,
    )


def _second_method(
    season: Season, food: str, crop: str, dead: frozenset[str]
) -> tuple[str, Season] | None:
    """Share a crop's preserves alike between two methods, where the notes have two.

    None that needs a freezer that died is offered as the second.
    """
    own = [p for p in season.preserves if p.food == food and p.crops[0] == crop]
    most = max(own, key=lambda p: p.share_of_food, default=None)
    others = [p for p in own if most and p.method != most.method and p.place not in dead]
    if most is None or not others:
        return None
    second = max(others, key=lambda p: p.share_of_food)
    alike = (most.share_of_food + second.share_of_food) / 2
    preserves = (
        replace(p, share_of_food=alike) if p in (most, second) else p for p in season.preserves
    )
    words = f"as much {second.name} as {most.name}"
    return words, replace(season, preserves=tuple(preserves))


def _row(planned: PlannedSeason, hedge: Hedge, food: str, seed: int) -> dict[str, object]:
    f = planned.case.arrays.foods.index(food)
    stretch = winter_stretch(planned, f)
    case = make_case(hedge.season, planned.case.today)
    planted = with_amounts(case, case.forecast.amounts)
    with_box = replace(planted, forecast=with_given(case.forecast, hedge.bought_kg))
    plan = relaxed_plan(with_box, planned.basis).plan
    came = lived(case, plan, HEDGE_YEARS, seed, given_kg=hedge.bought_kg, as_wanted=True)
    years = food_years(came, case.arrays)
    cover = int(case.demand.cover_until[f])
    begins, ends = stretch or (max(0, cover - 1), cover)
    out = gives_out(years, f, begins, ends, case.season.settings.lean_share)
    met = np.minimum(years.met[:, f], case.demand.wanted[f]).sum(axis=1)
    return {
        "hedge": hedge.words,
        "area_m2": hedge.area_m2,
        "hours": float(came.minutes.sum(axis=1).mean() / 60),
        "chance_lasts": float((out >= ends).mean()),
        "mean_portions": float(met.mean()),
        "bad_year_portions": float(np.quantile(met, BAD_YEAR)),
    }
