"""What was written, by whom and when, with what stood there before; the way to take it back."""

import streamlit as st

from dashboard import kept, session
from dashboard.entries import changed_cells, entry_told, in_sheets
from dashboard.forms.writing import take_back
from dashboard.look import fold
from dashboard.plain import plain
from dashboard.words import day
from model import Line

MOST_CHANGES = 40
MOST_LINES, MOST_LETTERS = 30, 60


def history_form() -> None:
    """List the newest changes of the household in use."""
    notes = session.notes()
    if notes is None:
        return
    zone = notes.season.zone
    for change in kept.store().changes(notes.household.household_id, MOST_CHANGES):
        at = change.at.astimezone(zone)
        by = f" · {change.by}" if change.by else ""
        state = " · taken back" if change.undone else ""
        told = f"{day(at)} {at:%H:%M}{by}{state} · {_short(change.words)}"
        with fold(plain(told), f"change_{change.change_id}") as is_open:
            st.text(change.words)
            if not is_open:
                continue
            told = kept.store().lines(change.change_id)
            for line in told[:MOST_LINES]:
                st.text(line_words(line))
            if len(told) > MOST_LINES:
                st.text(f"... and {len(told) - MOST_LINES} rows more")
            if not change.undone:
                st.button(
                    "Take this back",
                    key=f"undo_{change.change_id}",
                    icon=":material/undo:",
                    on_click=take_back,
                    args=(change.change_id, change.words),
                )


def _short(words: str) -> str:
    return words if len(words) <= MOST_LETTERS else f"{words[:MOST_LETTERS].rstrip()}..."


def line_words(line: Line) -> str:
    """Say what a change did to one row."""
    sheet = in_sheets(line.file)
    if line.after is None:
        return f"{sheet}, taken out: {entry_told(line.before or {})}"
    if line.before is None:
        return f"{sheet}: {entry_told(line.after)}"
    now = entry_told(changed_cells(line.before, line.after))
    return f"{sheet}: {entry_told(line.before)}\n  now {now}"
