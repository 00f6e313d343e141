"""Four buttons a preserve: ran out, right, too much, not again."""

import pandas as pd
import streamlit as st

from dashboard import session
from dashboard.forms.writing import save_button, stored_rows
from dashboard.words import capital, count, local
from model import VERDICTS, Edit

ACROSS = 3


def verdict_form(year: str, review: pd.DataFrame) -> None:
    """Ask for the household's verdict on each preserve of a garden year, and write them down."""
    form = session.form()
    said: dict[str, str] = {}
    columns = st.columns(ACROSS)
    for place, row in enumerate(review.itertuples()):
        before = row.verdict or None
        given = columns[place % ACROSS].segmented_control(
            local(capital(row.preserve)),
            VERDICTS,
            default=before,
            key=f"verdict_{form}_{year}_{row.preserve}",
        )
        if given and given != before:
            said[row.preserve] = given
    known = {
        cells.get("preserve", "").lower(): row_id
        for row_id, cells in stored_rows("verdicts.csv").items()
        if cells.get("season") == year
    }
    edits = [
        Edit(
            "verdicts.csv",
            {"season": year, "preserve": name, "verdict": verdict},
            known.get(name.lower()),
        )
        for name, verdict in said.items()
    ]
    words = f"{count(len(edits), 'verdict')} on {year}"
    save_button("verdict_save", f"Save {words}" if edits else "Save", edits, words)
