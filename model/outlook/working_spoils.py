"""The working behind what will not be eaten in time of something that goes."""

from collections.abc import Hashable, Mapping
from typing import Any

from model.outlook.arithmetic import LESS, PLUS, Pen, about, enough
from model.outlook.eat_first_table import weeks_to_eat
from model.outlook.own_units import in_own
from model.outlook.working import FROM_NOTES, THE_PLAN, Source, Working, WorkingLine, line
from model.outlook.working_counts import loss_source, noun, of_unit
from model.planning import PlannedSeason


def spoils_working(planned: PlannedSeason, row: Mapping[Hashable, Any]) -> Working:
    """Give the working behind the ``not_eaten_units`` of a row of ``eat_first_table``.

    >>> first = model.eat_first_table(planned)
    >>> row = first[first["not_eaten_units"] > 0].to_dict("records")[0]
    >>> model.workings.spoils_working(planned, row).what
    'onions on strings: not eaten in time'
    """
    case, plan = planned.case, planned.plan
    r = case.arrays.preserves.index(row["preserve"])
    own, n = case.season.preserves[r], weeks_to_eat(row["weeks_left"])
    each, unit = in_own(1.0, own.unit, case.season.units)
    weeks, left = slice(0, n), float(row["not_eaten_units"]) * each
    stock, shown = Source(FROM_NOTES, "stock.csv", own.name), f"{left:.0f} {noun(unit)}"
    what = f"{own.name}: not eaten in time"
    past = float(plan.past[r, weeks].sum()) * each
    if left < past - 0.5:
        words = f"{shown} stand of this lot, and the plan eats older ones of it first"
        return Working(what, shown, (line(words, stock, THE_PLAN),))
    there = float(case.arrays.opening_units[r]) * each
    came = float(plan.put_up[r, weeks].sum() * case.arrays.sealed_share[r]) * each
    gone = float(plan.opened[r, weeks].sum() + plan.given[r, weeks].sum()) * each
    good = float(plan.shelf[r, n - 1]) * each

    def write(pen: Pen) -> tuple[tuple[WorkingLine, ...], bool]:
        parts = [pen.rounded(number) for number in (there, came, gone, good, past)]
        rots = pen.rounded(parts[0] + parts[1] - parts[2] - parts[3] - parts[4])
        balance = pen.sum(
            *(parts[0], "there now", *((PLUS, parts[1], "put up meanwhile") if came else ())),
            *((LESS, parts[2], "eaten or given away before") if parts[2] else ()),
            *((LESS, parts[3], "good for longer") if parts[3] else ()),
            *((LESS, rots, "lost in the store meanwhile") if rots > 0 else ()),
            unit=of_unit(unit, " past keeping by then"),
        )
        lines = (line(balance, stock, THE_PLAN, *((loss_source(own),) if rots > 0 else ())),)
        return lines, rots >= 0 and about(balance.result) == about(past)

    return Working(what, shown, enough(write))
