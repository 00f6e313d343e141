"""Copies of the store: make one, and bring one back, also where the store cannot be opened."""

from pathlib import Path

import streamlit as st

from dashboard import kept
from dashboard.look import done


def copies_form() -> None:
    """Make a copy, or bring one back."""
    st.markdown("A copy holds every household, with all that was ever written.")
    st.text(f"Your records are kept in {kept.store().path}")
    if st.button("Make a copy now", key="copy", type="primary", width="stretch"):
        done(
            lambda: st.success(f"Copied: {kept.store().back_up(kept.now()).name}"),
            "Nothing was changed.",
        )
    bring_back_form()


def bring_back_form() -> bool:
    """Bring a copy back; says whether one was."""
    copies = kept.copies()
    if not copies:
        st.caption("There is no copy yet.")
        return False
    chosen = st.selectbox("Copies", copies, format_func=lambda copy: Path(copy).stem, key="copies")
    st.caption("What is there now is kept beside it, so that this can be undone too.")
    return st.button("Bring this copy back", key="bring_back", width="stretch") and done(
        lambda: st.success(f"Brought back. {_brought(chosen)}"), "Nothing was changed."
    )


def _brought(copy: Path) -> str:
    before = kept.bring_back(copy)
    return f"What was there before is kept as {before.name}." if before else ""
