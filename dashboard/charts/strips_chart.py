"""One strip a name through the weeks: the stronger the colour, the larger the share."""

import altair as alt
import pandas as pd

from dashboard.charts.theme import CLAY, RUST, beside_words, date_axis, name_axis, titled
from dashboard.words import tooltip_day

ROW_PX, AROUND_PX, WORDS_PX = 24, 50, 104
DRAWN = ["name", "begins", "ends", "share", "full"]


def share_strips(strips: pd.DataFrame, title: str) -> alt.LayerChart:
    """Draw a share by week or month for each name, with words at the end of its strip.

    Parameters
    ----------
    strips : one row a name and stretch: ``name``, ``begins``, ``ends``, ``share`` (0 to 1),
        ``full`` (yes where it counts as used up, or likely), ``label`` (of the whole strip).
    """
    drawn = strips[DRAWN]
    order = list(dict.fromkeys(drawn["name"]))
    row = alt.Y("name:N").sort(order).title(None).axis(name_axis())
    first, last = drawn["begins"].min(), drawn["ends"].max()
    cells = (
        alt.Chart(drawn)
        .mark_rect()
        .encode(
            alt.X("begins:T")
            .title(None)
            .axis(date_axis(first, last, WORDS_PX))
            .scale(beside_words(first, last, WORDS_PX)),
            alt.X2("ends:T"),
            row,
            alt.Opacity("share:Q").scale(domain=[0, 1], range=[0.08, 1]).legend(None),
            alt.Color("full:N").scale(domain=["yes", "no"], range=[RUST, CLAY]).legend(None),
            tooltip=[
                alt.Tooltip("name:N", title="What"),
                alt.Tooltip("begins:T", title="From", format=tooltip_day()),
                alt.Tooltip("share:Q", title="Share", format=".0%"),
            ],
        )
    )
    ends = strips.drop_duplicates("name")[["name", "label"]]
    words = (
        alt.Chart(ends)
        .mark_text(align="right", dx=2)
        .encode(row, alt.Text("label:N"), x=alt.value("width"))
    )
    return titled(cells + words, title, ROW_PX * len(order) + AROUND_PX)
