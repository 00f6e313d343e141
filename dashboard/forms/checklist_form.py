"""The checklist before a preserving day: it blocks nothing, and its ticks are kept."""

from collections.abc import Sequence

import streamlit as st

from dashboard import session
from dashboard.forms.writing import save, stored_rows
from dashboard.words import day, local
from model import Edit, Point

FILE, GAUGE = "checklist.csv", "gauge"


def checklist_form(points: Sequence[Point]) -> None:
    """Show the points to be ticked; each tick is written at once."""
    today = session.today()
    for point in points:
        since = ""
        if point.ticked_on is not None and point.ticked_on != today:
            since = f" (ticked {day(point.ticked_on)})"
        st.checkbox(
            local(point.words) + since,
            point.ticked_on is not None,
            key=f"tick_{point.item}_{session.form()}",
            on_change=_tick,
            args=(point,),
        )
    gauge = any(point.item == GAUGE for point in points)
    a_year = ", that of the gauge for a year" if gauge else ""
    sources = "; ".join(dict.fromkeys(point.source for point in points))
    st.caption(f"You can go on without ticking. A tick holds for the day{a_year}. From: {sources}.")


def _tick(point: Point) -> None:
    if point.ticked_on is None:
        cells = {"ticked_on": f"{session.today()}", "item": point.item}
        save([Edit(FILE, cells)], f"Ticked: {point.words}", session.operation())
        return
    same = {"ticked_on": f"{point.ticked_on}", "item": point.item}
    rows = stored_rows(FILE).items()
    edits = [Edit(FILE, None, line) for line, row in rows if same.items() <= row.items()]
    save(edits, f"No longer ticked: {point.words}", session.operation())
