"""The working behind the jars of a preserve: by the plan, by hand, and what is carried over."""

import math
from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from model.cover import first_picking_week
from model.demand.hand_rule import HandRule
from model.outlook.arithmetic import (
    CLOSES,
    DOWN,
    LESS,
    OPENS,
    OVER,
    PLUS,
    TIMES,
    UP,
    Pen,
    Sum,
    enough,
)
from model.outlook.limits import limit_uses
from model.outlook.own_units import in_own
from model.outlook.reasons import reasons
from model.outlook.working import (
    FROM_NOTES,
    FROM_SETTING,
    THE_PLAN,
    Source,
    Working,
    WorkingLine,
    line,
    of_reference,
)
from model.planning import PlannedSeason
from model.season.arrays import Floats
from model.season.kitchen import Preserve

MOST_TERMS = 6
LEAST_OPENED = 0.05
Lines = tuple[WorkingLine, ...]


def counted(number: float, unit: str, units: str) -> str:
    """Give a number of a preserve with its noun, in the household's own unit."""
    own, word = in_own(number, unit, units)
    return f"{Pen(1).written(own)} {noun(word, own)}"


def noun(unit: str, number: float = 2.0, ends: str = "") -> str:
    """Give the noun of a unit for a number of it, with words after it; it holds no digit."""
    one = unit.removeprefix("100 g ")
    return (one if number == 1 or one in ("kg", "lb", "qt") else f"{one}s") + ends


def of_unit(unit: str, ends: str = "") -> Callable[[float], str]:
    """Give the noun of a unit for the number that a sum comes to."""
    return lambda number: noun(unit, number, ends)


def stock_workings(planned: PlannedSeason, r: int) -> tuple[Working, ...]:
    """Give the workings of one preserve: to fill by the plan, by hand, and carried over."""
    return filled(planned, r), by_hand(planned, r), carried(planned, r)


