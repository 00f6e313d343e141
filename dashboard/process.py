"""A tested process on the screen: the figure, what goes in, where it holds, who says so."""

import streamlit as st

from model import ProcessCard


def process_words(card: ProcessCard) -> list[str]:
    """Give what belongs to a figure: what goes in, acid first, and last where it holds."""
    return [*card.steps, card.where_it_holds[0].upper() + card.where_it_holds[1:]]


def process_lines(card: ProcessCard, name: str = "") -> None:
    """Show a process in full, the acid right below the figure; ``name`` stands before it."""
    head = f"**{name}**: **{card.figure}**" if name else f"**{card.figure}**"
    st.markdown("  \n".join([head, *process_words(card)]))
    st.caption(card.source)


def cautions(card: ProcessCard) -> None:
    """List the cautions that belong to a process."""
    for caution in card.cautions:
        st.markdown(f"- {caution}")
