"""One look for all charts: colours told apart by colour-blind eyes, in light and in dark.

Meaning of colours: leaf is fresh or enough, clay is kept in jars or the plan, slate is the
freezer, ochre the root store, rust is what falls short. The grey of rules and shades is
half transparent, so that it shows on paper and at night.
"""

import textwrap

import altair as alt
import pandas as pd

from dashboard.words import local, tick_day

LEAF, CLAY, SLATE, OCHRE, RUST, PLUM = (
    "#4f8a3c",
    "#b4632a",
    "#4a7fb5",
    "#a98514",
    "#d1495b",
    "#8b6bb1",
)
FAINT = "#8a8a8a"
SHADE_OPACITY = 0.16
SPREAD_OPACITY = 0.3
LINE_LETTERS = 46

MONTHS = "timeFormat(datum.value, month(datum.value) == 0 ? '%Y' : '%b')"


def week_axis(column: str = "week") -> alt.X:
    """Give the axis of weeks: months, with the year where it turns."""
    return alt.X(f"{column}:T").title(None).axis(date_axis())


def monday_axis(weeks: pd.Series) -> alt.X:
    """Give the axis of a few weeks, each named by its Monday."""
    ticks = [calendar_day(monday) for monday in weeks]
    axis = alt.Axis(
        labelExpr=f"timeFormat(datum.value, '{tick_day()}')",
        values=ticks,
        grid=False,
        labelOverlap="greedy",
    )
    return alt.X("week:T").title(None).axis(axis)


def calendar_day(when: pd.Timestamp) -> alt.DateTime:
    """Give a day as a chart's scale takes it, the same in every time zone."""
    return alt.DateTime(year=when.year, month=when.month, date=when.day)


def beside_words(first: pd.Timestamp, last: pd.Timestamp, words_px: int) -> alt.Scale:
    """Give a scale of days that leaves room for words on the right at any width."""
    days = (last - first) / pd.Timedelta(days=1)
    whole = f"{days} * width / max(1, width - {words_px})"
    end = alt.ExprRef(f"datetime({first.year}, {first.month - 1}, {first.day} + {whole})")
    return alt.Scale(domainMin=calendar_day(first), domainMax=end, nice=False)


def date_axis() -> alt.Axis:
    """Give an axis with a tick a month and no doubled labels."""
    return alt.Axis(
        labelExpr=MONTHS,
        tickCount="month",
        grid=False,
        labelOverlap="greedy",
        labelFlush=False,
    )


def from_nought(*columns: pd.Series) -> alt.Scale:
    """Give a scale from 0 up; where all is nought it still reaches 1."""
    most = max((column.max() for column in columns if len(column)), default=0)
    return alt.Scale(domainMin=0, nice=True) if most >= 1 else alt.Scale(domain=[0, 1])


def titled(chart: alt.LayerChart, title: str, height: int | None = None) -> alt.LayerChart:
    """Put the finding above a chart, in lines that a narrow screen does not cut."""
    lines = textwrap.wrap(local(title), LINE_LETTERS)
    shown = chart.properties(
        title=alt.TitleParams(lines, anchor="start", fontSize=15, fontWeight=600, offset=8)
    )
    return shown.properties(height=height) if height else shown