def filled(planned: PlannedSeason, r: int) -> Working:
    """Say in which weeks the plan fills so many of a preserve, and where they go."""
    case, plan = planned.case, planned.plan
    own, units = case.season.preserves[r], case.season.units
    each, unit = in_own(1.0, own.unit, units)
    food = int(case.arrays.food_of_preserve[r])
    weeks = slice(0, max(1, int(case.demand.cover_until[food])))
    to_fill, put_up = float(plan.to_fill[r]) * each, float(plan.put_up[r, weeks].sum()) * each
    flows = _Flows(
        opening=float(case.arrays.opening_units[r]) * each,
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

    opening: float
    opened: float
    given: float
    left: float

    def written(self, pen: Pen, came: float, unit: str) -> tuple[Sum, bool]:
        """Write the balance of the shelf, and say whether what is lost came out as a loss."""
        opening, opened, given, left = (
            pen.rounded(each) for each in (self.opening, self.opened, self.given, self.left)
        )
        lost = pen.rounded(opening + came - opened - given - left)
        balance = pen.sum(
            *(opening, "there now", PLUS, came, "put up", LESS, opened, "opened"),
            *((LESS, given, "given away") if given else ()),
            *((LESS, lost, "lost or past keeping") if lost > 0 else ()),
            unit=of_unit(unit, " left at the new crop"),
        )
        return balance, lost >= 0


def _beside(pen: Pen, plan: float, by_rule: float, unit: str) -> Sum:
    """Write how many more or fewer the plan makes than the hand rule."""
    if plan < by_rule:
        ends = of_unit(unit, " fewer")
        return pen.sum(by_rule, "by the hand rule", LESS, plan, "by the plan", unit=ends)
    ends = of_unit(unit, " more")
    return pen.sum(plan, "by the plan", LESS, by_rule, "by the hand rule", unit=ends)


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


def by_hand(planned: PlannedSeason, r: int) -> Working:
    """Write the hand rule's sum out, so that a person who redoes it comes to the same number."""
    rule, season = planned.by_hand[r], planned.case.season
    own = season.preserves[r]
    wanted = (Source(FROM_NOTES, "foods.csv", own.food), Source(FROM_SETTING, "lean_share"))
    sources = (
        wanted,
        (portions_source(planned, own),),
        (Source(FROM_NOTES, "stock.csv", own.name),),
        (seal_source(planned) if own.canned else loss_source(own),),
        (),
    )
    lines = tuple(
        line(each.parts, *known)
        for each, known in zip(rule_lines(rule, season.units), sources, strict=False)
    )
    what = f"{own.name}: by the hand rule"
    return Working(what, counted(rule.to_fill, rule.unit, season.units), lines)


def rule_lines(rule: HandRule, units: str) -> Lines:
    """Write the hand rule's sum, in the unit the preserve is counted in, as it is rounded in that.

    The last line gives it in the household's own unit where that is another.
    """

    def write(pen: Pen) -> tuple[Lines, bool]:
        uses, portions = rule.uses_a_week, rule.portions_a_unit
        one = noun(rule.unit, 1)
        wanted = pen.sum(
            *(uses, "portions a week", TIMES, float(rule.weeks_without_fresh)),
            "weeks without fresh",
            unit="portions",
        )
        made = pen.sum(
            wanted.result, "portions", OVER, portions, f"in one {one}", unit=noun(rule.unit)
        )
        needed = pen.sum(
            *(made.result, LESS, float(rule.carry_over), "left on", rule.begins),
            unit="needed",
            whole=UP,
            floor=True,
        )
        lines = [line(wanted), line(made), line(needed)]
        filled = needed
        if rule.loss_share > 0:
            kept = rule.unit == "kg"
            filled = Pen(pen.digits + 2).sum(
                *(needed.result, "kept" if kept else "sealed", OVER, OPENS, 1.0, LESS),
                *(
                    rule.loss_share,
                    f"that {'is lost in store' if kept else 'does not seal'}",
                    CLOSES,
                ),
                unit="to fill",
                whole=UP,
            )
            lines.append(line(filled))
        if in_own(1.0, rule.unit, units)[1] != rule.unit:
            each, word = in_own(1.0, rule.unit, units)
            lines.append(
                line(Pen(3).sum(float(rule.to_fill), noun(rule.unit), TIMES, each, unit=word))
            )
        at_once = pen.rounded(uses) * rule.weeks_without_fresh / pen.rounded(portions)
        once = max(0, math.ceil(at_once - rule.carry_over - 1e-9))
        good = needed.result == once == rule.sealed_needed and filled.result == rule.to_fill
        return tuple(lines), good

    return enough(write)


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
        counts = Pen(1).sum(
            opening, LESS, 0.0, "eaten before", unit=of_unit(unit), whole=_down(each)
        )
        return Working(what, _shown(shown, unit), (line(counts, stock, ends=f": {words}"),))

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


def plain(name: str) -> str:
    """Give a name for the middle of a sum, where a digit of it would be read as a number."""
    return "this food" if any(letter.isdigit() for letter in name) else name


def seal_source(planned: PlannedSeason) -> Source:
    """Say where the share that does not seal is from: own batches once there are any."""
    if planned.case.seals.batches:
        return Source(FROM_NOTES, "seals.csv")
    return Source(FROM_SETTING, "seal_failure_share")


def loss_source(preserve: Preserve) -> Source | None:
    """Say where the loss in store is from."""
    return of_reference("store_loss", crop=preserve.crops[0])


def portions_source(planned: PlannedSeason, preserve: Preserve) -> Source | None:
    """Say where the portions of one jar are from: its volume and the published portion, or own."""
    food = planned.case.season.food(preserve.food)
    jars = {jar.name: jar.volume_l for jar in planned.case.season.jars}
    volume = jars.get(preserve.jar or "", 1.0)
    if preserve.unit in ("jar", "pack", "litre") and math.isclose(
        preserve.portions, volume * 1000 / food.portion_ml, rel_tol=1e-6
    ):
        return of_reference("portions", group=food.group)
    return Source(FROM_NOTES, "preserves.csv", preserve.name)
