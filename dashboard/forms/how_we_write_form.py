"""How the household writes: its units, dates and words; nothing else of the notes changes."""

from collections.abc import Mapping

import streamlit as st

import model
from dashboard import kept, session
from dashboard.forms.writing import save_button
from model import Edit, Season

FILE = "household.csv"
TONGUE_WORDS = {
    "UK": "UK: courgette, beetroot, larder",
    "US": "US: zucchini, beets, pantry",
}
UNIT_WORDS = {"metric": "kg, m², litres", "US": "lb, ft², quarts"}


def how_we_write_form(notes: session.Notes) -> None:
    """Let units, date form and words be chosen, and write them into the household's notes."""
    season, form = notes.season, session.form()
    st.caption(
        "Only what you read changes: the notes keep the words and units they were written in. "
        "Weeks run from Monday to Sunday everywhere, because a week of the plan does."
    )
    units = st.radio(
        "Units",
        model.UNITS,
        model.UNITS.index(season.units),
        format_func=UNIT_WORDS.__getitem__,
        key=f"write_units_{form}",
    )
    date_form = st.radio(
        "Dates",
        model.DATE_FORMS,
        model.DATE_FORMS.index(season.date_form),
        key=f"write_dates_{form}",
    )
    tongue = st.radio(
        "Words",
        model.TONGUES,
        model.TONGUES.index(season.tongue),
        format_func=TONGUE_WORDS.__getitem__,
        key=f"write_words_{form}",
    )
    edits = written_edits(notes.household.household_id, season, units, date_form, tongue)
    save_button("write_save", "Write so from now on", edits, "How we write was changed")


def written_edits(
    household: int, season: Season, units: str, date_form: str, tongue: str
) -> list[Edit]:
    """Give the change of the household's row; what is usual with the units is left blank."""
    if (units, date_form, tongue) == (season.units, season.date_form, season.tongue):
        return []
    return [
        Edit(FILE, _cells(cells, units, date_form, tongue), row_id)
        for row_id, cells in kept.store().rows(household, FILE).items()
    ]


def _cells(cells: Mapping[str, str], units: str, date_form: str, tongue: str) -> dict[str, str]:
    usual = {"date_form": model.USUAL_DATE_FORM[units], "tongue": model.USUAL_TONGUE[units]}
    chosen = {"date_form": date_form, "tongue": tongue}
    unusual = {name: said for name, said in chosen.items() if said != usual[name]}
    left = {name: cell for name, cell in cells.items() if name not in usual}
    return {**left, "units": units, **unusual}
