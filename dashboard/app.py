"""The frame round every place: which notes, which day, and the way between the places."""

from pathlib import Path

import streamlit as st

from dashboard.forms.notes_form import notes_form
from dashboard.look import page_style

VIEWS = Path(__file__).parent / "views"

# A material symbol as the page's icon would be fetched from outside; a picture character is not.
st.set_page_config(page_title="Harvest to pantry", page_icon="\N{CANNED FOOD}", layout="wide")
page_style()
place = st.navigation(
    [
        st.Page(VIEWS / "spring.py", title="Spring: what to plant", icon=":material/potted_plant:"),
        st.Page(VIEWS / "this_week.py", title="This week", icon=":material/skillet:"),
        st.Page(VIEWS / "winter.py", title="Winter: will it last", icon=":material/shelves:"),
    ]
)
with st.sidebar:
    notes_form()
place.run()
