"""Notes in and out: take them along, bring others in, own weather, copies of the store."""

from collections.abc import Callable
from pathlib import Path

import streamlit as st

import model
from dashboard import kept, place, session
from dashboard.cached import known_plan
from dashboard.forms.bring_form import bring_form
from dashboard.forms.weather_form import weather_form
from dashboard.look import choice, faults
from model import PlanningError

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
    st.download_button(
        "All tables, as a zip of CSV files",
        lambda: model.csv_zip(kept.store().tables(number)),
        f"{name}.zip",
        "application/zip",
        key="out_zip",
        width="stretch",
    )
    st.download_button(
        "All tables, as one workbook (.xlsx)",
        lambda: model.workbook(kept.store().tables(number)),
        f"{name}.xlsx",
        "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet",
        key="out_xlsx",
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


def _copies() -> None:
    st.markdown("A copy holds every household, with all that was ever written.")
    st.text(f"The store lies at {kept.store().path}")
    if st.button("Make a copy now", key="copy", type="primary", width="stretch"):
        _tried(lambda: st.success(f"Copied: {kept.store().back_up(kept.now()).name}"))
    copies = kept.store().copies()
    if not copies:
        st.caption("There is no copy yet.")
        return
    chosen = st.selectbox("Copies", copies, format_func=lambda copy: Path(copy).stem, key="copies")
    st.caption("Bringing one back copies what is there now first, so that this can be undone too.")
    if st.button("Bring this copy back", key="bring_back", width="stretch"):
        _tried(lambda: st.success(f"Brought back. {_brought(chosen)}"))


def _brought(copy: Path) -> str:
    before = kept.bring_back(copy)
    return f"What was there before is kept as {before.stem}." if before else ""


def _tried(do: Callable[[], object]) -> None:
    try:
        do()
    except PlanningError as error:
        faults(error, "Nothing was changed.")


show()
