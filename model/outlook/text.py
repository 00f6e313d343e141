"""The plan as a page of text for a terminal."""

import pandas as pd

from model.outlook.food_table import food_table, lean_table
from model.outlook.garden_table import planting_table
from model.outlook.kitchen_table import limit_table, preserve_table, tight_limits
from model.planning import PlannedSeason


def plan_text(planned: PlannedSeason) -> str:
    """Write out what to plant, how many jars to fill, how long it lasts and what limits it."""
    case, report = planned.case, planned.plan.report
    invented = " (an invented household)" if case.season.invented else ""
    parts = [
        f"{case.season.household}{invented}, planned on {case.today}",
        f"Weeks from {case.weeks.monday(0)} to {case.weeks.monday(len(case.weeks) - 1)}",
        _section("What to plant", planting_table(planned), ("crop", "bed", "amount", "per")),
        _section(
            "Jars to fill",
            preserve_table(planned),
            ("preserve", "jar", "to_fill", "sealed_needed", "by_hand", "loads", "reason"),
        ),
        _section(
            "How long it lasts",
            food_table(planned),
            ("food", "lasts_low", "lasts_until", "new_crop", "chance_lasts", "level_portions"),
        ),
        _section("Lean weeks", lean_table(planned), ("food", "begins", "ends")),
        _section(
            "What limits the plan",
            tight_limits(limit_table(planned)).query("share >= 0.97"),
            ("limit", "week", "used", "available", "unit"),
        ),
        (
            f"Solver: {report.status}, at most {report.relative_gap:.1%} below the best possible; "
            f"{report.variables} variables, {report.constraints} constraints, "
            f"{report.build_seconds + report.solve_seconds:.1f} s"
        ),
        "Times are for planning: follow a current tested recipe and your own authority.",
    ]
    return "\n\n".join(parts)


def _section(title: str, table: pd.DataFrame, columns: tuple[str, ...]) -> str:
    if table.empty:
        return f"{title}: nothing"
    shown = table[list(columns)].to_string(index=False, float_format=lambda x: f"{x:.2g}")
    return f"{title}\n{shown}"
