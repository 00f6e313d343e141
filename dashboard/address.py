"""Household and day in the page's address: a phone that wakes loads the page anew from it."""

from contextlib import suppress
from datetime import date

import streamlit as st

from dashboard import session
from dashboard.kept import Notes
from dashboard.words import day as told_day

HOUSEHOLD, DAY = "household", "day"


def take_from_address() -> None:
    """Take household and day from the address, as a session opens; raises StoreError."""
    if not session.newly_opened():
        return
    household = st.query_params.get(HOUSEHOLD, "")
    if household.isdecimal():
        session.use_household(int(household))
    with suppress(ValueError):
        day = date.fromisoformat(st.query_params.get(DAY, ""))
        found = session.read_notes()
        if found is not None and found.season.garden_seasons[0].begins <= day:
            ends = found.season.garden_seasons[-1].ends
            session.look_from(min(day, ends))
            if day > ends:
                st.toast(f"These notes end on {told_day(ends)}: that day is shown.")


def keep_in_address(found: Notes) -> None:
    """Keep in the address what the page would not open with by itself."""
    day = session.today()
    kept_there = {
        HOUSEHOLD: "" if found.newest else f"{found.household.household_id}",
        DAY: f"{day}" if day != session.first_day(found.season) else "",
    }
    for name, value in kept_there.items():
        if value and st.query_params.get(name) != value:
            st.query_params[name] = value
        elif not value and name in st.query_params:
            del st.query_params[name]
