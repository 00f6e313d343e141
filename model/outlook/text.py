"""The plan as a page of text for a terminal."""

import pandas as pd

from model.outlook.food_table import food_table, lean_table
from model.outlook.garden_table import planting_table
from model.outlook.kitchen_table import limit_table, preserve_table, tight_limits
from model.outlook.limits import TIGHT
from model.outlook.own_units import in_own_words
from model.planning import PlannedSeason

SMALLEST = 0.005


def plan_text(planned: PlannedSeason) -> str:
    """Write out what to plant, how many jars to fill, how long it lasts and what limits it."""
    case, report = planned.case, planned.plan.report
    units = case.season.units
    invented = " (an invented household)" if case.season.invented else ""
    to_plant = any(p.started and p.started > case.today for p in case.forecast.plantings)
    parts = [
        f"{case.season.household}{invented}, planned on {case.today}",
        f"Weeks from {case.weeks.monday(0)} to {case.weeks.monday(len(case.weeks) - 1)}",
        _section(
            "What to plant" if to_plant else "What is planted",
            planting_table(planned),
            ("crop", "bed", "amount", "per"),
            units,
        ),
        _section(
            "Jars to fill",
            preserve_table(planned),
            ("preserve", "jar", "to_fill", "by_hand_fill", "loads", "reason"),
            units,
        ),
        _section(
            "How long it lasts",
            food_table(planned),
            (
                *("food", "lasts_low", "lasts_until", "new_crop", "chance_lasts"),
                *("level_portions", "keeps_until"),
            ),
            units,
        ),
        _section(
            "Weeks without enough fresh", lean_table(planned), ("food", "begins", "ends"), units
        ),
        _section(
            "What limits the plan",
            tight_limits(limit_table(planned)).query(f"share >= {TIGHT}"),
            ("limit", "week", "used", "available", "unit"),
            units,
        ),
        (
            f"Solver: {report.status}, at most {report.relative_gap:.1%} below the best possible; "
            f"{report.variables} variables, {report.constraints} constraints, "
            f"{report.build_seconds + report.solve_seconds:.1f} s"
        ),
        "Times are for planning: follow a current tested recipe and your own authority.",
    ]
    return "\n\n".join(parts)


def table_text(table: pd.DataFrame, units: str) -> str:
    """Give a table as people read it, in their units: two figures, blanks for nothing."""
    if table.empty:
        return "nothing"
    shown = in_own_words(table, units)
    return str(shown.to_string(index=False, float_format=_figure, na_rep=""))


def _figure(number: float) -> str:
    if abs(number) < SMALLEST:
        return "0"
    return f"{number:.0f}" if abs(number) >= 10 else f"{number:.2g}"


def _section(title: str, table: pd.DataFrame, columns: tuple[str, ...], units: str) -> str:
    if table.empty:
        return f"{title}: nothing"
    return f"{title}\n{table_text(table[list(columns)], units)}"
