"""Which batches are labelled, and how many labels of each are printed."""

from datetime import date, timedelta

import streamlit as st

import model
from dashboard import session
from dashboard.look import printed
from dashboard.paper.jar_labels import jar_labels
from dashboard.words import local
from model import Season

LATELY = timedelta(days=7)


def label_form(season: Season, today: date) -> None:
    """Let batches be chosen, those of the last week at first, and offer their labels."""
    due = {label.code: (label, number) for label, number in model.labels_due(season, today)}
    waiting = model.unconfirmed(season, today)
    if waiting:
        codes = ", ".join(batch.code for batch in waiting)
        st.text(f"No label yet, because nobody has looked at the seals: {codes}")
    if not due:
        st.markdown("Nothing is to be labelled: no batch is written down and looked at.")
        return
    lately = [code for code, (label, _) in due.items() if today - label.made_on <= LATELY]
    scope = session.scope()
    chosen = st.multiselect("Batches", list(due), default=lately, key=f"label_batches_{scope}")
    labels = []
    for code in chosen:
        label, there = due[code]
        number = st.number_input(
            local(f"Labels: {code}"), 0, there, there, key=f"label_n_{scope}_{code}"
        )
        labels.append((label, int(number)))
    if any(number for _, number in labels):
        printed("the labels", jar_labels, season, labels, today)
    st.caption(
        "As many as there are sealed jars or filled packs, until you say otherwise. Of canned "
        "jars only those are labelled whose seals were looked at."
    )
