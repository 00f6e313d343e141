"""How the household writes: its units, dates and words; nothing else of the notes changes."""

from collections.abc import Mapping, Sequence
from types import MappingProxyType

import streamlit as st

from dashboard import kept, session
from dashboard.forms.writing import save_button
from dashboard.kept import Notes
from model import Edit, Season
from model import household as writing

FILE = "household.csv"
TONGUE_WORDS = {
    "UK": "UK: courgette, beetroot, larder",
    "US": "US: zucchini, beets, pantry",
}
UNIT_WORDS = {"metric": "kg, m², litres", "US": "lb, ft², quarts"}


def how_we_write_form(notes: Notes) -> None:
    """Let units, date form and words be chosen, and write them into the household's notes."""
    season = notes.season
    st.caption(
        "Only what you read changes: the notes keep the words and units they were written in. "
        "Weeks run from Monday to Sunday everywhere, because a week of the plan does."
    )
    units = _asked("Units", writing.UNITS, season.units, UNIT_WORDS)
    date_form = _asked("Dates", writing.DATE_FORMS, season.date_form)
    tongue = _asked("Words", writing.TONGUES, season.tongue, TONGUE_WORDS)
    edits = written_edits(notes.household.household_id, season, units, date_form, tongue)
    save_button("write_save", "Write so from now on", edits, "How we write was changed")


def _asked(
    what: str, ways: Sequence[str], now: str, said: Mapping[str, str] = MappingProxyType({})
) -> str:
    """Ask for one of a few ways to write something, each as it is ``said``."""
    key = f"write_{what.lower()}_{session.form()}"
    words = {way: said.get(way, way) for way in ways}
    return st.radio(what, ways, ways.index(now), format_func=words.__getitem__, key=key)


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
    usual = {"date_form": writing.USUAL_DATE_FORM[units], "tongue": writing.USUAL_TONGUE[units]}
    chosen = {"date_form": date_form, "tongue": tongue}
    unusual = {name: said for name, said in chosen.items() if said != usual[name]}
    left = {name: cell for name, cell in cells.items() if name not in usual}
    return {**left, "units": units, **unusual}
