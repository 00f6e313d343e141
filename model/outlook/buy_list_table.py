"""What the plan needs bought, how much of it, and the day by which it must be in the house."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import date, timedelta

import numpy as np
import pandas as pd

from model.outlook.garden_table import planting_table
from model.outlook.limits import empty_jars, jars_in_use
from model.outlook.set_out import recipe_adds
from model.planning import PlannedSeason
from model.safety.acid import acid_in_a_jar
from model.season.arrays import Floats
from model.season.kitchen import Preserve

COLUMNS = ("in_house_by", "what", "needed", "there", "to_buy", "unit", "used_for")
NOT_WRITTEN = "how many empty ones are there is not in the notes"
LEAST = 1e-6
# A sowing as late as this is still worth doing in most springs: a judgement.
LATE_SOWING = timedelta(weeks=2)

_Row = dict[str, object]


@dataclass(frozen=True, slots=True)
class _Part:
    """What one unit of a preserve takes: ``amount`` None where only its recipe says how much."""

    what: str
    unit: str
    amount: float | None


@dataclass(frozen=True, slots=True)
class _Use:
    """Some of a thing that is used in the week of a day, for one preserve."""

    day: date
    part: _Part
    units: float
    used_for: str


def buy_list_table(planned: PlannedSeason) -> pd.DataFrame:
    """One row a thing that the plan uses up or fills, by the day it must be in the house.

    That is the Monday of the first week that needs more of it than is there (today at the
    earliest), or the day of sowing or planting. ``needed`` is None where no table and no note
    says how much, ``there`` where the notes do not say; ``to_buy`` is what is short, whole
    jars, packs, bags and lids. Plantings that are started have no row, nor have seedlings
    that the household sows itself.

    >>> print(*model.buy_list_table(planned))
    in_house_by what needed there to_buy unit used_for
    """
    rows = [*_jars(planned), *_used_up(planned), *_garden(planned)]
    frame = pd.DataFrame(rows, columns=list(COLUMNS), dtype=object)
    return frame.sort_values("in_house_by", kind="stable", ignore_index=True)


def _row(by: date, part: _Part, there: float | None, to_buy: float | None, why: str) -> _Row:
    return {
        "in_house_by": by,
        "what": part.what,
        "needed": part.amount,
        "there": there,
        "to_buy": to_buy,
        "unit": part.unit,
        "used_for": why,
    }


def _jars(planned: PlannedSeason) -> Iterator[_Row]:
    """Give the sizes of jar by the week in which most are in use; full ones cannot be filled."""
    case, plan = planned.case, planned.plan
    for z, (jar, used) in enumerate(zip(case.season.jars, jars_in_use(case, plan), strict=True)):
        rows = case.arrays.canned & (case.arrays.jar_of == z)
        filled = plan.whole_batches[rows].sum(axis=0)
        if not filled.any():
            continue
        full = float(case.arrays.opening_units[rows].sum())
        peak = np.ceil(used[filled > 0].max() - LEAST)
        there = full if jar.owned is None else float(jar.owned)
        why = NOT_WRITTEN if jar.owned is None else _names(planned, rows & (plan.to_fill > 0))
        yield _row(
            _first_day(planned, np.where(filled > 0, used, 0.0), there),
            _Part(jar.name, "jar", float(peak)),
            None if jar.owned is None else there,
            float(max(0.0, np.ceil(peak - there - LEAST))),
            why,
        )


def _names(planned: PlannedSeason, rows: Iterable[bool]) -> str:
    names = zip(planned.case.arrays.preserves, rows, strict=True)
    return ", ".join(name for name, counts in names if counts)


def _first_day(planned: PlannedSeason, used: Floats, there: float) -> date:
    """Give the day from which more is used than is there, else the first on which any is."""
    short = np.flatnonzero(used > there + LEAST)
    week = int(short[0] if short.size else np.flatnonzero(used > LEAST)[0])
    return max(planned.case.weeks.monday(week), planned.case.today)


def _used_up(planned: PlannedSeason) -> Iterator[_Row]:
    """Give what goes into or round what is put up: lids, packs, bags, acid, the recipe's own."""
    uses: dict[tuple[str, str], list[_Use]] = {}
    for use in sorted(_uses(planned), key=lambda use: use.day):
        uses.setdefault((use.part.what, use.part.unit), []).append(use)
    jars = planned.case.season.jars
    known = empty_jars(planned.case)
    known |= {_lids(jar.name): float(jar.lids) for jar in jars if jar.lids is not None}
    for (what, unit), own in uses.items():
        why = ", ".join(dict.fromkeys(use.used_for for use in own))
        amounts = [use.part.amount and use.part.amount * use.units for use in own]
        if any(amount is None for amount in amounts):
            yield _row(own[0].day, _Part(what, unit, None), None, None, why)
            continue
        there, day = known.get(what), own[0].day
        reached = np.cumsum(np.array(amounts, dtype=float))
        needed = float(reached[-1])
        if there is not None and needed > there:
            day = own[int(np.flatnonzero(reached > there)[0])].day
        short = max(0.0, needed - (there or 0.0))
        yield _row(day, _Part(what, unit, needed), there, short, why)


def _uses(planned: PlannedSeason) -> Iterator[_Use]:
    case, whole = planned.case, planned.plan.whole_batches
    for r, week in zip(*np.nonzero(whole > 0), strict=True):
        preserve = case.season.preserves[r]
        day = max(case.weeks.monday(int(week)), case.today)
        for part in _parts(preserve):
            yield _Use(day, part, float(whole[r, week]), preserve.name)


def _lids(jar: str) -> str:
    return f"new lids for {jar}"


def _parts(preserve: Preserve) -> Iterator[_Part]:
    """Give what one unit takes beside its produce, and beside the jar, which comes back."""
    if preserve.canned and preserve.jar:
        yield _Part(_lids(preserve.jar), "lid", 1.0)
    elif preserve.jar:
        yield _Part(preserve.jar, preserve.unit, 1.0)
    elif preserve.unit == "100 g bag":
        yield _Part("bags for what is dried", preserve.unit, 1.0)
    process = preserve.process
    if process is not None and process.acid_in_every_jar:
        acid = acid_in_a_jar(process)
        if acid is None:
            yield _Part("acid, as the tested recipe says", "", None)
        else:
            yield _Part("bottled lemon juice", "ml", float(acid.lemon_juice_ml))
            if acid.citric_acid_tsp is not None:
                level = float(acid.citric_acid_tsp)
                yield _Part("or, instead of lemon juice, citric acid", "level tsp", level)
    if adds := recipe_adds(preserve.method, process):
        yield _Part(adds, "", None)


def _garden(planned: PlannedSeason) -> Iterator[_Row]:
    """Give what is sown, and what is planted out without having been sown here."""
    today = planned.case.today
    table = planting_table(planned)
    for row in table[table["done"] == ""].to_dict("records"):
        sown, start, amount = row["sown"], row["start"], float(row["amount"])
        day, how = (sown, "sow") if sown is not None else (start, "plant")
        late = sown is not None and today - LATE_SOWING <= sown < today
        if late and start is not None and today < start:
            day, how = today, "sow now, if that was not done"
        if day is not None and day >= today and amount > LEAST:
            part = _Part(f"{row['crop']} to {how}", row["per"], amount)
            yield _row(day, part, None, amount, f"{row['bed']}")
