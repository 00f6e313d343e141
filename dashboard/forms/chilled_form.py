"""Unsealed jars in the refrigerator: said to be eaten or thrown away, they are listed no more."""

from datetime import date, timedelta

import streamlit as st

from dashboard import session
from dashboard.forms.writing import save_button
from dashboard.units import units_of
from dashboard.words import local, speaker
from model import WENT, Edit, Season

REFRIGERATED, *_, THROWN_AWAY, EATEN = WENT
# Judgement: whoever has not said it after four weeks does not know it any more.
ASKED_FOR = timedelta(weeks=4)


def chilled_form(season: Season, today: date) -> None:
    """Ask what became of the jars that did not seal and went into the refrigerator.

    They are in no book: whoever eats one takes no sealed jar off the shelf by it.
    """
    looks = season.record.newest_checks(today)
    for batch in season.record.batches:
        code, look = batch.code, looks.get(batch.code)
        if look is None or look.went != REFRIGERATED or look.checked + ASKED_FOR < today:
            continue
        unit = season.preserve(batch.preserve).unit
        unsealed = units_of(batch.filled - look.sealed, unit, season.units)
        words = f"{unsealed} of {batch.preserve} that did not seal"
        became = st.pills(
            local(f"In the refrigerator: {words}"),
            [EATEN, THROWN_AWAY],
            format_func=speaker(),
            key=f"chilled_{session.form()}_{code}",
        )
        if became is None:
            continue
        cells = {
            "batch": code,
            "checked_on": f"{today}",
            "sealed": f"{look.sealed:g}",
            "failed_went": became,
        }
        told = f"{words}: {became}"
        save_button(
            f"chilled_save_{code}", local(f"Save: {told}"), [Edit("seals.csv", cells)], told
        )
