"""The little style that Streamlit's own settings do not reach, and tables in our words."""

from typing import Literal

import pandas as pd
import streamlit as st

from dashboard.cached import headings

# Less air above the first sentence, and targets that a wet thumb can hit.
_STYLE = """
<style>
  [data-testid="stMainBlockContainer"] {padding: 2.6rem 2.2rem 2rem 2.2rem;}
  [data-testid="stMainBlockContainer"] h1 {font-size: 1.55rem; padding: 0 0 .25rem 0;}
  [data-testid="stMainBlockContainer"] h2,
  [data-testid="stMainBlockContainer"] h3 {font-size: 1.15rem; padding: .3rem 0 0 0;}
  @media (max-width: 640px) {
    [data-testid="stMainBlockContainer"] {padding: 3.8rem 1rem 2rem 1rem;}
    button {min-height: 44px;}
  }
</style>
"""


def page_style() -> None:
    """Set the style of every page."""
    st.html(_STYLE)


def choice(label: str, options: list[str], key: str) -> str:
    """Let one of a few parts of a page be chosen; the first is shown until then."""
    chosen = st.segmented_control(
        label, options, default=options[0], key=key, label_visibility="collapsed"
    )
    return chosen or options[0]


def table(
    frame: pd.DataFrame, height: int | Literal["auto", "content"] = "auto", key: str | None = None
) -> None:
    """Show a table with the headings of the outlook, as wide as there is room."""
    config = {name: st.column_config.Column(label=words) for name, words in headings(frame).items()}
    st.dataframe(
        frame,
        hide_index=True,
        column_config=config,
        height=height,
        width="stretch",
        key=key,
    )
