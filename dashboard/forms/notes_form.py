"""Which household's notes, and the day from which they are looked at."""

from datetime import date

import streamlit as st

import model
from dashboard import session
from dashboard.cached import DEMOS, demo_season
from dashboard.words import day
from model import SeasonProblems

OWN = "My own"
MOST_FAULTS = 40
SEASONS = {
    "Spring": date(2027, 3, 15),
    "Glut": date(2027, 8, 16),
    "Midwinter": date(2028, 1, 10),
}


def notes_form() -> None:
    """Let the household be chosen, or its own notes be read, and the day be set."""
    if session.notes() is None:
        first = next(iter(DEMOS))
        session.use_notes(session.Notes(first, demo_season(first), uploaded=False))
    chosen = st.radio("Household", [*DEMOS, OWN], key="household", horizontal=True)
    if chosen == OWN:
        _upload()
    else:
        current = session.notes()
        if current is None or current.name != chosen or current.uploaded:
            session.use_notes(session.Notes(chosen, demo_season(chosen), uploaded=False))
    _day()


def _upload() -> None:
    st.caption(
        "A zip of the season's CSV tables. The columns are in the project's README; "
        "the two invented households are examples. Nothing leaves this machine."
    )
    file = st.file_uploader("Your notes (zip)", type="zip", key="own_notes")
    if file is None:
        return
    current = session.notes()
    if current is not None and current.uploaded and current.name == file.name:
        return
    try:
        season = model.season_from_zip(file.getvalue(), file.name)
    except SeasonProblems as error:
        st.error(f"{len(error.problems)} faults; the notes in use stay as they were.")
        for problem in error.problems[:MOST_FAULTS]:
            st.text(f"{problem.where}\n  {problem.found}\n  {problem.wanted}")
        if len(error.problems) > MOST_FAULTS:
            st.text(f"... and {len(error.problems) - MOST_FAULTS} more")
        return
    session.use_notes(session.Notes(file.name, season, uploaded=True))


def _day() -> None:
    notes = session.notes()
    if notes is None:
        return
    season = notes.season
    if season.invented:
        st.info(f"{season.household} is an invented household.", icon=":material/info:")
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
            if st.button(f"{words}: {day(when)}", key=f"from_{words}", width="stretch"):
                session.look_from(when)
                st.rerun()
