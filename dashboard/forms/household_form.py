"""Which of the kept households is looked at, and from which day."""

from datetime import date

import streamlit as st

from dashboard import session
from dashboard.forms.guess_form import guesses_told
from dashboard.kept import Notes
from dashboard.words import day, typed_day

# Days worth looking from at the invented households, north and south.
DEMO_DAYS = (
    {"Spring": date(2027, 3, 15), "Glut": date(2027, 8, 16), "Midwinter": date(2028, 1, 10)},
    {"Spring": date(2026, 10, 12), "Glut": date(2027, 2, 15)},
)


def household_form() -> None:
    """Let the household be chosen, another be begun, and the day be set."""
    notes = session.notes()
    if notes is None:
        return
    by_name = {one.name: one.household_id for one in notes.every}
    chosen = st.selectbox(
        "Household",
        list(by_name),
        index=list(by_name).index(notes.name),
        key=f"household_{len(by_name)}_{notes.household.household_id}",
    )
    if chosen is not None and chosen != notes.name:
        session.use_household(by_name[chosen])
        st.rerun()
    _day(notes)
    if st.button(
        "Notes in and out", key="to_notes", icon=":material/description:", width="stretch"
    ):
        st.switch_page("views/household.py")
    if guessed := guesses_told(notes.guesses):
        st.caption(f"{guessed}: they stand under *Notes in and out*, *Guesses*.")
    st.button(
        "Another household",
        key="another",
        icon=":material/add_home:",
        width="stretch",
        on_click=session.begin_another,
    )


def _day(notes: Notes) -> None:
    season = notes.season
    first = season.garden_seasons[0].begins
    last = season.garden_seasons[-1].ends
    picked = st.date_input(
        "Plan as of",
        value=min(max(session.today(), first), last),
        min_value=first,
        max_value=last,
        format=typed_day(),
        key=f"day_{notes.household.household_id}_{session.today()}",
    )
    if isinstance(picked, date) and picked != session.today():
        session.look_from(picked)
    if not season.invented:
        return
    inside = (days for days in DEMO_DAYS if all(first <= when <= last for when in days.values()))
    for words, when in next(inside, {}).items():
        st.button(
            f"{words}: {day(when)}",
            key=f"from_{words}",
            width="stretch",
            on_click=session.look_from,
            args=(when,),
        )
