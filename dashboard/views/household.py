"""Notes in and out: take them along, bring others in, own weather, copies of the store."""

from collections.abc import Callable
from functools import partial

import streamlit as st

import model
from dashboard import kept, place, session
from dashboard.cached import known_plan
from dashboard.entries import NOTES
from dashboard.forms.bring_form import bring_form
from dashboard.forms.copies_form import copies_form
from dashboard.forms.correct_form import correct_form
from dashboard.forms.guess_form import guess_form
from dashboard.forms.how_we_write_form import how_we_write_form
from dashboard.forms.judgement_form import judgement_form
from dashboard.forms.weather_form import weather_form
from dashboard.forms.writing import last_written
from dashboard.kept import Notes
from dashboard.look import choice
from dashboard.working_behind import GUESSES, JUDGEMENTS, PART, SETTING
from model import SeasonTables

OUT_AS = (
    ("zip", "a zip of CSV files", "application/zip", model.csv_zip),
    (
        "xlsx",
        "one workbook (.xlsx)",
        "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet",
        model.workbook,
    ),
)
OUT, IN, WEATHER, COPIES = "Take along", "Bring in", "Own weather", "Copies"
HAVE = "Change the notes"
WRITE = "How we write"


def show() -> None:
    """Show the page."""
    place.headed("Notes in and out")
    notes = session.notes()
    if notes is None:
        return
    parts = [OUT, IN, HAVE, GUESSES, JUDGEMENTS, WRITE, WEATHER, COPIES]
    asked = st.query_params.get(PART, "")
    chosen = choice("What", parts, "notes_what", asked if asked in parts else "")
    if chosen == OUT:
        _out(notes)
    elif chosen == IN:
        bring_form(notes.household.household_id)
    elif chosen == HAVE:
        last_written()
        st.markdown(
            "Beds, plantings, people, foods, preserves, jars, places, hours: put any right."
        )
        correct_form(NOTES, "change")
    elif chosen == WRITE:
        last_written()
        how_we_write_form(notes)
    elif chosen == WEATHER:
        weather_form(notes)
    elif chosen == GUESSES:
        last_written()
        guess_form(notes.guesses)
    elif chosen == JUDGEMENTS:
        last_written()
        judgement_form(notes.season, st.query_params.get(SETTING, ""))
    else:
        copies_form()


def _out(notes: Notes) -> None:
    number, name = notes.household.household_id, notes.name
    st.markdown("Everything that was written down, as it stands now.")
    for ending, words, mime, made in OUT_AS:
        st.download_button(
            f"All tables, as {words}",
            partial(_all_tables, made, number),
            f"{name}.{ending}",
            mime,
            key=f"out_{ending}",
            width="stretch",
        )
    plan = known_plan(session.seasons(), session.today())
    if plan is None:
        st.caption("The tasks for a calendar can be taken along once a page has made the plan.")
        return
    st.download_button(
        "The tasks to come, for a calendar (.ics)",
        lambda: model.tasks_calendar(plan),
        f"{name}.ics",
        "text/calendar",
        key="out_ics",
        width="stretch",
    )


def _all_tables(made: Callable[[SeasonTables], bytes], household: int) -> bytes:
    return made(kept.store().tables(household))


show()
