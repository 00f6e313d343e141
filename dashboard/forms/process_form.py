"""Look up a tested process; nothing here can be computed, lowered or left out."""

import streamlit as st

import model
from dashboard import session
from dashboard.process import cautions, process_lines
from dashboard.units import altitude as altitude_words
from model import NoTestedProcess, Season

MOST_LETTERS = 80


def ask_product(key: str) -> str | None:
    """Ask for a tested product, or for what it is in words; what is none is refused at once."""
    chosen = st.selectbox(
        "Tested product",
        sorted(model.products()),
        index=None,
        placeholder="Choose one, or say below what it is",
        key=key,
    )
    said = st.text_input(
        "Not in the list? Say what it is",
        key=f"{key}_said",
        max_chars=MOST_LETTERS,
        placeholder="tomato ketchup with onions ...",
    )
    if not said.strip():
        return chosen
    try:
        return model.tested_product(said)
    except NoTestedProcess as error:
        refusal(error)
        return None


def refusal(error: NoTestedProcess) -> None:
    """Show why there is no process, and the ways that remain."""
    st.error(f"Refused: {error.reason}.")
    st.markdown("Ways that remain:\n" + "\n".join(f"- {way}" for way in error.ways))


def process_form(season: Season) -> None:
    """Ask for product, method, pack, jar and altitude, and show the process or the refusal."""
    what, how, where = st.columns([3, 2, 2], gap="medium")
    with what:
        product = ask_product("process_product")
    with how:
        method = st.selectbox(
            "Canner", model.METHODS, index=None, placeholder="Choose one", key="process_method"
        )
        pack = st.radio("Pack", ["hot", "raw"], index=None, horizontal=True, key="process_pack")
    with where:
        jar = st.text_input("Jar", key="process_jar", placeholder="pint, quart, 500 ml ...")
        own = season.altitude_ft
        known = altitude_words(own, season.units) if own is not None else ""
        altitude = st.text_input(
            "Altitude", known, key=f"altitude_{session.scope()}", help="762 m or 2500 ft"
        )
    if not (product and method and pack and jar.strip()):
        st.caption("Nothing is assumed here: choose the product, the canner, the pack and the jar.")
        return
    try:
        height = model.altitude_ft(altitude) if altitude.strip() else None
        card = model.process_card(product, method, pack, jar, height)
    except ValueError as error:
        st.warning(str(error))
        return
    except NoTestedProcess as error:
        refusal(error)
        return
    process_lines(card, card.process.product)
    cautions(card)
