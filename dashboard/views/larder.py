"""Larder: what stands where, what to eat first, the count, and what went wrong."""

from datetime import date
from functools import partial

import pandas as pd
import streamlit as st

import model
from dashboard import place, session
from dashboard.cached import kept, table_of
from dashboard.charts.strips_chart import share_strips
from dashboard.forms.chilled_form import chilled_form
from dashboard.forms.count_form import count_form
from dashboard.forms.incident_form import incident_form
from dashboard.forms.label_form import label_form
from dashboard.forms.looked_form import looked_form
from dashboard.forms.risk_form import risk_form
from dashboard.forms.writing import last_written
from dashboard.look import choice, kept_table, picture, printed, table
from dashboard.paper.cupboard_list import cupboard_list
from dashboard.record_findings import larder_headline, likely_eaten
from dashboard.record_tables import eat_first_rows, place_rows
from dashboard.store_rows import store_air, store_rows
from dashboard.strips import ROOM, limit_strips, room_finding
from dashboard.tables import limit_rows
from dashboard.units import units_of
from dashboard.words import capital, day, in_own_days, listed, local
from dashboard.working_behind import working_behind
from dashboard.workings import of_books, of_places, of_spoiling
from model import PlannedSeason, Season

FIRST, WHERE, COUNT, WRONG = "Eat first", "What stands where", "Count", "Something went wrong"
STORES, FULL, HURT, LABELS = "Root stores", "How full", "What could hurt us", "Labels"
LEFT = "what stands there " + model.HEADINGS["standing_units"].meaning


def show() -> None:
    """Show the page."""
    plan = place.opened("What stands in the larder, and what to eat first", stock=True)
    last_written()
    season, today = plan.case.season, session.today()
    first = table_of(plan, model.eat_first_table)
    first["why_first"] = first["why_first"].map(in_own_days)
    told = kept(
        plan,
        "the headline of the larder",
        lambda: larder_headline(season, first, today, plan.case.unseen_since),
    )
    place.answer(told, place.WINTER, "will it last until the new crop?")
    parts = [FIRST, WHERE, STORES, FULL, HURT, COUNT, LABELS, WRONG]
    chosen = choice("What", parts, key="larder_what")
    if chosen == FIRST:
        _eat_first(plan, first, today)
    elif chosen == WHERE:
        table(place_rows(season, plan.case.books), "content", key="where")
        st.caption(
            "What was eaten and not written down is still in the book: a count takes it out."
        )
        working_behind(of_books(plan, plan.case.forecast.year.name), "books")
    elif chosen == STORES:
        _stores(season, model.stores_table(plan))
    elif chosen == FULL:
        _fullness(plan, season.units)
    elif chosen == HURT:
        _dangers(season, model.danger_table(plan, first))
    elif chosen == COUNT:
        count_form(season, plan.case.books)
    elif chosen == LABELS:
        label_form(season, today)
    else:
        incident_form(season, plan.case.books)


def _eat_first(plan: PlannedSeason, first: pd.DataFrame, today: date) -> None:
    """Show what to eat first, and by itself what has to be looked at before it is taken."""
    season = plan.case.season
    eaten = likely_eaten(season, plan.case.books, first)
    if eaten:
        st.markdown(
            local(
                f"**Likely eaten, though the book still has it**: {listed(eaten, len(eaten))}. So "
                "long after somebody saw it, it is no longer counted on: look, and count it."
            )
        )
    if first.empty:
        if not eaten:
            st.markdown("By the book nothing stands there. Count what is there.")
        return
    for words, rows in first.groupby("before_taking"):
        if words:
            st.markdown(f"**{model.HEADINGS['before_taking'].words}: {words}**")
        own = partial(eat_first_rows, rows, season.units)
        kept_table(plan, own, f"eat first, {words}")
        if rows["condition"].eq(model.LOOK).any():
            looked_form(season, today)
    chilled_form(season, today)
    st.caption(
        "By condition, then by how long it still keeps, then by age. Look, tilt and smell "
        "before opening, only ever to reject a jar: nothing here says that one is safe. Likely "
        f"left is {LEFT}."
    )
    working_behind(of_spoiling(plan, first), "spoils")
    printed("the list for the cupboard's door", cupboard_list, season, first, today, eaten)


def _stores(season: Season, stores: pd.DataFrame) -> None:
    """Show how long what lies in each root store keeps, and what stands against it."""
    if stores.empty:
        st.markdown("The notes keep nothing in a root store.")
        return
    due = stores["sort_on"].dropna()
    if len(due):
        st.markdown(f"Sort next on **{day(due.min())}**: take out what rots or sprouts.")
    for name, own in stores.groupby("place", sort=False):
        st.subheader(f"{capital(local(name))}: {store_air(season, name)}")
        table(store_rows(own, season.units))
    st.caption(
        "By the weeks that the notes give, else by published store lives. In air that suits a crop "
        "those are given from low to high; in any other, or where the room is too warm to be a "
        "store, only the low end is: that is a judgement. Store only sound ones, and look at them "
        "each month, because rot spreads."
    )


def _dangers(season: Season, dangers: pd.DataFrame) -> None:
    """Show what on these shelves needs a second look before it is eaten, the worst first."""
    risk_form(season)
    if dangers.empty:
        st.markdown("Nothing of a kind known to be dangerous stands there by the book.")
    for (danger, why, to_do, source), own in dangers.groupby(
        ["danger", "danger_why", "what_to_do", "danger_source"], sort=False
    ):
        names = [
            f"{row.preserve} ({units_of(row.standing_units, row.unit, season.units)})"
            for row in own.itertuples()
        ]
        with st.container(border=True):
            st.markdown(
                f"**{local(danger[0].upper() + danger[1:])}**: {local(listed(names, len(names)))}"
            )
            st.markdown(f"{why} {to_do}")
            st.caption(source)
    st.caption(
        "What is not listed here is not called safe: look at every jar before it is opened. Told "
        "is what stands there by the book: what was eaten and not written down is still in it."
    )


def _fullness(plan: PlannedSeason, units: str) -> None:
    """Show how full each place gets, and when."""
    limits = table_of(plan, model.limit_table)
    room = limit_strips(limits, ROOM)
    if room.empty:
        st.markdown("The notes name no shelf, freezer or store.")
        return
    finding = room_finding(limits, ROOM, "place")
    told = limit_rows(limits[limits["kind"].isin(ROOM)], units)
    picture(share_strips(room, finding), told, "room")
    working_behind(of_places(plan), "places")
    st.caption(
        "By the plan of an ordinary year; the words name the fullest week. Jars stand one tier "
        "high, or two with a board between: never three."
    )


show()
