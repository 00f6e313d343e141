"""The figures that are still guesses, and the place to put one's own in their stead."""

import streamlit as st

from dashboard.entries import in_sheets, is_guess
from dashboard.forms.correct_form import ALL, ONE, correct_table, newest_rows
from dashboard.forms.mend_form import mend_form
from dashboard.kept import Guesses, number_of
from dashboard.look import choice
from dashboard.words import count, listed, local


def guesses_told(guessed: Guesses) -> str:
    """Say how many figures are still guesses; blank for none."""
    number = number_of(guessed)
    return f"{count(number, 'row is a guess', 'rows are guesses')} still" if number else ""


def guess_form(guessed: Guesses) -> None:
    """List the rows that are still guesses, and let those of a table be replaced by own figures."""
    if not guessed:
        st.markdown("Nothing in these notes is a guess any more.")
        return
    st.markdown(
        f"**{guesses_told(guessed)}**: published or usual figures that nobody here has looked at. "
        "Pickings, seals and counts correct yields, failures and eating of themselves; the rest "
        "is put right here."
    )
    for file, names in guessed.items():
        st.markdown(f"- {in_sheets(file)}: {local(listed(names, len(names)))}")
    chosen = st.selectbox("Put right", list(guessed), format_func=in_sheets, key="guess_table")
    st.caption(
        "A row that is changed is a guess no more; where the figure was right, empty its note."
    )
    if choice("How", [ONE, ALL], key="guess_how") == ONE:
        mend_form(in_sheets(chosen), chosen, newest_rows(chosen, is_guess)[::-1])
    else:
        correct_table(in_sheets(chosen), chosen, is_guess)
