"""Notes in and out: take them along, bring others in, own weather, copies of the store."""

from collections.abc import Callable
from functools import partial
from pathlib import Path

import streamlit as st

import model
from dashboard import kept, place, session
from dashboard.cached import known_plan
from dashboard.forms.bring_form import bring_form
from dashboard.forms.weather_form import weather_form
from dashboard.look import choice, done
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


def show() -> None:
    """Show the page."""
    place.headed("Notes in and out")
    notes = session.notes()
    if notes is None:
        return
    chosen = choice("What", [OUT, IN, WEATHER, COPIES], key="notes_what")
    if chosen == OUT:
        _out(notes)
    elif chosen == IN:
        bring_form(notes.household.household_id)
    elif chosen == WEATHER:
        weather_form(notes)
    else:
        _copies()


def _out(notes: session.Notes) -> None:
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


def _copies() -> None:
    st.markdown("A copy holds every household, with all that was ever written.")
    st.text(f"The store lies at {kept.store().path}")
    if st.button("Make a copy now", key="copy", type="primary", width="stretch"):
        done(
            lambda: st.success(f"Copied: {kept.store().back_up(kept.now()).name}"),
            "Nothing was changed.",
        )
    copies = kept.store().copies()
    if not copies:
        st.caption("There is no copy yet.")
        return
    chosen = st.selectbox("Copies", copies, format_func=lambda copy: Path(copy).stem, key="copies")
    st.caption("Bringing one back copies what is there now first, so that this can be undone too.")
    if st.button("Bring this copy back", key="bring_back", width="stretch"):
        done(lambda: st.success(f"Brought back. {_brought(chosen)}"), "Nothing was changed.")


def _brought(copy: Path) -> str:
    before = kept.bring_back(copy)
    return f"What was there before is kept as {before.stem}." if before else ""


show()
