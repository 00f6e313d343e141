"""What the plan uses of every limit, worked out from the plan alone.

Nothing here asks the optimiser: the same sums would check a plan written by hand.
"""

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from model.case import Case
from model.forecast.beds import bed_occupancy
from model.plan import Plan
from model.season.arrays import Bools, Floats
from model.season.unseen_seals import unconfirmed

TIGHT = 0.97


@dataclass(frozen=True, eq=False)
class LimitUse:
    """One limit over the weeks; ``used`` and ``available`` have shape (W,), in ``unit``.

    ``holds_back`` has shape (R,): the preserves of which it allows no more. ``constraint``
    names the optimiser's family of constraints and the member of it that says the same.
    """

    limit: str
    kind: str
    unit: str
    used: Floats
    available: Floats
    holds_back: Bools
    constraint: tuple[str, int | None]

    @property
    def share(self) -> Floats:
        """Give the used part of what there is; 0 where nothing is used."""
        part = np.divide(
            self.used, self.available, out=np.zeros_like(self.used), where=self.available > 0
        )
        return np.where((self.available <= 0) & (self.used > 1e-9), np.inf, part)

    @property
    def tight(self) -> Floats:
        """Mark the weeks in which nearly all of it is used."""
        return np.asarray(self.share >= TIGHT)


def limit_uses(case: Case, plan: Plan) -> list[LimitUse]:
    """Give the use of hours, jars, lids, places, freezing, drying and beds."""
    return [
        *_kitchen(case, plan),
        *_jars(case, plan),
        *_places(case, plan),
        *_rates(case, plan),
        *_beds(case, plan),
    ]


def kitchen_minutes(case: Case, plan: Plan) -> Floats:
    """Give the minutes of loads and hand work in each week; shape (W,)."""
    arrays = case.arrays
    minutes: Floats = arrays.minutes_per_load @ plan.loads + arrays.minutes_per_unit @ plan.put_up
    return minutes


def _kitchen(case: Case, plan: Plan) -> Iterator[LimitUse]:
    yield LimitUse(
        "kitchen hours",
        "kitchen hours",
        "h",
        kitchen_minutes(case, plan) / 60,
        case.arrays.kitchen_minutes / 60,
        np.ones(len(case.arrays.preserves), dtype=bool),
        ("kitchen hours", None),
    )


def jars_in_use(case: Case, plan: Plan) -> Floats:
    """Give the canning jars of each size in use in each week; shape (Z, W).

    Those are the full ones, those given away, which do not come back, and those to fill.
    """
    arrays = case.arrays
    before = np.column_stack([arrays.opening_units, plan.shelf[:, :-1]])
    given = np.cumsum(plan.given, axis=1)
    gone = np.column_stack([np.zeros(len(given)), given[:, :-1]])
    taken = (before + plan.put_up + gone) * arrays.canned[:, None]
    sizes = arrays.jar_of == np.arange(len(arrays.jars))[:, None]
    used: Floats = sizes.astype(float) @ taken
    return used


def empty_jars(case: Case) -> dict[str, float]:
    """Give the jars and packs of each counted size that do not stand full today.

    Those of batches whose seals nobody has looked at stand full too.
    """
    full = dict.fromkeys(case.arrays.jars, 0.0)
    for preserve, units in zip(case.season.preserves, case.seen_units, strict=True):
        if preserve.jar is not None:
            full[preserve.jar] += float(units)
    for batch in unconfirmed(case.season, case.today):
        full[case.season.preserve(batch.preserve).jar or ""] += batch.filled
    return {
        jar.name: max(0.0, jar.owned - full[jar.name])
        for jar in case.season.jars
        if jar.owned is not None
    }


def _jars(case: Case, plan: Plan) -> Iterator[LimitUse]:
    arrays, in_use = case.arrays, jars_in_use(case, plan)
    for z, jar in enumerate(arrays.jars):
        rows = arrays.canned & (arrays.jar_of == z)
        if np.isfinite(arrays.owned_jars[z]):
            used = in_use[z]
            owned = np.full_like(used, arrays.owned_jars[z])
            yield LimitUse(f"jars: {jar}", "jars", "jars", used, owned, rows, ("jars", z))
        if np.isfinite(arrays.lids[z]):
            used = np.cumsum(plan.put_up[rows].sum(axis=0))
            bought = np.full_like(used, arrays.lids[z])
            yield LimitUse(f"lids: {jar}", "lids", "lids", used, bought, rows, ("lids", z))


def _places(case: Case, plan: Plan) -> Iterator[LimitUse]:
    arrays = case.arrays
    for p, place in enumerate(case.season.places):
        rows = arrays.place_of == p
        used = arrays.space_per_unit[rows] @ plan.shelf[rows]
        unit, scale = {"shelf": ("m2", 1e-4), "root store": ("kg", 1.0)}.get(place.kind, ("l", 1.0))
        available = np.full_like(used, place.capacity)
        yield LimitUse(
            place.name, place.kind, unit, used * scale, available * scale, rows, ("places", p)
        )


def _rates(case: Case, plan: Plan) -> Iterator[LimitUse]:
    arrays = case.arrays
    fresh = arrays.fresh_kg.sum(axis=1)
    for p, place in enumerate(case.season.places):
        if arrays.freezes(p):
            rows = arrays.place_of == p
            used = arrays.prepared_kg[rows] @ plan.put_up[rows]
            available = arrays.freezer_kg_a_week[p].copy()
            yield LimitUse(
                f"freezing in {place.name}",
                "freezing",
                "kg",
                used,
                available,
                rows,
                ("freezing rate", p),
            )
    if arrays.dried.any():
        used = fresh[arrays.dried] @ plan.put_up[arrays.dried]
        available = np.full_like(used, arrays.dryer_kg_a_week)
        yield LimitUse("dryer", "dryer", "kg", used, available, arrays.dried, ("dryer", None))


def _beds(case: Case, plan: Plan) -> Iterator[LimitUse]:
    occupancy = bed_occupancy(case.season, case.forecast)
    for place, (bed, occupied) in enumerate(zip(case.season.beds, occupancy, strict=True)):
        used = occupied @ plan.amounts
        if used.any():
            available = np.full_like(used, bed.area_m2)
            none = np.zeros(len(case.arrays.preserves), dtype=bool)
            yield LimitUse(bed.name, "bed", "m2", used, available, none, ("beds", place))
