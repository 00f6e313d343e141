"""The working behind the jars of a preserve: by the plan, by hand, and what is carried over."""

import math
from dataclasses import dataclass

import numpy as np

from model.cover import first_picking_week
from model.outlook.arithmetic import (
    CLOSES,
    DOWN,
    LESS,
    OPENS,
    OVER,
    PLUS,
    TIMES,
    Pen,
    Sum,
    enough,
)
from model.outlook.limits import limit_uses
from model.outlook.own_units import in_own
from model.outlook.reasons import reasons
from model.outlook.working import (
    FROM_NOTES,
    THE_PLAN,
    Source,
    Working,
    line,
)
from model.outlook.working_by_hand import by_hand
from model.outlook.working_counts import (
    Lines,
    counted,
    noun,
    of_unit,
    plain,
    portions_source,
    seal_source,
)
from model.outlook.working_years import mean_working
from model.planning import PlannedSeason
from model.season.arrays import Floats

MOST_TERMS = 6
LEAST_OPENED = 0.05


def stock_workings(planned: PlannedSeason, r: int) -> tuple[Working, ...]:
    """Give the workings of one preserve: by the plan, on average, by hand, and carried over.

    Of what the plan puts up none of there is no average.

    ``r`` is the place of the preserve in the season; raises IndexError beyond the last.

    >>> [working.what for working in model.workings.stock_workings(planned, 0)]
    ['crushed tomatoes: to put up, by the plan', 'crushed tomatoes: to put up, on average',
    'crushed tomatoes: by the rule of thumb', 'crushed tomatoes: left when its crop begins']
    """
    mean = (mean_working(planned, r),) if planned.plan.to_fill[r] else ()
    return filled(planned, r), *mean, by_hand(planned, r), carried(planned, r)


def filled(planned: PlannedSeason, r: int) -> Working:
    """Say in which weeks the plan fills so many of a preserve, and where they go."""
    case, plan = planned.case, planned.plan
    own, units = case.season.preserves[r], case.season.units
    each, unit = in_own(1.0, own.unit, units)
    food = int(case.arrays.food_of_preserve[r])
    weeks = slice(0, max(1, int(case.demand.cover_until[food])))
    to_fill, put_up = float(plan.to_fill[r]) * each, float(plan.put_up[r, weeks].sum()) * each
    seen = float(case.seen_units[r])
    flows = _Flows(
        seen=seen * each,
        due=(float(case.arrays.opening_units[r]) - seen) * each,
        opened=float(plan.opened[r, weeks].sum()) * each,
        given=float(plan.given[r, weeks].sum()) * each,
        left=float(plan.shelf[r, weeks][-1]) * each,
    )
    why = reasons(planned, limit_uses(case, plan))[r]

    def write(pen: Pen) -> tuple[Lines, bool]:
        made = pen.sum(*_batches(plan.whole_batches[r] * each), unit=of_unit(unit, " to put up"))
        lines, came = [line(made, THE_PLAN)], pen.rounded(put_up)
        if own.canned and put_up:
            sealed = pen.sum(
                *(put_up, f"{noun(unit)} filled", TIMES, OPENS),
                *(1.0, LESS, float(1 - case.arrays.sealed_share[r]), "that does not seal", CLOSES),
                unit=of_unit(unit, " sealed"),
            )
            lines.append(line(sealed, seal_source(planned)))
            came = sealed.result
        shelf, good = flows.written(pen, came, unit)
        lines.append(line(shelf, THE_PLAN, Source(FROM_NOTES, "stock.csv", own.name)))
        if flows.opened > LEAST_OPENED:
            eaten = pen.sum(
                *(flows.opened, f"{noun(unit)} opened", TIMES, own.portions / each),
                *("portions in one",),
                unit=f"portions of {plain(own.food)}",
            )
            lines.append(line(eaten, portions_source(planned, own)))
        by_rule = pen.rounded(planned.by_hand[r].to_fill * each)
        lines.append(line(_beside(pen, made.result, by_rule, unit), THE_PLAN, ends=_because(why)))
        return tuple(lines), good and made.result == pen.rounded(to_fill)

    what = f"{own.name}: to put up, by the plan"
    return Working(what, counted(float(plan.to_fill[r]), own.unit, units), enough(write))


