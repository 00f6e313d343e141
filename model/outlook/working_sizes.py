"""The working behind the size of a sowing: ripe together for a load, or spread over the weeks."""

import math
from collections.abc import Hashable, Mapping
from typing import Any

from model.outlook.arithmetic import BARELY, OVER, TIMES, UP, Pen, about, enough
from model.outlook.own_plantings import OwnPlanting, own_planting
from model.outlook.sowing_size_table import MOST_SOWINGS, TOGETHER
from model.outlook.working import FROM_NOTES, THE_PLAN, Source, Working, WorkingLine, line
from model.planning import PlannedSeason

Lines = tuple[WorkingLine, ...]
Row = Mapping[Hashable, Any]


def sowing_size_working(planned: PlannedSeason, row: Row) -> Working:
    """Give the working behind a row of ``sowing_size_table``.

    >>> sizes = model.sowing_size_table(planned)
    >>> row = sizes[sizes["sow_as"] == "together"].to_dict("records")[0]
    >>> model.workings.sowing_size_working(planned, row).what
    'paste tomato, south bed: for one full load'
    """
    told = own_planting(planned.case.season.units, row["per"])
    return _load(planned, row, told) if row["sow_as"] == TOGETHER else _parts(row, told)


def _load(planned: PlannedSeason, row: Row, told: OwnPlanting) -> Working:
    """Say how much to sow so that a full load is ripe at once."""
    arrays = planned.case.arrays
    r, c = arrays.preserves.index(row["preserve"]), arrays.crops.index(row["crop"])
    weeks, plants = int(arrays.hold_weeks[c]), row["per"] == "plant"
    own, notes = row["amount"] * told.each, Source(FROM_NOTES, "preserves.csv", row["preserve"])

    def write(pen: Pen) -> tuple[Lines, bool]:
        load = pen.sum(
            *(float(arrays.units_per_load[r]), "in a full load", TIMES),
            *(float(arrays.fresh_kg[r, c]) * told.kg, f"{told.weight} as picked in each"),
            unit=f"{told.weight} for a load",
        )
        at_once = pen.sum(
            *(own, told.amount(own), TIMES, row["at_once_kg"] * told.kg / own),
            f"{told.weight} ripe from each within the {'weeks' if weeks > 1 else 'week'} that a "
            "picking holds",
            unit=f"{told.weight} at once",
        )
        one = pen.sum(
            *(own, told.amount(own), TIMES, load.result, told.weight, OVER),
            *(at_once.result, told.weight),
            unit=told.amount,
            whole=UP if plants else "",
        )
        lines = (line(load, notes), line(at_once, THE_PLAN), line(one))
        return lines, about(one.result) == shown.partition(" ")[0]

    whole = row["load_amount"] * told.each
    number = math.ceil(whole - BARELY) if plants else whole
    shown = f"{number:.0f}" if plants else about(whole)
    what = f"{row['crop']}, {row['bed']}: for one full load"
    return Working(what, f"{shown} {told.amount(number)}", enough(write))


def _parts(row: Row, told: OwnPlanting) -> Working:
    """Say in how many parts to sow so that no week gives more than is used."""
    heaviest, used = row["heaviest_kg"] * told.kg, row["used_week_kg"] * told.kg
    sowings = float(row["sowings"])

    def write(pen: Pen) -> tuple[Lines, bool]:
        times = pen.sum(
            *(heaviest, f"{told.weight} in its heaviest week", OVER),
            *(used, f"{told.weight} used in a week at most"),
            unit="times as much",
        )
        part = pen.sum(
            *(heaviest, f"{told.weight}", OVER, sowings, "parts"),
            unit=f"{told.weight} in the heaviest week of each",
        )
        few = times.result > sowings
        last = f"; more than {MOST_SOWINGS} nobody makes, and the last is to be picked as well"
        lines = (
            line(times, THE_PLAN),
            line(part, Source(FROM_NOTES, "plantings.csv", row["crop"]), ends=last if few else ""),
        )
        return lines, about(part.result) == about(heaviest / sowings)

    shown = f"{about(heaviest / sowings)} {told.weight} a week at most from each part"
    return Working(f"{row['crop']}, {row['bed']}: sown in parts", shown, enough(write))
