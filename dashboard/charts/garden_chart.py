"""When the garden gives what: one strip a crop, darker where more is picked."""

import altair as alt
import pandas as pd

from dashboard.charts.theme import FAINT, LEAF, titled, week_axis
from dashboard.words import tooltip_day


def harvest_strips(harvest: pd.DataFrame, today: pd.Timestamp, title: str) -> alt.LayerChart:
    """Draw each crop's picking weeks, the strength of colour by its share of the crop.

    Parameters
    ----------
    harvest : one row a crop and week: ``crop``, ``week``, ``week_end``, ``expected_kg``,
        ``share`` of the crop's heaviest week, ``kg_words``.
    """
    order = harvest.groupby("crop")["week"].min().sort_values().index.tolist()
    names = alt.Axis(labelLimit=130, ticks=False, labelOverlap=False, labelFontSize=11)
    strips = (
        alt.Chart(harvest)
        .mark_rect(color=LEAF)
        .encode(
            week_axis(),
            alt.X2("week_end:T"),
            alt.Y("crop:N").sort(order).title(None).axis(names),
            alt.Opacity("share:Q").scale(domain=[0, 1], range=[0.18, 1]).legend(None),
            tooltip=[
                alt.Tooltip("crop:N", title="Crop"),
                alt.Tooltip("week:T", title="Week of", format=tooltip_day()),
                alt.Tooltip("kg_words:N", title="Expected"),
            ],
        )
    )
    day = pd.DataFrame({"week": [today]})
    now = alt.Chart(day).mark_rule(strokeDash=[4, 3], color=FAINT).encode(alt.X("week:T"))
    return titled(strips + now, title, 17 * len(order) + 64)
