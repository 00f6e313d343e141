"""This week: what to pick, eat and put up, and whether the season is ahead or behind."""

import pandas as pd
import streamlit as st

import model
from dashboard import session
from dashboard.cached import planned
from dashboard.charts.kitchen_chart import hours_chart
from dashboard.findings import week_headline
from dashboard.forms.change_form import change_form
from dashboard.forms.process_form import process_form
from dashboard.look import choice, table
from dashboard.tables import batch_rows, opening_rows, picking_rows, week_rows
from dashboard.words import day, weight
from model import PlannedSeason

AHEAD = 10


def show() -> None:
    """Show the page."""
    notes = session.notes()
    if notes is None:
        return
    st.title("This week in the garden and the kitchen")
    plan = planned(notes.season, session.today())
    units = notes.season.units
    weeks = model.week_table(plan)
    fresh = model.fresh_table(plan, 0)
    st.markdown(week_headline(weeks.iloc[0], fresh, weight(weeks.iloc[0]["expected_kg"], units)))
    openings = model.opening_table(plan, 0)
    picking, putting_up = st.columns(2, gap="medium")
    with picking:
        st.subheader("Pick and eat")
        _pick(plan, fresh, units)
        if fresh.empty:
            _open(openings)
    with putting_up:
        st.subheader("Put up")
        _put_up(plan, units)
        if not fresh.empty:
            _open(openings)
    _season(plan, units)
    _more(plan, weeks)


def _open(openings: pd.DataFrame) -> None:
    if not openings.empty:
        st.subheader("From the shelf")
        table(opening_rows(openings), key="open")


def _pick(plan: PlannedSeason, fresh: pd.DataFrame, units: str) -> None:
    if fresh.empty:
        coming = model.harvest_table(plan)
        later = coming[coming["expected_kg"] > 0.1].sort_values("week")
        if later.empty:
            st.markdown("Nothing more is to come from the garden in these weeks.")
        else:
            first = later.iloc[0]
            st.markdown(f"First to come: **{first['crop']}**, week of {day(first['week'])}.")
        return
    table(picking_rows(fresh, units), key="pick")


def _put_up(plan: PlannedSeason, units: str) -> None:
    batches = model.batch_table(plan)
    this = batches[batches["week"] == plan.case.weeks.monday(0)]
    if this.empty:
        nxt = batches.head(1)
        if nxt.empty:
            st.markdown("Nothing is to be put up in these weeks.")
        else:
            row = nxt.iloc[0]
            st.markdown(f"Next: **{row['preserve']}**, week of {day(row['week'])}.")
        return
    processes = dict(model.preserve_table(plan)[["preserve", "process"]].itertuples(index=False))
    table(batch_rows(this, processes, units), key="put_up")
    st.caption(
        "Times are for planning: follow a current tested recipe. Enough is enough: what is not "
        "listed here has its target met, or is worth less than what is."
    )


def _season(plan: PlannedSeason, units: str) -> None:
    progress = model.progress_table(plan)
    if progress.empty:
        return
    st.subheader("How the season stands")
    said = progress[progress["status"] != "too early to say"]
    for status in ("ahead", "behind"):
        crops = said[said["status"] == status]
        if not crops.empty:
            words = ", ".join(
                f"{row.crop} ({weight(row.picked_kg, units)} of "
                f"{weight(row.expected_so_far_kg, units)})"
                for row in crops.itertuples()
            )
            st.markdown(f"**{status.capitalize()}**: {words}")
    with st.expander("Every crop: picked so far against an ordinary year"):
        shown = progress.copy()
        for name in ("expected_so_far_kg", "picked_kg", "to_come_kg"):
            shown[name] = [weight(kg, units) for kg in shown[name]]
        table(shown, key="progress")


def _more(plan: PlannedSeason, weeks: pd.DataFrame) -> None:
    coming, gone, process = "The weeks to come", "Something is gone", "Process times"
    chosen = choice("More", [coming, gone, process], key="week_more")
    if chosen == gone:
        change_form(plan, session.today(), loss=True)
    elif chosen == process:
        process_form(plan.case.season)
    else:
        near = week_rows(weeks.head(AHEAD))
        if not near["hours"].any():
            st.markdown(f"No kitchen work in the next {AHEAD} weeks.")
            return
        chart = hours_chart(near, "Kitchen hours: needed, and free (the line)", short=True)
        st.altair_chart(chart, width="stretch")


show()
