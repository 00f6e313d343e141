"""Entries as a table: corrected, dated back, taken out, or typed in from paper."""

from collections.abc import Callable, Mapping

import pandas as pd
import streamlit as st

import model
from dashboard import session
from dashboard.forms.edited import edits_between
from dashboard.forms.mend_form import mend_form
from dashboard.forms.weighed import weighed_anew
from dashboard.forms.writing import save_button, stored_rows
from dashboard.look import choice

MOST_ROWS = 200
ONE, ALL = "One entry", "All of them in a table"


def correct_form(tables: Mapping[str, str], key: str) -> None:
    """Let one entry be mended, or the newest entries of a table at once and new ones added.

    ``tables`` gives the files to choose from by their names; ``key`` names the form.
    """
    chosen = st.selectbox("Entries", list(tables), key=f"{key}_table")
    file = tables[chosen]
    if choice("How", [ONE, ALL], key=f"{key}_how") == ONE:
        mend_form(chosen, file, newest_rows(file), "Which entry (newest up to today first)")
    else:
        st.caption(
            f"The newest {MOST_ROWS} at most, the newest first; dates as 2027-08-16. The last row "
            "is empty for new entries."
        )
        correct_table(chosen, file)
    st.caption("What stood there before stays readable under *What was written*.")


def correct_table(words: str, file: str, among: Callable[[Mapping[str, str]], bool] = bool) -> None:
    """Let the newest rows of a table be changed, of those that are ``among`` the ones asked for."""
    newest = newest_rows(file, among)
    meant = model.table_headings(file)
    headings = [*meant, *(name for _, cells in newest for name in cells if name not in meant)]
    frame = pd.DataFrame(
        [[cells.get(name, "") for name in dict.fromkeys(headings)] for _, cells in newest],
        columns=list(dict.fromkeys(headings)),
        dtype="string",
    )
    edited = st.data_editor(
        frame,
        hide_index=True,
        num_rows="dynamic",
        width="stretch",
        key=f"correct_{file}_{session.form()}",
        column_config={
            name: st.column_config.TextColumn(name.replace("_", " "), help=meant.get(name))
            for name in frame
        },
    )
    edits, notes = edits_between(file, newest, edited), session.notes()
    if notes:
        edits = weighed_anew(notes.season, edits, dict(newest))
    save_button(
        "correct_save",
        f"Save {len(edits)} changed" if edits else "Save",
        edits,
        f"{words}: {len(edits)} corrected or added",
        missing="Nothing was changed.",
    )


def newest_rows(
    file: str, among: Callable[[Mapping[str, str]], bool] = bool
) -> list[tuple[int, Mapping[str, str]]]:
    """Give the rows of a table with their numbers, the one written last first."""
    rows = [(row_id, cells) for row_id, cells in stored_rows(file).items() if among(cells)]
    return rows[: -MOST_ROWS - 1 : -1]
