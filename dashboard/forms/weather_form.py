"""Own weather: a file of daily temperatures gives the garden's own frost odds and warmth."""

import streamlit as st

import model
from dashboard import kept, session
from dashboard.look import faults
from dashboard.words import count
from model import PlanningError


def weather_form(notes: session.Notes) -> None:
    """Let a weather file be brought in; say what it would change, and keep it when asked."""
    st.caption(
        "A daily file of the nearest station in the GHCN-Daily CSV form, or your own with the "
        "columns date, min_c and max_c (or min_f and max_f). It replaces the frost dates by your "
        "own odds, and the warmth by which crops ripen."
    )
    file = st.file_uploader("Daily temperatures (CSV)", type="csv", key="own_weather")
    if file is None:
        return
    number = notes.household.household_id
    try:
        changed = model.with_weather(kept.store().tables(number), file.getvalue(), file.name)
        model.season_from_tables(changed.tables)
    except PlanningError as error:
        faults(error, "The weather in use stays as it was.")
        return
    st.success(f"Read {count(changed.days, 'day')} of {count(changed.years, 'year')}.")
    for words in changed.words:
        st.markdown(f"- {words}")
    if st.button("Use this weather", key="use_weather", type="primary", width="stretch"):
        signed = kept.author(f"Own weather from {file.name}", session.writer())
        try:
            kept.store().replace(number, signed, changed.tables)
        except PlanningError as error:
            faults(error, "Nothing was changed.")
            return
        st.rerun()
