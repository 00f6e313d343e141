"""One entry mended by thumb: chosen from a list, its cells one below the other, or taken out."""

from collections.abc import Mapping, Sequence
from datetime import date, datetime

import pandas as pd
import streamlit as st

import model
from dashboard import session
from dashboard.doubts import edit_doubt
from dashboard.entries import changed_cells, day_in, entry_told, moment_in
from dashboard.forms.edited import edits_between
from dashboard.forms.put_up_form import moment_text
from dashboard.forms.weighed import weighed_anew
from dashboard.forms.writing import IS_RIGHT, save, save_button, sure
from dashboard.look import fold
from dashboard.words import capital, typed_day

MOST_LETTERS = 200


def mend_form(
    words: str, file: str, newest: Sequence[tuple[int, Mapping[str, str]]], which: str = "Which"
) -> None:
    """Ask ``which`` of the newest entries, and for what its cells are to be."""
    if not newest:
        st.markdown("Nothing is written there yet.")
        return
    form, stored = session.form(), dict(sorted(newest, key=_is_to_come))
    # told now: the chooser asks again once the page has run, and then in no form of dates
    lines = {row: entry_told(cells) for row, cells in stored.items()}
    chosen = st.selectbox(
        which, list(stored), format_func=lines.__getitem__, key=f"mend_which_{file}"
    )
    cells = {name: cell for name, cell in stored[chosen].items() if cell}
    key = f"{file}_{chosen}_{form}"
    means = model.table_headings(file)
    mended = {
        name: _asked(name, cell, means.get(name), f"mend_{name}_{key}")
        for name, cell in cells.items()
    }
    empty = [name for name in stored[chosen] if name not in cells]
    if empty:
        with fold("Cells that are empty", f"mend_empty_{key}") as is_open:
            if is_open:
                mended |= {
                    name: _asked(name, "", means.get(name), f"mend_{name}_{key}") for name in empty
                }
    before = [(chosen, stored[chosen])]
    told = f"{words}: {entry_told(stored[chosen])}"
    edits = edits_between(file, before, pd.DataFrame([mended]))
    notes = session.notes()
    if notes and edits:
        edits = weighed_anew(notes.season, edits, stored)
        mended = dict(edits[0].cells or mended)
    doubt = edit_doubt(notes.season, edits[0], session.today()) if notes and edits else ""
    known = sure(doubt, "mend_sure")
    save_button(
        "mend_save",
        "Save the change",
        edits if known else [],
        f"{told}; now {entry_told(changed_cells(stored[chosen], mended))}",
        missing=IS_RIGHT if edits else "Nothing was changed.",
    )
    out = edits_between(file, before, pd.DataFrame(index=[]))
    if st.button("Take this entry out", key=f"mend_out_{form}", width="stretch"):
        save(out, f"Taken out: {told}", session.operation())
        st.rerun()


def _is_to_come(entry: tuple[int, Mapping[str, str]]) -> bool:
    """Say whether an entry is of a day after the one looked from: those are seldom looked for."""
    days = map(day_in, entry[1].values())
    return any(found > session.today() for found in days if found is not None)


def _asked(name: str, cell: str, meant: str | None, key: str) -> str:
    """Ask for one cell: for a day with a calendar, for a moment with a clock as well."""
    label, found = capital(name.replace("_", " ")), day_in(cell)
    moment = moment_in(cell)
    if moment is not None:
        return _asked_moment(label, cell, moment, meant, key)
    if found is None:
        return st.text_input(label, cell, max_chars=MOST_LETTERS, key=key, help=meant).strip()
    asked = st.date_input(label, found, format=typed_day(), key=key, help=meant)
    return asked.isoformat() if isinstance(asked, date) else cell


def _asked_moment(label: str, cell: str, moment: datetime, meant: str | None, key: str) -> str:
    notes = session.notes()
    at, on = st.columns(2)
    with at:
        clock = st.time_input(label, moment.time(), step=60, key=f"{key}_clock", help=meant)
    with on:
        asked = st.date_input("On", moment.date(), format=typed_day(), key=f"{key}_day")
    same = (clock, asked) == (moment.time(), moment.date())
    if same or notes is None or not isinstance(asked, date):
        return cell
    return moment_text(asked, clock, notes.season.zone)
