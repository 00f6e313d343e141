"""A picking in three taps: the crop, how many, save. The container is the one used last."""

from collections import Counter
from collections.abc import Sequence
from datetime import date, timedelta

import streamlit as st

import model
from dashboard import session
from dashboard.doubts import picking_doubt
from dashboard.forms.past_day import past_day, told_day
from dashboard.forms.writing import IS_RIGHT, save, save_button, sure
from dashboard.units import in_own, weight
from dashboard.words import local, pieces, speaker
from model import Edit, Season

NUMBERS = {"½": 0.5, "1": 1.0, "1½": 1.5, "2": 2.0, "3": 3.0, "4": 4.0, "5": 5.0, "7": 7.0}
LATELY = timedelta(days=21)
MOST_CROPS = 12
LEAST_KG = 0.1


def pick_form(season: Season) -> None:
    """Ask what was picked, and write it down."""
    form, today = session.form(), session.today()
    likely = likely_crops(season, today)[:MOST_CROPS]
    crop = None
    if likely:
        crop = st.pills("Crop", likely, format_func=speaker(), key=f"pick_crop_{form}")
    else:
        st.caption("Nothing that grows by your notes is due yet: choose the crop here.")
    with st.popover("Another crop or amount", width="stretch"):
        rest = [name for name in sorted(c.name for c in season.crops) if name not in likely]
        other = st.selectbox(
            "Another crop", rest, index=None, format_func=speaker(), key=f"pick_other_{form}"
        )
        typed = st.number_input(
            "Another number", 0.0, 1000.0, 0.0, 0.5, format="%g", key=f"pick_typed_{form}"
        )
    crop = other or crop
    number = st.pills("How many", list(NUMBERS), key=f"pick_number_{form}")
    many = typed or NUMBERS.get(number or "", 0.0)
    weighs = model.container_kg(season, crop or "")
    scale = "lb" if season.units == model.US else "kg"
    names = sorted(weighs, key=lambda name: name != scale)
    usual = session.container(crop or "", names)
    container = st.segmented_control(
        "Counted in", names, default=usual, key=f"pick_container_{form}_{crop}"
    )
    day = past_day("Picked on", f"pick_day_{form}")
    kg = many * weighs.get(container or usual, 0.0)
    ready = bool(crop) and kg > 0 and day is not None
    words, doubt = "Save", ""
    if ready:
        words = f"{picked_words(many, container or usual, crop, kg, season.units)}, on "
        words += told_day(day)
        if kg < LEAST_KG:
            st.caption("So little need not be written down.")
        doubt = picking_doubt(season, crop, kg, day)
    known = sure(doubt, "pick_sure")
    cells = {
        "picked_on": f"{day}",
        "crop": crop or "",
        "picked_kg": f"{kg:.6g}",
        "number": f"{many:g}",
        "container": container or usual,
    }
    save_button(
        "pick_save",
        local(f"Save: {words}") if ready else "Save",
        [Edit("harvest_log.csv", cells)] if ready and known else [],
        f"Picked {words}",
        write=_save,
        missing=IS_RIGHT if ready else "Choose a crop, and how many of what.",
    )


def picked_words(many: float, container: str, crop: str, kg: float, units: str) -> str:
    """Say what was picked, and what that weighs where it was not weighed in that unit."""
    told = f"{pieces(many, container)} of {crop}"
    weighed = container == in_own(1.0, "kg", units)[1]
    return told if weighed else f"{told}, {weight(kg, units)}"


def _save(edits: Sequence[Edit], told: str, operation: str) -> None:
    cells = edits[0].cells or {}
    session.use_container(cells["crop"], cells["container"])
    save(edits, told, operation)


def likely_crops(season: Season, today: date) -> list[str]:
    """List the crops that may be picked on a day: those picked lately first, then those planted."""
    lately = Counter(p.crop for p in season.pickings if today - LATELY <= p.day <= today)
    grown = {
        planting.crop: planting.started or today
        for planting in season.plantings
        for year in season.garden_seasons
        if planting.season == year.name and year.begins <= today <= year.ends
    }
    waiting = sorted((started, crop) for crop, started in grown.items() if started <= today)
    named = [crop for crop, _ in lately.most_common()] + [crop for _, crop in waiting]
    return list(dict.fromkeys(named))
