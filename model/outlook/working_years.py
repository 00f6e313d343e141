"""The working behind what is put up on average: so many years fill all, the others fewer."""

import numpy as np

from model.outlook.arithmetic import OVER, PLUS, TIMES, Pen, about, enough
from model.outlook.kitchen_table import filled_all
from model.outlook.own_units import in_own
from model.outlook.working import Working, line, of_years
from model.outlook.working_counts import Lines, noun, of_unit
from model.planning import PlannedSeason
from model.season.arrays import Floats


def mean_working(planned: PlannedSeason, r: int) -> Working:
    """Say what the simulated years fill of a preserve on average, and in a bad one.

    ``r`` is the place of the preserve in the season; raises IndexError beyond the last.
    """
    own, most = planned.case.season.preserves[r], float(planned.plan.to_fill[r])
    each, unit = in_own(1.0, own.unit, planned.case.season.units)
    filled: Floats = planned.filled[:, r].astype(float) * each
    enough_years = filled_all(planned, r)
    years, few = len(filled), int((~enough_years).sum())
    mean = min(most * each, float(filled.mean()))
    full_mean, few_mean = (
        min(most * each, float(filled[of].mean())) if of.any() else 0.0
        for of in (enough_years, ~enough_years)
    )
    bad = min(most * each, float(np.percentile(filled, 10)))
    source = of_years(years)

    def write(pen: Pen) -> tuple[Lines, bool]:
        whole = pen.sum(
            *(float(years - few), "years that fill all", TIMES, full_mean, PLUS),
            *(float(few), "that fill fewer", TIMES, few_mean, "on average"),
            unit=of_unit(unit, " in all years"),
        )
        one = pen.sum(whole.result, OVER, float(years), "years", unit=of_unit(unit, " a year"))
        ends = f"one year in ten fills fewer than {about(bad)} {noun(unit)}"
        return (
            (line(whole, source), line(one), line(ends, source)),
            abs(one.result - mean) < 0.05,
        )

    whole_units = own.unit not in ("kg", "litre")
    shown = f"{mean:.0f}" if whole_units else about(mean)
    return Working(
        f"{own.name}: to put up, on average", f"{shown} {noun(unit, round(mean))}", enough(write)
    )
