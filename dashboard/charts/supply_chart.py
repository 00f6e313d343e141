"""Where the portions of the plate come from, week by week, against what is wanted."""

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
    shaded,
    titled,
    week_axis,
)
from dashboard.words import tooltip_day

SOURCES = {
    "fresh": LEAF,
    "jars": CLAY,
    "freezer": SLATE,
    "root store": OCHRE,
    "dried or fermented": PLUM,
    "new crop": FAINT,
}
HEIGHT_PX = 305


def supply_chart(supply: pd.DataFrame, holes: pd.DataFrame, title: str) -> alt.LayerChart:
    """Draw the plate's portions by source, stacked, below the line of what is wanted.

    Parameters
    ----------
    supply : one row a week and source: ``week``, ``source``, ``portions``,
        ``wanted_portions``.
    holes : one row a stretch in which the plate is short: ``begins``, ``ends``.
    """
    given = supply.groupby("source")["portions"].sum()
    sources = [source for source in SOURCES if given.get(source, 0.0) > 0]
    drawn = supply[supply["source"].isin(sources)][["week", "source", "portions"]]
    drawn = drawn.assign(order=[sources.index(source) for source in drawn["source"]])
    wanted = supply.groupby("week", as_index=False)["wanted_portions"].first()
    axis = (
        alt.Y("portions:Q")
        .stack("zero")
        .title("Portions a week")
        .scale(from_nought(wanted["wanted_portions"]))
    )
    areas = (
        alt.Chart(drawn)
        .mark_area(interpolate="monotone")
        .encode(
            week_axis(),
            axis,
            alt.Color("source:N")
            .scale(domain=sources, range=[SOURCES[source] for source in sources])
            .legend(columns=2),
            alt.Order("order:Q"),
            tooltip=[
                alt.Tooltip("week:T", title="Week of", format=tooltip_day()),
                alt.Tooltip("source:N", title="From"),
                alt.Tooltip("portions:Q", title="Portions", format=".2~s"),
            ],
        )
    )
    want = (
        alt.Chart(wanted)
        .mark_line(color=RUST, strokeDash=[5, 3], strokeWidth=2)
        .encode(week_axis(), alt.Y("wanted_portions:Q"))
    )
    return titled(alt.layer(*shaded(holes), areas, want), title, HEIGHT_PX)