@dataclass(frozen=True, slots=True)
class _Flows:
    """What a shelf begins and ends with, and what leaves it, in the household's own unit."""

    seen: float
    due: float
    opened: float
    given: float
    left: float

    def written(self, pen: Pen, came: float, unit: str) -> tuple[Sum, bool]:
        """Write the balance of the shelf, and say whether what is lost came out as a loss."""
        seen, due, opened, given, left = (
            pen.rounded(each) for each in (self.seen, self.due, self.opened, self.given, self.left)
        )
        lost = pen.rounded(seen + due + came - opened - given - left)
        balance = pen.sum(
            *(seen, "there now", *((PLUS, due, "whose seals wait") if due else ())),
            *(PLUS, came, "put up", LESS, opened, "opened"),
            *((LESS, given, "given away") if given else ()),
            *((LESS, lost, "lost or past keeping") if lost > 0 else ()),
            unit=of_unit(unit, " left at the new crop"),
        )
        return balance, lost >= 0


def _beside(pen: Pen, plan: float, by_rule: float, unit: str) -> Sum:
    """Write how many more or fewer the plan makes than the rule of thumb."""
    if plan < by_rule:
        ends = of_unit(unit, " fewer")
        return pen.sum(by_rule, "by the rule of thumb", LESS, plan, "by the plan", unit=ends)
    ends = of_unit(unit, " more")
    return pen.sum(plan, "by the plan", LESS, by_rule, "by the rule of thumb", unit=ends)


def _because(why: str) -> str:
    return f"; {why}" if why else ""


def _batches(batches: Floats) -> list[float | str]:
    """Give the batches as terms of a sum, those past the most together."""
    made = [float(units) for units in batches if units > 0] or [0.0]
    shown = made if len(made) <= MOST_TERMS else [*made[: MOST_TERMS - 1], sum(made[5:])]
    terms: list[float | str] = [shown[0]]
    for units in shown[1:]:
        terms += [PLUS, units]
    return [*terms, "in the weeks after"] if len(made) > MOST_TERMS else terms


def carried(planned: PlannedSeason, r: int) -> Working:
    """Say what of the stock will still be there when the new crop begins."""
    case = planned.case
    arrays, own, units = case.arrays, case.season.preserves[r], case.season.units
    f = int(arrays.food_of_preserve[r])
    each, unit = in_own(1.0, own.unit, units)
    rows = np.flatnonzero(arrays.food_of_preserve == f)
    begins = first_picking_week(case, f)
    opening = float(arrays.opening_units[r]) * each
    there = float(arrays.opening_units[rows] @ arrays.portions[rows])
    eaten = float((case.demand.wanted[f, :begins] - case.fresh[f, :begins]).sum())
    good_then = float(arrays.opening_left[r, begins - 1]) * each if begins else opening
    what = f"{own.name}: left when its crop begins"
    stock = Source(FROM_NOTES, "stock.csv", own.name)
    shown = math.floor(planned.windows[r].carried_over + 1e-9) * each
    if not begins or not opening:
        words = "nothing is eaten of it before" if opening else "none stands there now"

        def as_there(pen: Pen) -> tuple[Lines, bool]:
            counts = pen.sum(
                opening, LESS, 0.0, "eaten before", unit=of_unit(unit), whole=_down(each)
            )
            near = abs(counts.result - shown) < (0.5 if each == 1 else 1.0)
            return (line(counts, stock, ends=f": {words}"),), near

        return Working(what, _shown(shown, unit), enough(as_there))

    def write(pen: Pen) -> tuple[Lines, bool]:
        left = pen.sum(
            *(there, f"portions of {plain(own.food)} there now", LESS, eaten, "eaten until"),
            case.weeks.monday(begins),
            unit="left",
            floor=True,
        )
        share = pen.sum(left.result, OVER, pen.rounded(there), unit="of what is there")
        still = pen.sum(opening, f"{noun(unit)} of it", TIMES, share.result, unit=of_unit(unit))
        good = pen.rounded(min(still.result, good_then))
        whole = pen.sum(good, unit=of_unit(unit), whole=_down(each))
        past = f", {pen.written(good_then)} at most by their keeping life"
        lines = (
            line(left, stock, Source(FROM_NOTES, "foods.csv", own.food)),
            line(share),
            line(still, stock, ends=past if good < still.result else ""),
            line(whole),
        )
        return lines, abs(whole.result - shown) < (0.5 if each == 1 else 1.0)

    return Working(what, _shown(shown, unit), enough(write))


def _down(each: float) -> str:
    """Jars are rounded down; a weight told in another unit than it is counted in is not."""
    return DOWN if each == 1.0 else ""


def _shown(number: float, unit: str) -> str:
    return f"{Pen(1).written(number)} {noun(unit, number)}"
