"""Notes brought in as one zip or workbook: read, planned once, and only then kept."""

from collections.abc import Callable

import streamlit as st

from dashboard import kept, session
from dashboard.cached import planned, read_file
from dashboard.look import done, faults
from dashboard.words import count
from model import PlanningError, Season, SeasonTables


def bring_form(household: int | None) -> None:
    """Let a file be brought in, as a new household or in the place of one."""
    st.caption(
        "A zip of the season's CSV tables, or a workbook (.xlsx) with a sheet for each. The "
        "columns are in the project's README; take out an invented household's notes as an "
        "example. Nothing leaves this machine."
    )
    file = st.file_uploader("Your notes", type=["zip", "xlsx"], key="own_notes")
    if file is None:
        return
    read = _read(file.name, file.getvalue())
    if read is None:
        return
    tables, season = read
    plantings = count(len(season.plantings), "planting")
    st.success(f"Read: {season.household}, {plantings}, {count(len(season.preserves), 'preserve')}")
    if st.button(
        "Keep as a household of its own", key="bring_new", type="primary", width="stretch"
    ):
        _kept(lambda: session.use_household(kept.begin(tables, f"Brought in {file.name}")))
    if household is not None and st.button(
        "Replace the notes in use", key="bring_here", width="stretch"
    ):
        signed = kept.author(f"Brought in {file.name}", session.writer())
        _kept(lambda: kept.store().replace(household, signed, tables))


def _read(name: str, content: bytes) -> tuple[SeasonTables, Season] | None:
    """Read notes and plan them once; None, with every fault listed, if that cannot be done."""
    try:
        read = read_file(name, content)
        if isinstance(read, PlanningError):
            raise read
        planned((read[1],), session.first_day(read[1]))
    except PlanningError as error:
        faults(error, "The notes in use stay as they were.")
        return None
    return read


def _kept(write: Callable[[], object]) -> None:
    if done(write, "Nothing was written."):
        session.begin_another(really=False)
        st.rerun()
