"""When the garden gives what: one strip a crop, darker where more is picked."""

import altair as alt
import pandas as pd

from dashboard.charts.theme import LEAF, name_axis, titled, today_rule, week_axis
from dashboard.words import tooltip_day

ROW_PX, AROUND_PX = 17, 50
DRAWN = ["crop", "week", "week_end", "expected_kg", "share"]


def harvest_strips(harvest: pd.DataFrame, today: pd.Timestamp, title: str) -> alt.LayerChart:
    """Draw each crop's picking weeks, the strength of colour by its share of the crop.

    Parameters
    ----------
    harvest : one row a crop and week: ``crop``, ``week``, ``week_end``, ``expected_kg`` in
        words, ``share`` of the crop's heaviest week.
    """
    order = harvest.groupby("crop")["week"].min().sort_values().index.tolist()
    strips = (
        alt.Chart(harvest[DRAWN])
        .mark_rect(color=LEAF)
        .encode(
            week_axis(),
            alt.X2("week_end:T"),
            alt.Y("crop:N").sort(order).title(None).axis(name_axis()),
            alt.Opacity("share:Q").scale(domain=[0, 1], range=[0.18, 1]).legend(None),
            tooltip=[
                alt.Tooltip("crop:N", title="Crop"),
                alt.Tooltip("week:T", title="Week of", format=tooltip_day()),
                alt.Tooltip("expected_kg:N", title="Expected"),
            ],
        )
    )
    return titled(strips + today_rule(today), title, ROW_PX * len(order) + AROUND_PX)
