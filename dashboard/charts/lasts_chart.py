"""Every food as a bar that reaches the new crop, or does not."""

import altair as alt
import pandas as pd

from dashboard.charts.theme import (
    FAINT,
    LEAF,
    RUST,
    beside_words,
    date_axis,
    name_axis,
    titled,
    today_rule,
)
from dashboard.words import tooltip_day

ROW_PX, AROUND_PX, WORDS_PX = 23, 50, 74
# A bar that is just about enough is the outline of one that is.
HOLLOW = 0.15
DRAWN = [
    "food",
    "begins",
    "lasts_low",
    "lasts_until",
    "lasts_high",
    "new_crop",
    "enough",
    "label",
]


def lasts_chart(foods: pd.DataFrame, today: pd.Timestamp, title: str) -> alt.LayerChart:
    """Draw how long each food lasts, with a soft edge for luck and a mark for the new crop.

    Parameters
    ----------
    foods : one row a food: ``food``, ``begins``, ``lasts_low``, ``lasts_until``,
        ``lasts_high``, ``new_crop`` (dates), ``enough`` (yes, likely or no), ``label``.
    """
    order = list(foods["food"])
    first = min(today, foods["begins"].min())
    last = foods[["new_crop", "lasts_high"]].max().max()
    food = alt.Y("food:N").sort(order).title(None).axis(name_axis(limit_px=150))
    colours = {"domain": ["yes", "likely", "no"], "range": [LEAF, LEAF, RUST]}
    colour = alt.Color("enough:N").scale(**colours).legend(None)
    hollow = alt.condition("datum.enough === 'likely'", alt.value(HOLLOW), alt.value(1.0))
    base = alt.Chart(foods[DRAWN]).encode(food)
    tips = [
        alt.Tooltip("food:N", title="Food"),
        alt.Tooltip("lasts_until:T", title="Lasts until", format=tooltip_day()),
        alt.Tooltip("lasts_low:T", title="In a bad year", format=tooltip_day()),
        alt.Tooltip("lasts_high:T", title="In a good year", format=tooltip_day()),
        alt.Tooltip("new_crop:T", title="New crop", format=tooltip_day()),
    ]
    bar = base.mark_bar(height={"band": 0.5}, cornerRadiusEnd=2, yOffset=-2).encode(
        alt.X("begins:T")
        .title(None)
        .axis(date_axis(first, last, WORDS_PX))
        .scale(beside_words(first, last, WORDS_PX)),
        alt.X2("lasts_until:T"),
        colour,
        alt.Stroke("enough:N").scale(**colours).legend(None),
        fillOpacity=hollow,
        tooltip=tips,
    )
    # below the bar, or the years that end before its middle would be hidden behind it
    luck = base.mark_bar(height={"band": 0.14}, yOffset=6).encode(
        alt.X("lasts_low:T"), alt.X2("lasts_high:T"), colour, tooltip=tips
    )
    new_crop = base.mark_point(shape="diamond", size=70, filled=True, opacity=0.95).encode(
        alt.X("new_crop:T"), color=alt.value(FAINT)
    )
    label = base.mark_text(align="right", dx=2).encode(alt.Text("label:N"), x=alt.value("width"))
    layers = bar + luck + today_rule(today) + new_crop + label
    return titled(layers, title, ROW_PX * len(order) + AROUND_PX)
