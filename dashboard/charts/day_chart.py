"""The loads of a preserving day by clock time: hands, canners, and when it is bedtime."""

from datetime import datetime

import altair as alt
import pandas as pd

from dashboard.charts.theme import CLAY, FAINT, RUST, clock_time, titled

ROW_PX, AXIS_PX = 52, 40
# The number of a short last load stands beside its bar.
ROOM = 0.04
THICK_PX, THIN_PX = 24, 9
CLOCK = "%H:%M"
DRAWN = [
    "starts",
    "stops",
    "equipment",
    "load",
    "preserve",
    "units",
    "phase",
    "clock_from",
    "clock_until",
    "kind",
    "number",
    "room",
]
# Where the next number is nearer than this one is wide, on a phone, it is left to the order.
FITS = "datum.room * width < 4 + 8 * length(datum.number) ? 0 : 1"


def day_chart(steps: pd.DataFrame, title: str, bedtime: datetime | None) -> alt.LayerChart:
    """Draw each step as a bar: hands grey, a canner brown, thick while it processes.

    Parameters
    ----------
    steps : one row a step: ``load``, ``preserve``, ``units``, ``equipment``, ``phase``,
        ``starts``, ``stops``, ``clock_from``, ``clock_until``, ``kind`` (hands, canner or
        process), ``number`` (what is written on its bar), ``room`` (part of the day until the
        next number on the same equipment).
    bedtime : drawn as a line; None where the day ends long before.
    """
    first, last = steps["starts"].min(), steps["stops"].max()
    if bedtime is not None:
        last = max(last, pd.Timestamp(bedtime))
    base = alt.Chart(steps[DRAWN]).encode(
        alt.X("starts:T")
        .title(None)
        .scale(domain=[clock_time(first), clock_time(last + ROOM * (last - first))], nice=False)
        .axis(format=CLOCK, grid=True, labelOverlap="greedy", tickCount=8),
        alt.Y("equipment:N").title(None).sort(list(dict.fromkeys(steps["equipment"]))),
        tooltip=[
            alt.Tooltip("load:N", title="Batch"),
            alt.Tooltip("preserve:N", title="Of"),
            alt.Tooltip("units:Q", title="How many"),
            alt.Tooltip("phase:N", title="Step"),
            alt.Tooltip("clock_from:N", title="From"),
            alt.Tooltip("clock_until:N", title="Until"),
        ],
    )
    looks = {"hands": (FAINT, THICK_PX), "canner": (CLAY, THIN_PX), "process": (CLAY, THICK_PX)}
    layers: list[alt.Chart] = [
        base.transform_filter(alt.datum.kind == kind)
        .mark_bar(color=colour, size=size)
        .encode(alt.X2("stops:T"))
        for kind, (colour, size) in looks.items()
    ]
    layers += [
        base.transform_filter(alt.datum.kind == kind)
        .mark_text(color=ink, align="left", dx=4, fontWeight=600, opacity=alt.ExprRef(FITS))
        .encode(text="number:N")
        for kind, ink in {"hands": "black", "process": "white"}.items()
    ]
    if bedtime is not None:
        line = pd.DataFrame([{"starts": pd.Timestamp(bedtime), "words": "bedtime"}])
        rule = alt.Chart(line).encode(alt.X("starts:T"))
        layers.append(rule.mark_rule(color=RUST, strokeDash=[5, 3], strokeWidth=2))
        layers.append(rule.mark_text(color=RUST, align="right", dx=-4, y=8).encode(text="words:N"))
    rows = steps["equipment"].nunique()
    return titled(alt.layer(*layers), title, ROW_PX * rows + AXIS_PX)
