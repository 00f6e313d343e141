"""The whole plan as plain values for a file or another program: dates ISO 8601, SI units."""

from collections.abc import Mapping
from dataclasses import asdict
from datetime import date

import pandas as pd

from model.outlook.food_table import food_table, lean_table
from model.outlook.garden_table import harvest_table, planting_table
from model.outlook.kitchen_table import batch_table, limit_table, preserve_table, tight_limits
from model.outlook.shelf_table import stock_table
from model.planning import PlannedSeason

Value = str | float | int | None
SHOWN = {
    "lean_weeks": ("food", "begins", "ends"),
    "preserves": (
        "preserve",
        "product",
        "method",
        "jar",
        "to_fill",
        "sealed_needed",
        "by_hand",
        "fresh_kg",
        "loads",
        "reason",
    ),
    "batches": ("week", "preserve", "jars", "loads", "minutes"),
    "plantings": ("crop", "bed", "area_m2", "plants"),
    "foods": (
        "food",
        "wanted_portions",
        "met_portions",
        "lasts_until",
        "new_crop",
        "chance_lasts",
    ),
    "harvest": ("crop", "week", "expected_kg", "low_kg", "high_kg"),
    "stock": ("preserve", "day", "jars", "low", "high"),
    "limits": ("limit", "week", "used", "available"),
}


def plan_report(planned: PlannedSeason) -> dict[str, object]:
    """Give the plan as one object of plain values; weeks are named by their Monday.

    >>> print(*model.plan_report(planned))
    household today weeks lean_weeks preserves batches plantings foods harvest stock limits solver
    """
    weeks = planned.case.weeks
    tables = {
        "lean_weeks": lean_table(planned),
        "preserves": preserve_table(planned),
        "batches": batch_table(planned),
        "plantings": planting_table(planned),
        "foods": food_table(planned),
        "harvest": harvest_table(planned),
        "stock": stock_table(planned),
        "limits": tight_limits(limit_table(planned)),
    }
    solver = asdict(planned.plan.report)
    named = ("status", "relative_gap", "variables", "constraints", "build_seconds", "solve_seconds")
    return {
        "household": planned.case.season.household,
        "today": planned.case.today.isoformat(),
        "weeks": {
            "first": weeks.monday(0).isoformat(),
            "last": weeks.monday(len(weeks) - 1).isoformat(),
        },
        **{name: records(table[list(SHOWN[name])]) for name, table in tables.items()},
        "solver": {name: solver[name] for name in named},
    }


def records(table: pd.DataFrame) -> list[dict[str, Value]]:
    """Give a table as one object a row, of plain values."""
    return [{str(name): _plain(value) for name, value in row.items()} for row in _rows(table)]


def _rows(table: pd.DataFrame) -> list[Mapping[str, object]]:
    return [dict(zip(table.columns, row, strict=True)) for row in table.itertuples(index=False)]


def _plain(value: object) -> Value:
    """Give a value as JSON can hold it; numbers to a ten-thousandth."""
    if isinstance(value, date):
        return value.isoformat()
    if isinstance(value, bool | str) or value is None:
        return value
    if isinstance(value, int):
        return value
    number = float(str(value))
    if number != number:  # noqa: PLR0124 - the one number that differs from itself
        return None
    return int(number) if number == int(number) and abs(number) < 1e15 else round(number, 4)
