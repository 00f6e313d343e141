"""One look for all charts: colours told apart by colour-blind eyes, in light and in dark.

Meaning of colours: leaf is fresh or enough, clay is kept in jars or the plan, slate is the
freezer, ochre the root store, plum what is dried or fermented, rust is what falls short. The
grey of rules and shades is half transparent, so that it shows on paper and at night. Where the
preserves of one food are drawn, their colours only tell them apart; what stands there of all of
them is a line in the ink of the words. Each is told from every other by people who see no red, no
green or no blue, by lightness too.
"""

import altair as alt
import pandas as pd

from dashboard.words import local, tick_day

LEAF, CLAY, SLATE, OCHRE, RUST, PLUM = (
    "#2b8a55",
    "#a05612",
    "#5f83df",
    "#bd8614",
    "#f04565",
    "#8e6b9b",
)
FAINT = "#8e9091"
SHADE_OPACITY = 0.16
SPREAD_OPACITY = 0.3
WORDS_FONT_PX = 11

MONTH_PX, MONTH_MS = 26, 2_629_800_000


@alt.theme.register("shelves", enable=True)
def shelves() -> alt.theme.ThemeConfig:
    """Give what all charts have in common."""
    return {
        "config": {
            "text": {"fontSize": WORDS_FONT_PX, "color": FAINT},
            "rule": {"color": FAINT},
            "line": {"color": FAINT},
            # without it whatever has no tips of ours is told by the names of its columns
            "mark": {"aria": False, "tooltip": None},
            "legend": {"title": None, "orient": "bottom", "labelLimit": 300},
        }
    }


def week_axis(field: str = "week") -> alt.X:
    """Give the axis of weeks, or of days: months, with the year where it turns."""
    return alt.X(f"{field}:T").title(None).axis(date_axis())


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


def name_axis(*, limit_px: int = 130) -> alt.Axis:
    """Give the axis of names, one a row, none of them left out."""
    return alt.Axis(
        labelLimit=limit_px,
        labelFontSize=WORDS_FONT_PX,
        ticks=False,
        domain=False,
        labelOverlap=False,
        labelFlush=False,
    )


def calendar_day(when: pd.Timestamp) -> alt.DateTime:
    """Give a day as a chart's scale takes it, the same in every time zone."""
    return alt.DateTime(year=when.year, month=when.month, date=when.day)


def clock_time(when: pd.Timestamp) -> alt.DateTime:
    """Give a moment as a chart's scale takes it, by the clock of wherever it is looked at."""
    at = {"hours": when.hour, "minutes": when.minute}
    return alt.DateTime(year=when.year, month=when.month, date=when.day, **at)


def beside_words(first: pd.Timestamp, last: pd.Timestamp, words_px: int) -> alt.Scale:
    """Give a scale of days that leaves room for words on the right at any width."""
    days = (last - first) / pd.Timedelta(days=1)
    whole = f"{days} * width / max(1, width - {words_px})"
    end = alt.ExprRef(f"datetime({first.year}, {first.month - 1}, {first.day} + {whole})")
    return alt.Scale(domainMin=calendar_day(first), domainMax=end, nice=False)


def date_axis(
    first: pd.Timestamp | None = None, last: pd.Timestamp | None = None, words_px: int = 0
) -> alt.Axis:
    """Give an axis with a tick a month and no doubled labels.

    Between two days where the scale reaches beyond them, to leave room for ``words_px`` of words.
    """
    if first is not None and last is not None:
        months = [calendar_day(month) for month in pd.date_range(first, last, freq="MS")]
        room = f"({MONTH_PX} * {len(months)} / max(1, width - {words_px}))"
        return alt.Axis(
            labelExpr=_month_words(room),
            values=months,
            tickCount=len(months),
            grid=False,
            labelOverlap=False,
        )
    return alt.Axis(
        labelExpr=_month_words(
            f"({MONTH_PX} * (domain('x')[1] - domain('x')[0]) / {MONTH_MS} / width)"
        ),
        tickCount="month",
        grid=False,
        labelOverlap=False,
        labelFlush=False,
    )


def _month_words(crowded: str) -> str:
    """Name the months at even steps, January always, which is named by its year.

    ``crowded`` is how many names would have to share the room of one. A month that is not named
    is blank, so overlaps are not left to the axis: a blank beside it would hide a name.
    """
    step = "".join(f"{crowded} <= {step} ? {step} : " for step in (1, 2, 3, 4, 6))
    named = "timeFormat(datum.value, month(datum.value) == 0 ? '%Y' : '%b')"
    return f"month(datum.value) % ({step}12) ? '' : {named}"


def from_nought(*columns: pd.Series, room: float = 1.0) -> alt.Scale:
    """Give a scale from 0 up, to ``room`` times the most; where all is nought it reaches 1."""
    most = max((column.max() for column in columns if len(column)), default=0)
    if most < 1:
        return alt.Scale(domain=[0, 1])
    if room > 1:
        return alt.Scale(domain=[0, room * most], nice=True)
    return alt.Scale(domainMin=0, nice=True)


def today_rule(today: pd.Timestamp) -> alt.Chart:
    """Draw a line where today is."""
    day = pd.DataFrame({"week": [today]})
    return alt.Chart(day).mark_rule(strokeDash=[4, 3]).encode(alt.X("week:T"))


def shaded(stretches: pd.DataFrame) -> list[alt.Chart]:
    """Shade stretches of days (``begins``, ``ends``); no layer where there are none."""
    if stretches.empty:
        return []
    rects = alt.Chart(stretches[["begins", "ends"]]).mark_rect(opacity=SHADE_OPACITY, color=FAINT)
    return [rects.encode(alt.X("begins:T"), alt.X2("ends:T"))]


def titled(chart: alt.LayerChart, title: str, height: int) -> alt.LayerChart:
    """Give a chart the finding it is shown below, and its height."""
    return chart.properties(title=local(title), height=height)
