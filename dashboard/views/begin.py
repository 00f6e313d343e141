"""The beginning: look round an invented household, or begin with one's own."""

from functools import partial

import streamlit as st

from dashboard import kept, session
from dashboard.forms.begin_form import begin_form
from dashboard.forms.begun_form import begun_form
from dashboard.forms.bring_form import bring_form
from dashboard.look import choice, done

LOOK, OWN, BRING = "Look round first", "Begin our own", "Bring our notes in"


def show() -> None:
    """Show the page."""
    notes = session.notes()
    if notes is not None and session.newly_begun():
        begun_form(notes.season, notes.guesses)
        return
    st.title("From the garden to the larder: how much, when, and will it last?")
    st.markdown(
        "Say what you grow and how you eat; the plan says how much to plant, how many jars to "
        "fill and when, and how long they last. Everything stays on this machine."
    )
    if notes is not None:
        st.button("Back", key="back", on_click=session.begin_another, kwargs={"really": False})
    chosen = choice("How", [LOOK, OWN, BRING], key="begin_how")
    if chosen == LOOK:
        _demos()
    elif chosen == OWN:
        begin_form()
    else:
        bring_form(None)


def _demos() -> None:
    st.markdown(
        "Two invented households, to try everything on: **Alder Lane** has a boiling-water canner "
        "and metric scales in the northern hills; **Two Rivers** has a pressure canner and US "
        "units in the southern half of the world."
    )
    for name in kept.DEMOS:
        chosen = st.button(f"Look round {name} (invented)", key=f"demo_{name}", width="stretch")
        if chosen and done(partial(_look_round, name), f"{name} could not be opened."):
            st.rerun()


def _look_round(name: str) -> None:
    known = {one.name: one.household_id for one in kept.households()}
    session.use_household(known.get(name) or kept.begin_demo(name))


show()
