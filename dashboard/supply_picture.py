"""Where the portions of the plate come from through the year, and where the hole is."""

from functools import partial

import altair as alt
import pandas as pd
import streamlit as st

import model
from dashboard.cached import table_of
from dashboard.chart_findings import supply_finding, supply_holes
from dashboard.charts.supply_chart import supply_chart
from dashboard.findings import never_counted
from dashboard.look import kept_picture
from dashboard.tables import with_dates
from model import PlannedSeason


def supply_picture(plan: PlannedSeason) -> None:
    """Draw the supply by source against the want, week by week."""
    supply = with_dates(table_of(plan, model.supply_table), "week")
    if not supply["wanted_portions"].any():
        st.markdown("No portions are wanted in these weeks: give the plate foods and portions.")
        return
    counted = not never_counted(plan)
    kept_picture(plan, partial(_chart, supply, counted=counted), lambda: supply, "supply")
    st.caption(
        "All foods of the plate together, in an ordinary year; the dashed line is what is wanted. "
        "Shaded: over a quarter of it is missing."
    )


def _chart(supply: pd.DataFrame, *, counted: bool) -> alt.LayerChart:
    holes = with_dates(supply_holes(supply), "begins", "ends")
    return supply_chart(supply, holes, supply_finding(supply, holes, counted=counted))
