"""The judgement values: one is chosen, changed, or put back to what it usually is."""

from collections.abc import Mapping

import pandas as pd
import streamlit as st

import model
from dashboard import session
from dashboard.forms.writing import save_button, stored_rows
from dashboard.look import fold, table
from dashboard.words import capital, local
from model import Edit, Season

FILE = "settings.csv"


def judgement_form(season: Season, asked: str = "") -> None:
    """Let a judgement value be chosen, the one asked for first, and be changed."""
    values = model.judgement_table(season)
    called = {row.setting: local(row.called) for row in values.itertuples()}
    names = list(called)
    st.markdown("What no table settles is judged. Change what fits this household better.")
    chosen = st.selectbox(
        "Judgement",
        names,
        index=names.index(asked) if asked in names else 0,
        format_func=lambda name: capital(called[name]),
        key=f"judgement_{asked}",
    )
    row = values.set_index("setting").loc[chosen]
    bounds = f"from {row['least']:g} to {row['most']:g}"
    st.markdown(f"{row['means']}  \nUsually {row['usual']:g} ({row['setting_unit']}); {bounds}.")
    st.caption(row["says"])
    now = st.number_input(
        f"In these notes ({row['setting_unit']})",
        min_value=float(row["least"]),
        max_value=float(row["most"]),
        value=float(row["in_use"]),
        step=_step(float(row["usual"])),
        format="%g",
        key=f"judged_{chosen}_{session.form()}",
    )
    words = f"{called[chosen]}: {now:g} ({row['setting_unit']})"
    edits = judgement_edits(stored_rows(FILE), chosen, now, row)
    save_button("judgement_save", f"Save {words}", edits, words, missing="Nothing was changed.")
    with fold("Every judgement", "judgements") as is_open:
        if is_open:
            table(values.drop(columns=["setting", "least", "most"]), key="judgements")


def _step(usual: float) -> float:
    """A tenth of the usual value, in a round number."""
    return 1.0 if usual >= 10 else 0.1 if usual >= 1 else 0.01 if usual >= 0.1 else 0.005


def judgement_edits(
    rows: Mapping[int, Mapping[str, str]], setting: str, now: float, row: pd.Series
) -> list[Edit]:
    """Give what to write: nothing where nothing changed, no row where it is as usual."""
    if abs(now - row["in_use"]) < 1e-9:
        return []
    known = [number for number, cells in rows.items() if cells.get("setting") == setting]
    number = known[0] if known else None
    if abs(now - row["usual"]) < 1e-9 and number is not None:
        return [Edit(FILE, None, number)]
    return [Edit(FILE, {"setting": setting, "value": f"{now:g}"}, number)]
