"""Spring: what to plant, how many jars of what, and what limits it."""

import pandas as pd
import streamlit as st

import model
from dashboard import session
from dashboard.cached import planned
from dashboard.charts.garden_chart import harvest_strips
from dashboard.charts.kitchen_chart import hours_chart
from dashboard.findings import limit_words, over_headline, spring_headline
from dashboard.forms.change_form import change_form
from dashboard.forms.working import working
from dashboard.look import choice, table
from dashboard.tables import garden_rows, jar_rows, lasting_rows, shortfall_rows, strips, week_rows
from model import PlannedSeason


def show() -> None:
    """Show the page."""
    notes = session.notes()
    if notes is None:
        return
    st.title("What to plant, and how many jars of what")
    plan = planned(notes.season, session.today())
    units = notes.season.units
    jars = model.preserve_table(plan)
    limits = model.tight_limits(model.limit_table(plan))
    foods = lasting_rows(model.food_table(plan))
    if not jars["to_fill"].any() and not plan.plan.harvest_kg.any():
        _over(plan)
        return
    st.markdown(spring_headline(jars, foods, limits))
    garden, kitchen = st.columns([5, 7], gap="medium")
    with garden:
        st.subheader("Plant")
        table(garden_rows(model.planting_table(plan), units), height=365, key="plantings")
    with kitchen:
        st.subheader("Put up")
        table(jar_rows(jars), height=365, key="jars")
    _more(plan, units)


def _over(plan: PlannedSeason) -> None:
    """Show what the season leaves short, which is what the coming one should mend."""
    st.markdown(over_headline(plan.case.forecast.year.name))
    table(shortfall_rows(model.food_table(plan)), height="content", key="shortfall")


def _more(plan: PlannedSeason, units: str) -> None:
    today = pd.Timestamp(session.today())
    when, time, why, change = "When it is picked", "Kitchen hours", "The working", "Try a change"
    chosen = choice("More", [when, time, why, change], key="spring_more")
    if chosen == when:
        harvest = strips(model.harvest_table(plan), units)
        title = "The weeks of picking; the darker, the more"
        st.altair_chart(harvest_strips(harvest, today, title), width="stretch")
        st.caption(
            "An ordinary year. Yields are published figures moved by the household's own seasons; "
            "the table shows how many of those stand behind each."
        )
    elif chosen == time:
        _limits(plan)
    elif chosen == why:
        working(plan)
    else:
        change_form(plan, session.today(), loss=False)


def _limits(plan: PlannedSeason) -> None:
    limits = model.tight_limits(model.limit_table(plan))
    weeks = week_rows(model.week_table(plan))
    st.altair_chart(hours_chart(weeks, f"Used up: {limit_words(limits)}"), width="stretch")
    with st.expander("What is used of every limit"):
        table(limits[["limit", "week", "used", "available", "unit"]].round(1), key="limits")


show()
