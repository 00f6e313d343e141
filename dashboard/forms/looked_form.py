"""Jars like a bad one: they stay to be looked at until somebody says that every one was sound."""

from datetime import date

import streamlit as st

import model
from dashboard import session
from dashboard.forms.writing import save_button
from dashboard.words import count, day, speaker
from model import Edit, Season


def looked_form(season: Season, today: date) -> None:
    """Ask which of the batches like a bad jar were looked at and found sound."""
    waiting = {one.batch.code: one.batch for one in model.to_look_at(season, today)}
    if not waiting:
        return
    words = speaker()
    codes = st.pills(
        "Looked at, seal and contents: every jar of it sound, or none left",
        list(waiting),
        selection_mode="multi",
        format_func=lambda code: f"{words(waiting[code].preserve)} of {day(waiting[code].put_up)}",
        key=f"looked_{session.form()}",
    )
    looks = season.record.newest_checks(today)
    edits = [
        Edit(
            "seals.csv",
            {
                "batch": code,
                "checked_on": f"{today}",
                # how many of it sealed is as it was: those that stand there were looked at again
                "sealed": f"{looks[code].sealed if code in looks else waiting[code].filled:g}",
                "failed_went": looks[code].went if code in looks else "",
            },
        )
        for code in codes
    ]
    save_button(
        "looked_save",
        "Save: they are sound",
        edits,
        f"Looked at and sound: {count(len(codes), 'batch', 'batches')}",
        missing="Say which were looked at.",
    )
    st.caption(
        "One that is not sound is written off under *Something went wrong*, as a suspect jar. A "
        "count is no such look."
    )
