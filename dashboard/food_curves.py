"""Stock curves of every food beside each other, what gives out first before all."""

from functools import partial

import altair as alt
import pandas as pd
import streamlit as st

import model
from dashboard import session
from dashboard.cached import table_of
from dashboard.charts.stock_chart import small_curve
from dashboard.lasting import GONE, PAST, lasting_rows
from dashboard.look import choice, drawn, figures
from dashboard.tables import with_dates
from dashboard.words import capital, day
from model import PlannedSeason

ACROSS, MOST_SMALL = 3, 18


def curve_title(food: str, row: pd.Series) -> str:
    """Say how a food stands, as the title of its curve."""
    name = capital(food)
    if row["enough"] != "no":
        return f"{name}: {row['standing']} until the new crop"
    if row["standing"] == GONE:
        return f"{name}: gone about {day(row['lasts_until'])}"
    if row["standing"] == PAST:
        return f"{name}: what is left is past keeping by {day(row['keeps_until'])}"
    return f"{name}: {row['standing']}"


def small_curves(plan: PlannedSeason, lean: pd.DataFrame, foods: pd.DataFrame) -> None:
    """Show every food of a stretch in a small frame, what gives out first before all.

    ``foods`` say how each stands; where that is not known, as the winter to come would find it.
    """
    stock = with_dates(table_of(plan, model.food_stock_table), "day")
    share = plan.case.season.settings.lean_share
    if foods.empty:
        foods = lasting_rows(table_of(plan, model.food_table), session.today(), share)
    rows = foods[foods["food"].isin(stock["food"])]
    if rows.empty:
        st.markdown("No food is put up or stored.")
        return
    if len(rows) > MOST_SMALL:
        few, all_ = f"The first {MOST_SMALL} to give out", f"All {len(rows)}"
        rows = rows.head(MOST_SMALL) if choice("How many", [few, all_], "how_many") == few else rows
    for start in range(0, len(rows), ACROSS):
        columns = st.columns(ACROSS, gap="medium")
        line = rows.iloc[start : start + ACROSS]
        for column, (_, row) in zip(columns, line.iterrows(), strict=False):
            small = partial(_small_curve, row, stock, lean)
            with column:
                title = curve_title(row["food"], row)
                drawn(plan, f"the stock from {session.today()}, {title}", small)
    figures(lambda: stock, "every_food")
    st.caption(
        "What gives out first stands first. Line: the middle of the simulated years; band: eight "
        "years in ten; shaded: no fresh; dashed: the new crop."
    )


def _small_curve(row: pd.Series, stock: pd.DataFrame, lean: pd.DataFrame) -> alt.LayerChart:
    own, bare = (frame[frame["food"] == row["food"]] for frame in (stock, lean))
    new_crop = pd.DataFrame([{"new_crop": row["new_crop"]}]).dropna()
    return small_curve(own, bare, new_crop, curve_title(row["food"], row))
