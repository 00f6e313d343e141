"""Eggs in one basket: food groups of whose winter cover more than half stands in one place."""

from collections import defaultdict

import numpy as np
import pandas as pd

from model.outlook.lasting import winter_stretch
from model.planning import PlannedSeason
from model.season.kitchen import Preserve
from model.season.write_off import out_of_use

HALF = 0.5
PLACE, METHOD = "place", "method"
AT_STAKE = {
    "freezer": "if it dies",
    "shelf": "if it falls or floods",
    "root store": "if frost, rot or mice get in",
    "crock": "if it goes off",
}
COLUMNS = (
    *("food_group", "stands_by", "stands_in", "cover_portions", "cover_share", "warning"),
    "remedy",
)


def concentration_table(planned: PlannedSeason) -> pd.DataFrame:
    """One row a food group and place or method that holds more than half of its winter cover.

    Groups of the plate only: nobody goes hungry without jam. The cover is what the plan has on
    the shelf as the weeks without fresh begin, in portions. ``remedy`` says how many portions
    kept elsewhere bring it down to half, and names no way that needs a freezer that died. What
    stands in a place and is all there is of a method is told once, by the place.

    >>> print(*model.concentration_table(planned))
    food_group stands_by stands_in cover_portions cover_share warning remedy
    """
    season = planned.case.season
    cover, dead = winter_cover(planned), out_of_use(season, planned.case.today)
    rows = []
    for group in dict.fromkeys(food.group for food in season.foods if food.plate):
        names = {food.name for food in season.foods if food.group == group and food.plate}
        own = [(p, n) for p, n in zip(season.preserves, cover, strict=True) if p.food in names]
        whole = sum(portions for _, portions in own)
        told: list[set[str]] = []
        for kind in (PLACE, METHOD):
            for where, held in _held(own, kind).items():
                portions = sum(held.values())
                if portions <= HALF * whole or set(held) in told:
                    continue
                told.append(set(held))
                others = [p for p, _ in own if _where(p, kind) != where]
                rows.append(
                    {
                        "food_group": group,
                        "stands_by": kind,
                        "stands_in": where,
                        "cover_portions": portions,
                        "cover_share": portions / whole,
                        "warning": _warning(planned, kind, where, portions / whole),
                        "remedy": _remedy(others, portions - whole / 2, dead),
                    }
                )
    return pd.DataFrame(rows, columns=list(COLUMNS))


def winter_cover(planned: PlannedSeason) -> list[float]:
    """Give the portions of each preserve on the shelf as its weeks without fresh begin."""
    arrays, plan = planned.case.arrays, planned.plan
    cover = []
    for r, food in enumerate(arrays.food_of_preserve):
        begins = (winter_stretch(planned, int(food)) or (0, 0))[0]
        units = plan.shelf[r, begins - 1] if begins else arrays.opening_units[r]
        cover.append(float(units * arrays.portions[r]))
    return cover


def _held(own: list[tuple[Preserve, float]], kind: str) -> dict[str, dict[str, float]]:
    """Give the portions of each preserve that stand in each place, or are kept by each method."""
    held: dict[str, dict[str, float]] = defaultdict(dict)
    for preserve, portions in own:
        if portions > 0:
            held[_where(preserve, kind)][preserve.name] = portions
    return held


def _where(preserve: Preserve, kind: str) -> str:
    return preserve.place if kind == PLACE else preserve.method


def _warning(planned: PlannedSeason, kind: str, where: str, share: float) -> str:
    if kind == METHOD:
        return f"{share:.0%} is kept by one method: {where}"
    place = next(place for place in planned.case.season.places if place.name == where)
    return f"{share:.0%} stands in one place and is lost {AT_STAKE[place.kind]}"


def _remedy(others: list[Preserve], portions: float, dead: frozenset[str]) -> str:
    more = int(np.ceil(portions - 1e-9))
    ways = ", ".join(dict.fromkeys(other.name for other in others if other.place not in dead))
    if ways:
        return f"{more} portions kept otherwise ({ways})"
    where = " and ".join(sorted({other.place for other in others}))
    but = f" but for the {where}, which died" if where else ""
    return f"{more} portions kept in another way; none is among the preserves of the notes{but}"
