"""Whether somebody at the table has to be more careful than others."""

import streamlit as st

from dashboard import session
from dashboard.forms.writing import save, stored_rows
from model import Edit, Season, household

FILE, COLUMN = "household.csv", "at_risk"


def risk_form(season: Season) -> None:
    """Let the household say what its ages do not, and say why the cautious way is shown."""
    rows = stored_rows(FILE)
    if rows:
        said = next(iter(rows.values())).get(COLUMN, "") == "yes"
        key = f"at_risk_{session.form()}"
        words = "Somebody here is pregnant or has a weak immune system"
        st.toggle(words, said, key=key, on_change=_keep, args=("" if said else "yes",))
    young, old = household.RISK_UNDER_YEARS, household.RISK_FROM_YEARS
    who = f"under {young} or from {old} years on, pregnant or weakened"
    st.caption(
        f"Somebody at the table is {who}: food poisoning would be worse for them, so the "
        "cautious way is shown."
        if season.at_risk
        else f"Where somebody is {who}, a more cautious way is shown."
    )


def _keep(said: str) -> None:
    edits = [Edit(FILE, {**row, COLUMN: said}, line) for line, row in stored_rows(FILE).items()]
    told = "The cautious way is shown" if said else "The cautious way goes by ages alone"
    save(edits, told, session.operation())
