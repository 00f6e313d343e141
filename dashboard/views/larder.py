"""Larder: what stands where, what to eat first, the count, and what went wrong."""

from contextvars import copy_context
from functools import partial

import pandas as pd
import streamlit as st

import model
from dashboard import place, session
from dashboard.charts.strips_chart import share_strips
from dashboard.forms.count_form import count_form
from dashboard.forms.incident_form import incident_form
from dashboard.forms.writing import last_written
from dashboard.look import choice, picture, table, wrapped_table
from dashboard.paper.cupboard_list import cupboard_list
from dashboard.record_findings import larder_headline
from dashboard.record_tables import eat_first_rows, place_rows
from dashboard.store_rows import store_air, store_rows
from dashboard.strips import ROOM, limit_strips, room_finding
from dashboard.words import day, local
from model import Season

FIRST, WHERE, COUNT, WRONG = "Eat first", "What stands where", "Count", "Something went wrong"
FULL, STORES = "How full", "Stores"


def show() -> None:
    """Show the page."""
    plan = place.opened("What stands in the larder, and what to eat first", stock=True)
    last_written()
    season, today = plan.case.season, session.today()
    first = model.eat_first_table(plan)
    told = larder_headline(season, first, today)
    place.answer(told, place.WINTER, "will it last until the new crop?")
    chosen = choice("What", [FIRST, WHERE, STORES, FULL, COUNT, WRONG], key="larder_what")
    if chosen == FIRST:
        if first.empty:
            st.markdown("By the book nothing stands there. Count what is there.")
        else:
            wrapped_table(eat_first_rows(first, season.units))
            st.caption(
                "By condition, then by how long it still keeps, then by age. Look, tilt and smell "
                "before opening, only ever to reject a jar: nothing here says that one is safe."
            )
            st.download_button(
                "Print the list for the cupboard's door (PDF)",
                partial(copy_context().run, cupboard_list, season, first, today),
                "cupboard list.pdf",
                "application/pdf",
                key="print_cupboard",
                icon=":material/print:",
            )
    elif chosen == WHERE:
        table(place_rows(season, plan.case.books), "content", key="where")
    elif chosen == STORES:
        _stores(season, model.stores_table(plan))
    elif chosen == FULL:
        _fullness(model.limit_table(plan))
    elif chosen == COUNT:
        count_form(season, plan.case.books)
    else:
        incident_form(season, plan.case.books)


def _stores(season: Season, stores: pd.DataFrame) -> None:
    """Show how long what lies in each root store keeps, and what stands against it."""
    if stores.empty:
        st.markdown("The notes keep nothing in a root store.")
        return
    due = stores["sort_on"].dropna()
    if len(due):
        st.markdown(f"Sort next on **{day(due.min())}**: take out what rots or sprouts.")
    for name, own in stores.groupby("place", sort=False):
        st.subheader(f"{local(name).capitalize()}: {store_air(season, name)}")
        wrapped_table(store_rows(own, season.units))
    st.caption(
        "By published store lives. In air that suits a crop they are given from low to high; in "
        "any other, or where the room is too warm to be a store, only the low end is: that is a "
        "judgement. Store only sound ones, and look at them each month, because rot spreads."
    )


def _fullness(limits: pd.DataFrame) -> None:
    """Show how full each place gets, and when."""
    room = limit_strips(limits, ROOM)
    if room.empty:
        st.markdown("The notes name no shelf, freezer or store.")
        return
    finding = room_finding(limits, ROOM, "place")
    picture(share_strips(room, finding), limits[limits["kind"].isin(ROOM)])
    st.caption(
        "By the plan of an ordinary year; the words name the fullest week. Jars stand one tier "
        "high, or two with a board between: never three."
    )


show()
