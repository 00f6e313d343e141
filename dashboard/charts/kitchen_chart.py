"""Kitchen hours and loads by week, against the hours that are free."""

import altair as alt
import pandas as pd

from dashboard.charts.theme import CLAY, FAINT, RUST, from_nought, monday_axis, titled, week_axis
from dashboard.words import tooltip_day

HEIGHT_PX, LOADS_FONT_PX = 225, 10
DRAWN = ["week", "week_end", "hours", "free_hours", "full", "loads", "jars"]


def hours_chart(weeks: pd.DataFrame, title: str, *, short: bool = False) -> alt.LayerChart:
    """Draw the hours each week needs as bars below the line of the hours that are free.

    The loads stand above their bar.

    Parameters
    ----------
    weeks : one row a week: ``week``, ``week_end``, ``middle`` of the week, ``hours``,
        ``free_hours``, ``full`` (yes where nearly all hours are used), ``loads``, ``jars``.
    """
    drawn = weeks[DRAWN]
    base = alt.Chart(drawn)
    axis = monday_axis(drawn["week"]) if short else week_axis()
    bars = base.mark_bar().encode(
        axis,
        alt.X2("week_end:T"),
        alt.Y("hours:Q")
        .title("Kitchen hours a week")
        .scale(from_nought(drawn["hours"], drawn["free_hours"])),
        alt.Y2Datum(0),
        alt.Color("full:N").scale(domain=["yes", "no"], range=[RUST, CLAY]).legend(None),
        tooltip=[
            alt.Tooltip("week:T", title="Week of", format=tooltip_day()),
            alt.Tooltip("hours:Q", title="Needed (h)", format=".1f"),
            alt.Tooltip("free_hours:Q", title="Free (h)", format=".1f"),
            alt.Tooltip("loads:Q", title="Loads"),
            alt.Tooltip("jars:Q", title="Jars and packs"),
        ],
    )
    free = base.mark_rule(color=FAINT, strokeWidth=2).encode(
        axis, alt.X2("week_end:T"), alt.Y("free_hours:Q")
    )
    busy = weeks[weeks["loads"] > 0][["middle", "hours", "loads"]]
    layers = [bars, free]
    if not busy.empty:
        over = alt.Chart(busy).mark_text(dy=-6, fontSize=LOADS_FONT_PX, fontWeight=600)
        layers.append(over.encode(alt.X("middle:T"), alt.Y("hours:Q"), alt.Text("loads:Q")))
    return titled(alt.layer(*layers), title, HEIGHT_PX)
