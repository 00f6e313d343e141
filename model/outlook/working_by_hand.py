"""The working behind the jars that the rule of thumb asks for."""

import math

from model.demand.hand_rule import HandRule
from model.outlook.arithmetic import (
    CLOSES,
    LESS,
    OPENS,
    OVER,
    TIMES,
    UP,
    Pen,
    enough,
)
from model.outlook.working import (
    FROM_NOTES,
    FROM_SETTING,
    Source,
    Working,
    line,
)
from model.outlook.working_counts import (
    Lines,
    counted,
    loss_source,
    noun,
    of_steps,
    of_unit,
    portions_source,
    seal_source,
    steps,
)
from model.planning import PlannedSeason


def by_hand(planned: PlannedSeason, r: int) -> Working:
    """Write the rule of thumb's sum out, so that who redoes it comes to the same number."""
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
    what = f"{own.name}: by the rule of thumb"
    return Working(what, counted(rule.to_fill, rule.unit, season.units), lines)


def rule_lines(rule: HandRule, units: str) -> Lines:
    """Write the rule of thumb's sum in the unit the preserve is counted and rounded in.

    The last line gives it in the household's own unit where that is another.
    """

    def write(pen: Pen) -> tuple[Lines, bool]:
        uses, portions = rule.uses_a_week, rule.portions_a_unit
        unit = steps(rule.unit, units)
        wanted = pen.sum(
            *(uses, "portions a week", TIMES, float(rule.weeks_without_fresh)),
            "weeks without fresh",
            unit="portions",
        )
        made = pen.sum(
            wanted.result, "portions", OVER, portions, f"in one {noun(unit, 1)}", unit=of_unit(unit)
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
        lines += of_steps(Pen(3), filled.result, rule.unit, units)
        at_once = pen.rounded(uses) * rule.weeks_without_fresh / pen.rounded(portions)
        once = max(0, math.ceil(at_once - rule.carry_over - 1e-9))
        good = needed.result == once == rule.sealed_needed and filled.result == rule.to_fill
        return tuple(lines), good

    return enough(write)
