"""The frame round every place: which household, which day, and the way between the places."""

from pathlib import Path

import streamlit as st

from dashboard import session
from dashboard.address import keep_in_address, take_from_address
from dashboard.forms.copies_form import bring_back_form
from dashboard.forms.household_form import household_form
from dashboard.look import faults
from dashboard.place import BEGIN, HOUSEHOLD, PLACES
from dashboard.style import page_style
from dashboard.words import local, write_as
from model import DamagedStore, PlanningError

HERE = Path(__file__).parent

# A material symbol as the page's icon would be fetched from outside; a picture character is not.
st.set_page_config(page_title="Harvest to pantry", page_icon="\N{CANNED FOOD}", layout="wide")
page_style()
try:
    take_from_address()
    notes_in_use = session.read_notes()
    beginning = notes_in_use is None or session.beginning()
except PlanningError as error:
    faults(error, "What is kept cannot be opened.")
    if isinstance(error, DamagedStore) and bring_back_form():
        st.button("Go on", type="primary", key="go_on")
    st.stop()
if notes_in_use is not None:
    write_as(notes_in_use.season.date_form, notes_in_use.season.tongue)
if beginning:
    begin = st.Page(HERE / BEGIN, title="Begin")
    place = st.navigation([begin], position="hidden")
else:
    pages = [
        st.Page(HERE / file, title=local(words), icon=icon)
        for file, (words, icon) in PLACES.items()
    ]
    notes = st.Page(HERE / HOUSEHOLD, title="Notes in and out", visibility="hidden")
    place = st.navigation([*pages, notes])
    with st.sidebar:
        household_form()
    keep_in_address(notes_in_use)
session.arrive(place.url_path)
place.run()
