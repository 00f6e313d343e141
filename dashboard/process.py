"""A tested process on the screen: the figure, what goes in, where it holds, who says so."""

import streamlit as st

from model import ProcessCard


def process_lines(card: ProcessCard, name: str = "") -> None:
    """Show a process in full, the acid right below the figure; ``name`` stands before it."""
    head = f"**{name}**: **{card.figure}**" if name else f"**{card.figure}**"
    holds = card.where_it_holds[0].upper() + card.where_it_holds[1:]
    st.markdown("  \n".join([head, *card.steps, holds]))
    st.caption(card.source)


def cautions(card: ProcessCard) -> None:
    """List the cautions that belong to a process."""
    for caution in card.cautions:
        st.markdown(f"- {caution}")
