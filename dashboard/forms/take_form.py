"""What left the shelf: eaten, given or lost."""

from collections import Counter
from datetime import date

import streamlit as st

import model
from dashboard import session
from dashboard.forms.writing import save_button
from dashboard.units import units_of
from dashboard.words import short_day
from model import CAUSES, LOST, WHYS, Edit, Season

MOST_PRESERVES = 12
NUMBERS = (0.5, 1.0, 2.0, 3.0, 4.0, 6.0)


def take_form(season: Season) -> None:
    """Ask what was taken from the shelf, and write it down."""
    form, today = session.form(), session.today()
    there = [name for name, book in model.ledgers(season, today).items() if book.units > 0]
    if not there:
        st.markdown("By the book nothing stands on the shelf. Count what is there in the larder.")
        return
    often = Counter(taken.preserve for taken in season.record.taken)
    likely = sorted(there, key=lambda name: -often[name])
    chosen = st.pills("What was taken", likely[:MOST_PRESERVES], key=f"take_{form}")
    other = st.selectbox(
        "Another preserve", sorted(likely[MOST_PRESERVES:]), index=None, key=f"take_other_{form}"
    )
    name = other or chosen
    number = st.pills(
        "How many", NUMBERS, default=1.0, format_func=lambda n: f"{n:g}", key=f"take_n_{form}"
    )
    why = st.segmented_control("Why", WHYS, default=WHYS[0], key=f"take_why_{form}") or WHYS[0]
    cause = (
        st.selectbox("Cause", CAUSES, index=None, key=f"take_cause_{form}") if why == LOST else None
    )
    day = st.date_input("On", today, max_value=today, key=f"take_day_{form}")
    ready = name is not None and bool(number) and isinstance(day, date)
    words = ""
    if ready:
        unit = season.preserve(name).unit
        words = f"{units_of(number, unit, season.units)} of {name} {why}, on {short_day(day)}"
    cells = {
        "taken_on": f"{day}",
        "preserve": name or "",
        "jars": f"{number or 0:g}",
        "why": why,
        "cause": cause or "",
    }
    save_button(
        "take_save",
        f"Save: {words}" if ready else "Save",
        [Edit("taken.csv", cells)] if ready else [],
        f"Took {words}",
    )
