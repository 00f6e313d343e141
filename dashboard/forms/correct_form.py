"""Entries as a table: corrected, dated back, taken out, or typed in from paper."""

from collections.abc import Callable, Mapping, Sequence

import pandas as pd
import streamlit as st

import model
from dashboard import session
from dashboard.forms.writing import save, stored_rows
from model import GUESS, Edit

TABLES = {
    "Picked": "harvest_log.csv",
    "Put up": "batches.csv",
    "Seals": "seals.csv",
    "Taken": "taken.csv",
    "Counted": "stock.csv",
    "Something gone": "setbacks.csv",
    "Containers": "containers.csv",
    "Verdicts": "verdicts.csv",
    "Checklist": "checklist.csv",
}
MOST_ROWS = 200


def correct_form() -> None:
    """Show the newest entries of a table to be changed, and write what was changed as one."""
    chosen = st.selectbox("Entries", list(TABLES), key="correct_table")
    st.caption(
        f"The newest {MOST_ROWS} at most, the newest first; dates as 2027-08-16. The last row is "
        "empty for new entries. What stood there before stays readable under *What was written*."
    )
    correct_table(chosen, TABLES[chosen])


def correct_table(words: str, file: str, among: Callable[[Mapping[str, str]], bool] = bool) -> None:
    """Let the newest rows of a table be changed, of those that are ``among`` the ones asked for."""
    rows = [(row_id, cells) for row_id, cells in stored_rows(file).items() if among(cells)]
    newest = rows[: -MOST_ROWS - 1 : -1]
    headings = model.table_headings(file)
    headings += [name for _, cells in newest for name in cells if name not in headings]
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
        column_config={name: st.column_config.TextColumn(name.replace("_", " ")) for name in frame},
    )
    edits = edits_between(file, newest, edited)
    st.button(
        f"Save {len(edits)} changed" if edits else "Nothing changed",
        key=f"correct_save_{session.form()}",
        type="primary",
        disabled=not edits,
        on_click=save,
        args=(edits, f"{words}: {len(edits)} corrected or added", session.operation()),
    )


def edits_between(
    file: str, before: Sequence[tuple[int, Mapping[str, str]]], after: pd.DataFrame
) -> Sequence[Edit]:
    """Give what the rows of a table were changed to; rows beyond those there were are new.

    A row that was changed is no guess any more.
    """
    edits = []
    for place, row in zip(after.index, after.to_dict("records"), strict=True):
        cells = {str(k): str(v).strip() for k, v in row.items() if pd.notna(v) and str(v).strip()}
        known = int(place) < len(before)
        row_id, was = before[int(place)] if known else (None, {})
        if cells != {name: cell for name, cell in was.items() if cell}:
            if cells.get("note") == GUESS:
                del cells["note"]
            edits.append(Edit(file, cells or None, row_id))
    left = set(range(len(before))) - {int(place) for place in after.index}
    return [*edits, *(Edit(file, None, before[place][0]) for place in sorted(left))]
