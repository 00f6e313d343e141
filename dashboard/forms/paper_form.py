"""From paper: a whole sheet of entries is typed in at once, and written as one or not at all."""

from collections.abc import Sequence
from functools import partial

import pandas as pd
import streamlit as st

import model
from dashboard import session
from dashboard.forms.paper_entries import (
    COLUMNS,
    DAY,
    HAPPENED,
    HOW_MUCH,
    OF_WHAT,
    WHAT,
    WHAT_HAPPENED,
    PaperEntries,
    paper_entries,
    sheet_doubts,
    told_by_row,
    typed,
)
from dashboard.forms.writing import IS_RIGHT, save, stored_rows, sure
from dashboard.units import in_own
from dashboard.words import count, speaker
from model import Season, SeasonProblems

ROWS = 24
LOOK = {"hide_index": False, "num_rows": "fixed", "row_height": 40, "placeholder": ""}


def paper_form(season: Season) -> None:
    """Show an empty sheet to be filled, and write what stands on it as one change."""
    st.caption(
        "Type in what was written by hand, a line a row, in any order; days as 2027-08-16. Of "
        "what: the container for what was picked; jars and packs need none. Empty rows are passed "
        "over. All rows are written together, or none."
    )
    names = [*sorted({crop.name for crop in season.crops}), *_preserves(season)]
    blank = pd.DataFrame(
        {
            DAY: pd.Series([None] * ROWS, dtype="string"),
            WHAT_HAPPENED: pd.Series([None] * ROWS, dtype="string"),
            WHAT: pd.Series([None] * ROWS, dtype="string"),
            HOW_MUCH: pd.Series([None] * ROWS, dtype="float64"),
            OF_WHAT: pd.Series([None] * ROWS, dtype="string"),
        },
        columns=list(COLUMNS),
    )
    blank.index = pd.RangeIndex(1, ROWS + 1, name="Row")
    column = st.column_config
    filled = st.data_editor(
        blank,
        key=f"paper_{session.form()}",
        column_config={
            DAY: column.TextColumn(help="As 2027-08-16, or as days are shown here"),
            WHAT_HAPPENED: column.SelectboxColumn(options=list(HAPPENED)),
            WHAT: column.SelectboxColumn(options=names, format_func=speaker()),
            HOW_MUCH: column.NumberColumn(),
            OF_WHAT: column.SelectboxColumn(options=_units(season)),
        },
        **LOOK,
    )
    entries = typed(filled)
    found = paper_entries(season, entries, session.today(), stored_rows("stock.csv"))
    known = sure("  \n".join(sheet_doubts(season, found, session.today())), "paper_sure")
    rows = count(len(entries), "row")
    if st.button(
        f"Save {rows}" if entries else "Save",
        key=f"paper_save_{session.form()}",
        type="primary",
        width="stretch",
    ):
        if entries and known:
            _write(found, f"{rows} from paper")
            st.rerun()
        st.warning(IS_RIGHT if entries else "Nothing is typed yet.")


def _write(found: PaperEntries, words: str) -> None:
    if found.faults:
        session.remember_fault(SeasonProblems(found.faults))
        return
    lengths = {edit.file: len(stored_rows(edit.file)) for edit in found.edits}
    retell = partial(told_by_row, entries=found, lengths=lengths)
    save(found.edits, words, session.operation(), retell=retell)


def _preserves(season: Season) -> list[str]:
    crops = {crop.name for crop in season.crops}
    return sorted(own.name for own in season.preserves if own.name not in crops)


def _units(season: Season) -> Sequence[str]:
    """List what can be counted: containers, scales, and the units of the preserves."""
    containers = [name for crop in season.crops for name in model.container_kg(season, crop.name)]
    units = [in_own(1.0, own.unit, season.units)[1] for own in season.preserves]
    return list(dict.fromkeys([*containers, *units]))
