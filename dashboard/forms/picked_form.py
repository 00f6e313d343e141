"""What was picked so far against what was expected: every crop, and one through its season."""

import pandas as pd
import streamlit as st

import model
from dashboard import session
from dashboard.cached import answered
from dashboard.charts.picked_chart import picked_bars, picked_curve
from dashboard.look import picture
from dashboard.picked import (
    crop_days,
    crop_finding,
    day_figures,
    picked_finding,
    picked_now,
    picked_rows,
    standing_words,
    worst_first,
)
from dashboard.words import named, speaker
from model import PlannedSeason

SEED = 1


def picked_form(plan: PlannedSeason) -> None:
    """Draw the harvest of the season against the expected one; a crop can be chosen."""
    table = answered(plan, "picked", lambda _: model.picked_table(plan, SEED))
    units, today = plan.case.season.units, session.today()
    now = picked_now(table, model.progress_table(plan), today)
    if now.empty:
        st.markdown("Nothing was to be picked yet this season, and nothing was.")
        return
    rows = named(picked_rows(now, units))
    picture(picked_bars(rows, picked_finding(now, units)), rows, "picked")
    st.caption(
        "Bar: picked, red where behind. Brown tick: what an ordinary year gives by now, with the "
        "setbacks written down. Grey: eight years in ten, as they lay ahead when the season began. "
        "Of a crop of which under a sixth was due by now nothing can be said, however far off it "
        "looks. Picked is what the log says: what went into jars without a line there is not in it."
    )
    crop = st.selectbox(
        "Through the season",
        worst_first(now),
        format_func=speaker(),
        key=f"picked_of_{session.scope()}",
    )
    row = now[now["crop"] == crop].iloc[0]
    days, unit = crop_days(table, crop, units)
    finding = crop_finding(crop, row["picked_kg"], row["expected_kg"], units)
    chart = picked_curve(days, pd.Timestamp(today), finding, unit)
    picture(chart, day_figures(table, crop, units), "picked_days")
    st.markdown(standing_words(row))
    st.caption("Line with points: picked. Dashed: an ordinary year. Grey: eight years in ten.")
