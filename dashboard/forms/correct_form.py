"""Entries as a table: corrected, dated back, taken out, or typed in from paper."""

from collections.abc import Mapping, Sequence

import pandas as pd
import streamlit as st

import model
from dashboard import kept, session
from dashboard.forms.writing import save
from model import Edit

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
    notes = session.notes()
    if notes is None:
        return
    chosen = st.selectbox("Entries", list(TABLES), key="correct_table")
    file = TABLES[chosen]
    rows = kept.store().rows(notes.household.household_id, file)
    newest = dict(reversed(list(rows.items())[-MOST_ROWS:]))
    headings = model.table_headings(file)
    headings += [name for cells in newest.values() for name in cells if name not in headings]
    frame = pd.DataFrame(
        [[cells.get(name, "") for name in dict.fromkeys(headings)] for cells in newest.values()],
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
    edits = edits_between(file, list(newest.items()), edited)
    st.caption(
        f"The newest {MOST_ROWS} at most, the newest first; dates as 2027-08-16. The last row is "
        "empty for new entries. What stood there before stays readable under *What was written*."
    )
    st.button(
        f"Save {len(edits)} changed" if edits else "Nothing changed",
        key=f"correct_save_{session.form()}",
        type="primary",
        disabled=not edits,
        on_click=save,
        args=(edits, f"{chosen}: {len(edits)} corrected or added", session.operation()),
    )


def edits_between(
    file: str, before: Sequence[tuple[int, Mapping[str, str]]], after: pd.DataFrame
) -> Sequence[Edit]:
    """Give what the rows of a table were changed to; rows beyond those there were are new."""
    edits = []
    for place, row in zip(after.index, after.to_dict("records"), strict=True):
        cells = {str(k): str(v).strip() for k, v in row.items() if pd.notna(v) and str(v).strip()}
        known = int(place) < len(before)
        row_id, was = before[int(place)] if known else (None, {})
        if cells != {name: cell for name, cell in was.items() if cell}:
            edits.append(Edit(file, cells or None, row_id))
    left = set(range(len(before))) - {int(place) for place in after.index}
    return [*edits, *(Edit(file, None, before[place][0]) for place in sorted(left))]
