"""Every key of the session, typed; the only file that touches ``st.session_state``."""

from dataclasses import dataclass
from datetime import date

import streamlit as st

from model import Season


@dataclass(frozen=True)
class Notes:
    """The notes in use: where they come from, and the season read from them."""

    name: str
    season: Season
    uploaded: bool


def notes() -> Notes | None:
    """Give the notes in use."""
    found = st.session_state.get("notes")
    return found if isinstance(found, Notes) else None


def use_notes(chosen: Notes) -> None:
    """Take notes into use, and look at them on their own day."""
    st.session_state["notes"] = chosen
    st.session_state["today"] = chosen.season.notes_date or date.today()  # noqa: DTZ011
    st.session_state.pop("day_picked", None)


def today() -> date:
    """Give the day the plan is looked at from."""
    chosen = st.session_state.get("today")
    return chosen if isinstance(chosen, date) else date.today()  # noqa: DTZ011


def look_from(day: date) -> None:
    """Look at the plan from another day."""
    st.session_state["today"] = day
