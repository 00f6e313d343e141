"""Stock curves: what stands on the shelf from week to week, with its spread."""

import altair as alt
import pandas as pd

from dashboard.charts.theme import (
    CLAY,
    FAINT,
    LEAF,
    OCHRE,
    PLUM,
    SLATE,
    SPREAD_OPACITY,
    from_nought,
    shaded,
    titled,
    week_axis,
)
from dashboard.words import tooltip_day

# Line styles tell apart what colours may not.
DASHES = [[1, 0], [6, 3], [2, 2], [8, 3, 2, 3], [4, 4], [1, 3]]
COLOURS = [CLAY, SLATE, LEAF, PLUM, OCHRE, FAINT]
# Words of days stand above the curves.
WORDS_ROOM = 1.15
LEGEND_ROW_PX, MANY_OPACITY = 18, 0.18
FOOD = ["day", "low_portions", "middle_portions", "high_portions", "plan_portions"]
PRESERVES = ["preserve", "day", "jars", "low", "high"]


def food_curve(
    stock: pd.DataFrame, lean: pd.DataFrame, marks: pd.DataFrame, title: str
) -> alt.LayerChart:
    """Draw the portions of one food on the shelf, with lean weeks shaded.

    Parameters
    ----------
    stock : one row a day: ``day``, ``low_portions``, ``middle_portions``,
        ``high_portions``, ``plan_portions``.
    lean : one row a stretch: ``begins``, ``ends``.
    marks : one row a day worth a line: ``day``, ``what`` (today, new crop).
    """
    base = alt.Chart(stock[FOOD]).encode(week_axis("day"))
    tips = [
        alt.Tooltip("day:T", title="Day", format=tooltip_day()),
        alt.Tooltip("middle_portions:Q", title="Portions", format=".2~s"),
        alt.Tooltip("low_portions:Q", title="Bad year", format=".2~s"),
        alt.Tooltip("high_portions:Q", title="Good year", format=".2~s"),
    ]
    spread = base.mark_area(color=CLAY, opacity=SPREAD_OPACITY).encode(
        alt.Y("low_portions:Q")
        .title("Portions on the shelf")
        .scale(from_nought(stock["high_portions"], stock["plan_portions"], room=WORDS_ROOM)),
        alt.Y2("high_portions:Q"),
        tooltip=tips,
    )
    middle = base.mark_line(strokeWidth=2.5).encode(alt.Y("middle_portions:Q"), tooltip=tips)
    plan = base.mark_line(color=CLAY, strokeDash=[5, 3], strokeWidth=1.5).encode(
        alt.Y("plan_portions:Q")
    )
    return titled(alt.layer(*shaded(lean), spread, plan, middle, ruled(marks)), title, 295)


def ruled(marks: pd.DataFrame) -> alt.LayerChart:
    """Draw a line with a word for each day worth one, the words one below the other."""
    base = alt.Chart(marks[["day", "what"]].assign(place=range(len(marks)))).encode(alt.X("day:T"))
    rule = base.mark_rule(strokeDash=[4, 3])
    # one layer for all words: a browser takes as long for a layer as for its rows
    below = alt.ExprRef("14 * datum.place")
    words = base.mark_text(align="left", dx=4, dy=below, baseline="top").encode(
        alt.Text("what:N"), y=alt.value(2)
    )
    return alt.layer(rule, words)


def small_curve(
    stock: pd.DataFrame, lean: pd.DataFrame, new_crop: pd.DataFrame, title: str
) -> alt.LayerChart:
    """Draw the stock of one food in a small frame, to stand among others.

    Parameters
    ----------
    stock, lean : as for ``food_curve``; ``new_crop`` : one row, ``new_crop``, or none.
    """
    drawn = stock[["day", "low_portions", "middle_portions", "high_portions"]]
    base = alt.Chart(drawn).encode(week_axis("day"))
    tips = [
        alt.Tooltip("day:T", title="Day", format=tooltip_day()),
        alt.Tooltip("middle_portions:Q", title="Portions", format=".2~s"),
    ]
    spread = base.mark_area(color=CLAY, opacity=SPREAD_OPACITY).encode(
        alt.Y("low_portions:Q")
        .title("Portions")
        .axis(tickCount=3)
        .scale(from_nought(drawn["high_portions"])),
        alt.Y2("high_portions:Q"),
        tooltip=tips,
    )
    middle = base.mark_line(strokeWidth=2).encode(alt.Y("middle_portions:Q"), tooltip=tips)
    layers: list[alt.Chart] = [*shaded(lean), spread, middle]
    if not new_crop.empty:
        day = alt.Chart(new_crop[["new_crop"]]).mark_rule(strokeDash=[4, 3], color=LEAF)
        layers.append(day.encode(alt.X("new_crop:T")))
    return titled(alt.layer(*layers), title, 130)


def preserve_curves(
    stock: pd.DataFrame, lean: pd.DataFrame, marks: pd.DataFrame, title: str, unit: str
) -> alt.LayerChart:
    """Draw the preserves of one food, each by colour and dash, with its spread.

    Parameters
    ----------
    stock : one row a preserve and day: ``preserve``, ``day``, ``jars``, ``low``, ``high``.
    unit : the words of the axis.
    """
    names = sorted(stock["preserve"].unique())
    places = range(len(names))
    # Past the last colour the dashes move on by one, so that no two look alike.
    dashes = [DASHES[(place + place // len(COLOURS)) % len(DASHES)] for place in places]
    legend = alt.Legend(
        columns=1,
        symbolType="stroke",
        symbolSize=700,
        symbolOpacity=1,
        symbolStrokeWidth=2.5,
    )
    colour = (
        alt.Color("preserve:N")
        .scale(domain=names, range=[COLOURS[place % len(COLOURS)] for place in places])
        .legend(legend)
    )
    dash = alt.StrokeDash("preserve:N").scale(domain=names, range=dashes).legend(legend)
    tips = [
        alt.Tooltip("preserve:N", title="Preserve"),
        alt.Tooltip("day:T", title="Day", format=tooltip_day()),
        alt.Tooltip("jars:Q", title="By the plan", format=".2~f"),
        alt.Tooltip("low:Q", title="Bad year", format=".2~f"),
        alt.Tooltip("high:Q", title="Good year", format=".2~f"),
    ]
    base = alt.Chart(stock[PRESERVES]).encode(week_axis("day"), colour)
    spread = base.mark_area(opacity=MANY_OPACITY).encode(
        alt.Y("low:Q").title(unit).scale(from_nought(stock["high"], room=WORDS_ROOM)),
        alt.Y2("high:Q"),
        tooltip=tips,
    )
    line = base.mark_line(strokeWidth=2).encode(alt.Y("jars:Q"), dash, tooltip=tips)
    height = 280 + LEGEND_ROW_PX * len(names)
    return titled(alt.layer(*shaded(lean), spread, line, ruled(marks)), title, height)
