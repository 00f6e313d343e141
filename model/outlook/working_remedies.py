"""The working behind a ration and behind what to buy in."""

from collections.abc import Hashable, Mapping
from typing import Any

import pandas as pd

from model.outlook.arithmetic import LESS, OVER, TIMES, UP, Pen, about, enough
from model.outlook.own_units import in_own
from model.outlook.ration_table import RATION_YEARS, REACHES
from model.outlook.working import (
    FROM_NOTES,
    FROM_SETTING,
    THE_PLAN,
    Source,
    Working,
    WorkingLine,
    line,
    of_years,
)
from model.outlook.working_counts import noun, of_unit, plain, portions_source, seal_source, steps
from model.planning import PlannedSeason

Row = Mapping[Hashable, Any]
Lines = tuple[WorkingLine, ...]


def ration_working(planned: PlannedSeason, row: Row, years: int = RATION_YEARS) -> Working:
    """Say what is left to eat with a ration, and in how many simulated years it reaches.

    ``row`` is one of ``ration_table``, made with as many ``years``.

    >>> row = model.ration_table(small, seed=1, years=10).to_dict("records")[0]
    >>> model.workings.ration_working(small, row, years=10).what
    'beans: the ration'
    """
    season, food = planned.case.season, str(row["food"])
    of, aim = of_years(years), Source(FROM_NOTES, "household.csv", f"plan for {season.plan_for}")
    lean, lived = Source(FROM_SETTING, "lean_share"), len(planned.years.appetite)
    now = float(round(float(row["chance_before"]) * lived))
    before = Pen(2).sum(
        *(now, "years reach it as it is eaten now", OVER, float(lived)), unit="of the years"
    )
    reach = line(
        before, of_years(lived), lean, ends=f", of {REACHES[season.plan_for]:g} planned for"
    )
    if pd.isna(row["chance_after"]):
        shown = f"{Pen(2).written(before.result)} of the years"
        return Working(f"{food}: no ration, it reaches the new crop in", shown, (reach,))
    less = float(row["less_portions"])
    left = Pen(1).sum(
        *(float(row["week_portions"]), "portions wanted a week", LESS, less, "left out"),
        unit=f"portions of {plain(food)} a week",
    )
    after = Pen(2).sum(
        *(float(round(float(row["chance_after"]) * years)), "years reach it then"),
        *(OVER, float(years)),
        unit="of the years",
    )
    fewer = (
        f"with half a portion more a week it reaches it in fewer than "
        f"{REACHES[season.plan_for]:g} of the years: so much is the ration"
    )
    lines = (
        line(left, Source(FROM_NOTES, "foods.csv", food)),
        *(reach, line(after, of, lean), line(fewer, of, aim)),
    )
    return Working(f"{food}: the ration", f"{Pen(1).written(left.result)} portions a week", lines)


def buy_in_working(planned: PlannedSeason, row: Row) -> Working:
    """Say how what the winter lacks becomes jars, and the jars what to buy; a row of the table.

    >>> row = model.buy_in_table(small).to_dict("records")[0]
    >>> model.workings.buy_in_working(small, row).what
    'tomatoes: tomato to buy in, as whole tomatoes'
    """
    season = planned.case.season
    own = season.preserve(str(row["preserve"]))
    r = planned.case.arrays.preserves.index(own.name)
    part = next(one for one in own.ingredients if one.crop == row["crop"])
    kg, weight = in_own(1.0, "kg", season.units)
    bought = float(row["buy_kg"]) * kg
    unit = steps(own.unit, season.units)
    loss = float(1 - planned.case.arrays.sealed_share[r])

    def write(pen: Pen) -> tuple[Lines, bool]:
        made = pen.sum(
            *(float(row["short_portions"]), f"portions of {plain(str(row['food']))} short", OVER),
            *(own.portions, f"in one {noun(unit, 1)}"),
            unit=of_unit(unit),
        )
        filled = pen.sum(
            *(made.result, OVER, 1 - loss, "that seal" if own.canned else "that keep"),
            unit=of_unit(unit, " to put up"),
            whole=UP,
        )
        fresh = pen.sum(
            *(filled.result, noun(unit), TIMES, part.kg * kg, f"{weight} as picked in one"),
            unit=weight,
        )
        lines = (
            line(made, THE_PLAN, portions_source(planned, own)),
            line(filled, *((seal_source(planned),) if own.canned else ())),
            line(fresh, Source(FROM_NOTES, "preserves.csv", own.name)),
        )
        return lines, filled.result == row["units"] and about(fresh.result) == about(bought)

    what = f"{row['food']}: {row['crop']} to buy in, as {own.name}"
    return Working(what, f"{about(bought)} {weight}", enough(write))
