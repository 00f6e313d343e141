"""Which household's notes, and the day from which they are looked at."""

import hashlib
from datetime import date

import streamlit as st

import model
from dashboard import session
from dashboard.cached import DEMOS, demo_season, planned
from dashboard.look import faults
from dashboard.words import count, day
from model import PlanningError

OWN = "My own"
SEASONS = {
    "Spring": date(2027, 3, 15),
    "Glut": date(2027, 8, 16),
    "Midwinter": date(2028, 1, 10),
}


def notes_form() -> None:
    """Let the household be chosen, or its own notes be read, and the day be set."""
    if session.notes() is None:
        first = next(iter(DEMOS))
        session.use_notes(session.Notes(first, demo_season(first)))
    chosen = st.radio("Household", [*DEMOS, OWN], key="household", horizontal=True)
    if chosen == OWN:
        _upload()
    else:
        current = session.notes()
        if current is None or current.name != chosen or current.uploaded:
            session.use_notes(session.Notes(chosen, demo_season(chosen)))
    _day()


def _upload() -> None:
    st.caption(
        "A zip of the season's CSV tables. The columns are in the project's README; "
        "the two invented households are examples. Nothing leaves this machine."
    )
    file = st.file_uploader("Your notes (zip)", type="zip", key="own_notes")
    content = file.getvalue() if file else None
    brought = session.own_notes()
    if content is not None and (brought is None or brought.digest != _digest(content)):
        brought = _read(file.name, content)
    if brought is None:
        shown = session.notes()
        st.caption(
            f"Until they are read, the pages show {shown.season.household}." if shown else ""
        )
        return
    if session.notes() != brought:
        session.use_notes(brought)
    season = brought.season
    plantings = count(len(season.plantings), "planting")
    st.success(f"Read: {season.household}, {plantings}, {count(len(season.preserves), 'preserve')}")


def _digest(content: bytes) -> str:
    return hashlib.sha256(content).hexdigest()


def _read(name: str, content: bytes) -> session.Notes | None:
    """Read notes and plan them once; None, with every fault listed, if that cannot be done."""
    try:
        season = model.season_from_zip(content, name)
        planned((season,), session.first_day(season))
    except PlanningError as error:
        faults(error, "The notes in use stay as they were.")
        return None
    return session.Notes(name, season, _digest(content))


def _day() -> None:
    notes = session.notes()
    if notes is None:
        return
    season = notes.season
    first = season.garden_seasons[0].begins
    last = season.garden_seasons[-1].ends
    picked = st.date_input(
        "Looked at from",
        value=min(max(session.today(), first), last),
        min_value=first,
        max_value=last,
        format="YYYY-MM-DD",
        key=f"day_{notes.name}_{session.today()}",
    )
    if isinstance(picked, date) and picked != session.today():
        session.look_from(picked)
    if not notes.uploaded and notes.name == "Alder Lane":
        for words, when in SEASONS.items():
            st.button(
                f"{words}: {day(when)}",
                key=f"from_{words}",
                width="stretch",
                on_click=session.look_from,
                args=(when,),
            )
