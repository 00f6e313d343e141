"""Harvest expected against picked: every crop as one row, and one crop through its season."""

import altair as alt
import pandas as pd

from dashboard.charts.theme import (
    CLAY,
    FAINT,
    LEAF,
    RUST,
    SPREAD_OPACITY,
    date_axis,
    from_nought,
    name_axis,
    titled,
    today_rule,
)
from dashboard.words import tooltip_day

ROW_PX, AROUND_PX, WORDS_PX, HEIGHT_PX = 24, 50, 96, 255
ROWS = [
    "crop",
    "expected_share",
    "low_share",
    "high_share",
    "picked_share",
    "behind",
    "label",
    "picked_kg",
    "expected_so_far_kg",
    "likely_kg",
]


def picked_bars(rows: pd.DataFrame, title: str) -> alt.LayerChart:
    """Draw each crop: grey what is likely by now, a tick what is expected, a bar what is picked.

    Parameters
    ----------
    rows : one row a crop: ``crop``, ``expected_share``, ``low_share``, ``high_share``,
        ``picked_share`` of an ordinary year's crop, ``behind`` (yes or no), ``label``, and
        ``picked_kg``, ``expected_so_far_kg``, ``likely_kg`` in words.
    """
    order = list(rows["crop"])
    most = max(1.0, rows[["high_share", "picked_share"]].max().max())
    end = alt.ExprRef(f"{most} * width / max(1, width - {WORDS_PX})")
    axis = alt.Axis(format="%", values=[0, 0.5, 1.0], grid=True)
    base = alt.Chart(rows[ROWS]).encode(
        alt.Y("crop:N").sort(order).title(None).axis(name_axis()),
        tooltip=[
            alt.Tooltip("crop:N", title="Crop"),
            alt.Tooltip("picked_kg:N", title="Picked"),
            alt.Tooltip("expected_so_far_kg:N", title="Expected by now"),
            alt.Tooltip("likely_kg:N", title="Eight years in ten"),
        ],
    )
    likely = base.mark_bar(height={"band": 0.8}, color=FAINT, opacity=SPREAD_OPACITY).encode(
        alt.X("low_share:Q")
        .title("Part of an ordinary year's crop")
        .axis(axis)
        .scale(domainMin=0, domainMax=end, nice=False),
        alt.X2("high_share:Q"),
    )
    colours = {"domain": ["no", "yes"], "range": [LEAF, RUST]}
    picked = base.mark_bar(height={"band": 0.4}, cornerRadiusEnd=2).encode(
        alt.X("picked_share:Q"),
        alt.X2Datum(0),
        alt.Color("behind:N").scale(**colours).legend(None),
        # seen even where nothing was picked
        alt.Stroke("behind:N").scale(**colours).legend(None),
    )
    expected = base.mark_tick(color=CLAY, thickness=3, height={"band": 0.8}).encode(
        alt.X("expected_share:Q")
    )
    words = base.mark_text(align="right", dx=2).encode(alt.Text("label:N"), x=alt.value("width"))
    height = ROW_PX * len(order) + AROUND_PX
    return titled(alt.layer(likely, picked, expected, words), title, height)


def picked_curve(days: pd.DataFrame, today: pd.Timestamp, title: str, unit: str) -> alt.LayerChart:
    """Draw what one crop gave so far against what is expected by each day of its season.

    Parameters
    ----------
    days : one row a day: ``day``, ``expected``, ``low``, ``high``, ``picked`` (blank after
        today), summed from the season's beginning.
    unit : of the axis.
    """
    past = days[days["picked"].notna()][["day", "picked"]]
    base = alt.Chart(days[["day", "expected", "low", "high"]]).encode(
        alt.X("day:T").title(None).axis(date_axis())
    )
    tips = [
        alt.Tooltip("day:T", title="Before", format=tooltip_day()),
        alt.Tooltip("expected:Q", title="Expected", format=".2~s"),
        alt.Tooltip("low:Q", title="Bad year", format=".2~s"),
        alt.Tooltip("high:Q", title="Good year", format=".2~s"),
    ]
    likely = base.mark_area(color=FAINT, opacity=SPREAD_OPACITY).encode(
        alt.Y("low:Q")
        .title(f"Picked so far ({unit})")
        .scale(from_nought(days["high"], days["picked"])),
        alt.Y2("high:Q"),
        tooltip=tips,
    )
    expected = base.mark_line(color=CLAY, strokeDash=[5, 3], strokeWidth=2).encode(
        alt.Y("expected:Q")
    )
    layers: list[alt.Chart] = [likely, expected]
    if not past.empty:
        point = alt.OverlayMarkDef(color=LEAF, filled=True)
        line = alt.Chart(past).mark_line(color=LEAF, strokeWidth=3, point=point)
        layers.append(
            line.encode(
                alt.X("day:T"),
                alt.Y("picked:Q"),
                tooltip=[tips[0], alt.Tooltip("picked:Q", title="Picked", format=".2~s")],
            )
        )
    return titled(alt.layer(*layers, today_rule(today)), title, HEIGHT_PX)
