"""One look for all charts: colours told apart by colour-blind eyes, in light and in dark.

Meaning of colours: leaf is fresh or enough, clay is kept in jars or the plan, slate is the
freezer, ochre the root store, rust is what falls short. The grey of rules and shades is
half transparent, so that it shows on paper and at night.
"""

import altair as alt
import pandas as pd

LEAF, CLAY, SLATE, OCHRE, RUST, PLUM = (
    "#4f8a3c",
    "#b4632a",
    "#4a7fb5",
    "#c9a227",
    "#d1495b",
    "#8b6bb1",
)
FAINT = "#8a8a8a"
SHADE_OPACITY = 0.16
SPREAD_OPACITY = 0.3


MONTHS = "timeFormat(datum.value, month(datum.value) == 0 ? '%b %Y' : '%b')"
DAYS = "timeFormat(datum.value, '%-d %b')"


def week_axis() -> alt.X:
    """Give the axis of weeks: months, with the year where it turns."""
    return alt.X("week:T").title(None).axis(date_axis())


def monday_axis(weeks: pd.Series) -> alt.X:
    """Give the axis of a few weeks, each named by its Monday."""
    ticks = [calendar_day(monday) for monday in weeks]
    axis = alt.Axis(labelExpr=DAYS, values=ticks, grid=False, labelOverlap="greedy")
    return alt.X("week:T").title(None).axis(axis)


def calendar_day(when: pd.Timestamp) -> alt.DateTime:
    """Give a day as a chart's scale takes it, the same in every time zone."""
    return alt.DateTime(year=when.year, month=when.month, date=when.day)


def date_axis() -> alt.Axis:
    """Give an axis with a tick a month and no doubled labels."""
    return alt.Axis(
        labelExpr=MONTHS,
        tickCount="month",
        grid=False,
        labelOverlap="greedy",
        labelFlush=False,
    )


def titled(chart: alt.LayerChart, title: str, height: int | None = None) -> alt.LayerChart:
    """Put the finding above a chart, in the words of a sentence."""
    shown = chart.properties(
        title=alt.TitleParams(title, anchor="start", fontSize=15, fontWeight=600, offset=8)
    )
    return shown.properties(height=height) if height else shown
