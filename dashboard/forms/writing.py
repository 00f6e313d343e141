"""Writing into the household's record: saved at once, said at once, taken back at once."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace

import streamlit as st

from dashboard import kept, session
from dashboard.entries import in_sheets
from dashboard.look import faults
from dashboard.words import local
from model import Edit, PlanningError, SeasonProblems

TAKEN_BACK, WRITTEN = "Taken back.", "Written. Undo stands at the top."
IS_RIGHT = "Say first that it is right, or put it right."


def _as_found(error: PlanningError) -> PlanningError:
    return error


def save(
    edits: Sequence[Edit],
    words: str,
    operation: str,
    *,
    retell: Callable[[PlanningError], PlanningError] = _as_found,
) -> None:
    """Write a change into the household in use; what is wrong with it is told on the page.

    ``retell`` gives it in the words of where it was typed.
    """
    notes = session.notes()
    if notes is None:
        return
    try:
        signed = kept.author(words, session.writer(), operation)
        change = kept.write(notes.household.household_id, edits, signed)
    except PlanningError as error:
        session.remember_fault(_in_words(retell(error), edits))
        return
    session.remember_written((change, words), WRITTEN)
    session.next_form()


def _in_words(error: PlanningError, edits: Sequence[Edit]) -> PlanningError:
    """Tell where faults are as the page names it; the one row of a form has no number there."""
    if not isinstance(error, SeasonProblems):
        return error
    alone = len(edits) == 1
    return SeasonProblems(
        replace(
            problem,
            file=in_sheets(problem.file),
            row=0 if alone and problem.file == edits[0].file else problem.row,
            found=in_sheets(problem.found),
            wanted=in_sheets(problem.wanted),
        )
        for problem in error.problems
    )


def stored_rows(file: str) -> Mapping[int, Mapping[str, str]]:
    """Give the rows of a table of the household in use as they are stored, by their numbers."""
    notes = session.notes()
    return {} if notes is None else kept.store().rows(notes.household.household_id, file)


def save_button(
    key: str,
    words: str,
    edits: Sequence[Edit],
    told: str,
    *,
    write: Callable[..., None] = save,
    missing: str = "There is nothing to save yet.",
) -> None:
    """Offer to write ``edits``, told as ``told``; without any a tap says what is ``missing``.

    A tap on it is what ends the typing in a field: what is written is what the fields show then,
    not what they showed when the button was drawn, and it is never greyed, or that tap were lost.
    """
    if not st.button(words, key=f"{key}_{session.form()}", type="primary", width="stretch"):
        return
    if not edits:
        st.warning(local(missing))
        return
    write(edits, told, session.operation())
    st.rerun()


def sure(doubt: str, key: str) -> bool:
    """Ask whether an entry is right of which there is a ``doubt``; without one it is."""
    if not doubt:
        return True
    st.warning(local(doubt))
    return st.toggle("It is right", key=f"{key}_{session.form()}_{doubt}")


def take_back(change: int, words: str) -> None:
    """Undo a change of the household in use."""
    notes = session.notes()
    if notes is None:
        return
    try:
        signed = kept.author(f"Taken back: {words}", session.writer())
        kept.store().undo(notes.household.household_id, signed, change)
    except PlanningError as error:
        session.remember_fault(error)
        return
    session.remember_written(None, TAKEN_BACK)
    session.next_form()


def last_written() -> None:
    """Say what was written last, with the way to take it back, or why nothing was written.

    Whoever saved at the foot of a long page sees at once whether it went well.
    """
    error = session.fault()
    if error is not None:
        faults(error, "Nothing was written.")
        st.toast("Nothing was written: why, stands at the top.", icon=":material/error:")
    news = session.newly_written()
    if news:
        st.toast(news, icon=":material/check:")
    written = session.written()
    if written is None:
        return
    change, words = written
    with st.container(key="written", border=True, horizontal=True, vertical_alignment="center"):
        st.markdown("**Written**")
        st.text(local(words))
        st.button(
            "Undo",
            key="undo_written",
            icon=":material/undo:",
            on_click=take_back,
            args=(change, words),
        )
