"""What comes after a first plan: where to go, and which guesses to replace first."""

import streamlit as st

from dashboard import session
from dashboard.kept import Guesses
from dashboard.words import local
from model import Season

# The tables in which a wrong guess costs most stand first, and how each is replaced.
GUESSES = {
    "frosts.csv": ("how far your frosts vary", "ask a neighbour, or bring your own weather file"),
    "foods.csv": ("what each person eats in a week", "count the shelf twice in Larder"),
    "plantings.csv": ("sowing days and shares of the beds", "Spring says how much of each"),
    "jars.csv": ("jars and lids you own", "count them, before the first glut"),
    "equipment.csv": ("jars in a load of your canner", "the canner's book says it"),
    "preserves.csv": ("what you put up, and which share", "take out what nobody eats"),
    "eaters.csv": ("the ages of the adults", "they set the size of portions"),
}


def begun_form(season: Season, guesses: Guesses) -> None:
    """Say what comes next, and list the guesses that are still in the notes."""
    st.title("Your first plan is made")
    st.markdown(
        "**Next: look at what to plant.** Spring shows how much of each crop to grow, and what "
        "comes of it. Say under Write down how much was sown, and weigh what you pick: so yields "
        "become your own."
    )
    if season.canners and not any(preserve.canned for preserve in season.preserves):
        st.warning(
            "Nothing is canned in this plan: for what is usually canned no process is tested at "
            "your height with your canner. Freeze it, dry it or store it instead. This week, "
            "Process times, says what is tested."
        )
    st.button(
        "Go to the plan",
        type="primary",
        width="stretch",
        key="to_plan",
        on_click=session.just_begun,
        kwargs={"really": False},
    )
    st.subheader("Guesses to replace first")
    rows = [f"1. **{what}**: {how}" for file, (what, how) in GUESSES.items() if file in guesses]
    st.markdown(local("\n".join(rows)))
    st.caption(
        "Every guess is listed under Notes in and out, Guesses: put your own figure there, and it "
        "is a guess no more."
    )
