"""Kitchen hours by week against what is free, and supply by source against the want."""

import altair as alt
import pandas as pd

from dashboard.charts.theme import (
    CLAY,
    FAINT,
    LEAF,
    OCHRE,
    PLUM,
    RUST,
    SLATE,
    from_nought,
    monday_axis,
    titled,
    week_axis,
)
from dashboard.words import tooltip_day

SOURCES = ["fresh", "jars", "freezer", "root store", "dried or fermented", "new crop"]
SOURCE_COLOURS = [LEAF, CLAY, SLATE, OCHRE, PLUM, FAINT]


def hours_chart(weeks: pd.DataFrame, title: str, *, short: bool = False) -> alt.LayerChart:
    """Draw the hours each week needs as bars below the line of the hours that are free.

    Parameters
    ----------
    weeks : one row a week: ``week``, ``week_end``, ``hours``, ``free_hours``, ``full``
        (yes where nearly all hours are used), ``loads``, ``jars``.
    """
    base = alt.Chart(weeks)
    axis = monday_axis(weeks["week"]) if short else week_axis()
    bars = base.mark_bar().encode(
        axis,
        alt.X2("week_end:T"),
        alt.Y("hours:Q")
        .title("Kitchen hours")
        .scale(from_nought(weeks["hours"], weeks["free_hours"])),
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
    return titled(bars + free, title, 230)


def supply_chart(supply: pd.DataFrame, title: str) -> alt.LayerChart:
    """Draw the plate's portions by source, stacked, below the line of what is wanted.

    Parameters
    ----------
    supply : one row a week and source: ``week``, ``source``, ``portions``,
        ``wanted_portions``, ``order``.
    """
    areas = (
        alt.Chart(supply)
        .mark_area(interpolate="monotone")
        .encode(
            week_axis(),
            alt.Y("portions:Q")
            .stack("zero")
            .title("Portions a week")
            .scale(from_nought(supply["wanted_portions"])),
            alt.Color("source:N")
            .scale(domain=SOURCES, range=SOURCE_COLOURS)
            .legend(title=None, orient="bottom", columns=2),
            alt.Order("order:Q"),
            tooltip=[
                alt.Tooltip("week:T", title="Week of", format=tooltip_day()),
                alt.Tooltip("source:N", title="From"),
                alt.Tooltip("portions:Q", title="Portions", format=".2~s"),
            ],
        )
    )
    wanted = (
        alt.Chart(supply)
        .mark_line(color=RUST, strokeDash=[5, 3], strokeWidth=2)
        .encode(week_axis(), alt.Y("max(wanted_portions):Q"))
    )
    return titled(areas + wanted, title, 330)
