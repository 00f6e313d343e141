"""The frame round every place: which notes, which day, and the way between the places."""

from pathlib import Path

import streamlit as st

from dashboard.forms.notes_form import notes_form
from dashboard.look import page_style
from dashboard.place import PLACES

HERE = Path(__file__).parent

# A material symbol as the page's icon would be fetched from outside; a picture character is not.
st.set_page_config(page_title="Harvest to pantry", page_icon="\N{CANNED FOOD}", layout="wide")
page_style()
pages = [st.Page(HERE / file, title=words, icon=icon) for file, (words, icon) in PLACES.items()]
place = st.navigation(pages)
with st.sidebar:
    notes_form()
place.run()
