"""Write down: what was picked, put up, sealed, taken; in few taps, and mended later."""

import pandas as pd
import streamlit as st

import model
from dashboard import place, session
from dashboard.cached import known_plan
from dashboard.entries import RECORD
from dashboard.forms.correct_form import correct_form
from dashboard.forms.history_form import history_form
from dashboard.forms.paper_form import paper_form
from dashboard.forms.pick_form import pick_form
from dashboard.forms.put_up_form import put_up_form
from dashboard.forms.seal_form import seal_form
from dashboard.forms.sown_form import sown_form
from dashboard.forms.take_form import take_form
from dashboard.forms.writing import last_written
from dashboard.look import choice
from dashboard.record_findings import log_headline

PICKED, PUT_UP, SEALED, TAKEN, SOWN = "Picked", "Put up", "Sealed", "Taken", "Sown"
PAPER, MEND, WRITTEN = "From paper", "Correct or add", "What was written"


def show() -> None:
    """Show the page."""
    season = place.headed("Write down").season
    last_written()
    waiting = model.unconfirmed(season, session.today())
    due = len(model.seals_to_look_at(season, session.moment(), season.zone))
    headline = log_headline(season, due, len(waiting) - due, session.today())
    place.answer(headline, place.WEEK, "what that leaves to do this week")
    told = {SEALED: f"{SEALED} ({due} to look at)"} if due else {}
    parts = [PICKED, PUT_UP, SEALED, TAKEN, SOWN, PAPER, MEND, WRITTEN]
    opens = {place.SEALS: SEALED, place.SOWN: SOWN}
    asked = opens.get(st.query_params.get(place.ASKED, ""), PICKED)
    chosen = choice("What", parts, key="log_what", usual=asked, told=told)
    if chosen == PICKED:
        pick_form(season)
    elif chosen == PUT_UP:
        put_up_form(season, *_meant())
    elif chosen == SEALED:
        seal_form(season, waiting)
    elif chosen == TAKEN:
        take_form(season)
    elif chosen == SOWN:
        sown_form(season)
    elif chosen == PAPER:
        paper_form(season)
    elif chosen == MEND:
        correct_form(RECORD, "correct")
    else:
        history_form()
    st.text_input("Who writes", key="writer_name", max_chars=40, on_change=session.sign)


def _meant() -> tuple[list[str], pd.DataFrame | None]:
    """Give what the plan puts up this week, and the jars to fill, if it has been made already."""
    plan = known_plan(session.seasons(), session.today())
    if plan is None:
        return [], None
    batches = model.batch_table(plan)
    this = list(batches[batches["week"] == plan.case.weeks.monday(0)]["preserve"])
    return this, model.fill_table(plan)


show()
