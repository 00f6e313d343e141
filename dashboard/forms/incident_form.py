"""Something went wrong: a place is written off in one action, or one jar is suspect."""

import streamlit as st

import model
from dashboard import session
from dashboard.forms.writing import save_button
from dashboard.units import units_of
from dashboard.words import count, listed, short_day
from model import CAUSES, FREEZER_DIED, LOST, SUSPECT, Edit, Season, Taken

PLACE, JAR = "A whole place", "One suspect jar"


def incident_form(season: Season) -> None:
    """Ask what happened, say what to do, and write off what is gone."""
    what = st.segmented_control(
        "What", [PLACE, JAR], default=PLACE, key=f"incident_{session.form()}"
    )
    if what == JAR:
        _suspect(season)
    else:
        _place(season)


def _place(season: Season) -> None:
    form, today = session.form(), session.today()
    names = [place.name for place in season.places]
    place = st.segmented_control("Where", names, key=f"incident_place_{form}")
    causes = [cause for cause in CAUSES if cause != SUSPECT]
    cause = st.selectbox("What happened", causes, index=None, key=f"incident_cause_{form}")
    if cause == FREEZER_DIED:
        for step in model.thaw_steps():
            st.markdown(f"- {step.words}")
    if not place or not cause:
        return
    gone = model.write_off(season, place, cause, today)
    if not gone:
        st.markdown(f"By the book nothing stands in {place}.")
        return
    what = [units_of(t.units, season.preserve(t.preserve).unit, season.units) for t in gone]
    st.markdown(
        "It would be written off: "
        + listed([f"{n} of {t.preserve}" for n, t in zip(what, gone, strict=True)], 12)
        + ". What was saved is put back by a count."
    )
    words = f"{place} written off, {cause}, on {short_day(today)}"
    save_button(
        "incident_save",
        f"Write off everything in {place}",
        [_edit(taken) for taken in gone],
        words.capitalize(),
    )


def _suspect(season: Season) -> None:
    form, today = session.form(), session.today()
    canned = [p.name for p in season.preserves if p.canned]
    name = st.selectbox("What is in it", canned, index=None, key=f"suspect_{form}")
    if name is None:
        st.caption("A jar that bulges, leaks, spurts, smells or has let go: do not taste it.")
        return
    codes = [b.code for b in reversed(season.record.batches) if b.preserve == name]
    code = st.selectbox(
        "Its batch, from the label", codes, index=None, key=f"suspect_batch_{form}_{name}"
    )
    leaking = st.toggle("It is open, leaks or spurts", value=True, key=f"suspect_leaks_{form}")
    st.error("Do not taste it.")
    for step in model.discard_steps(season.preserve(name), leaking=leaking):
        st.markdown(f"- {step.words}")
    mates = model.batch_mates(season, name, code or "", today)
    if mates:
        st.markdown(
            f"**Look at {count(len(mates), 'batch', 'batches')} before any jar is opened:**"
        )
        for mate in mates:
            st.text(f"{mate.batch.code} ({mate.why})")
    units = st.number_input(
        "How many are thrown away", 1.0, 1000.0, 1.0, 1.0, key=f"suspect_n_{form}"
    )
    words = f"{count(units, 'suspect jar')} of {name} thrown away, on {short_day(today)}"
    save_button(
        "suspect_save",
        "Write it off",
        [_edit(Taken(today, name, units, LOST, SUSPECT, code or ""))],
        words,
    )


def _edit(taken: Taken) -> Edit:
    return Edit(
        "taken.csv",
        {
            "taken_on": f"{taken.day}",
            "preserve": taken.preserve,
            "jars": f"{taken.units:.6g}",
            "why": taken.why,
            "cause": taken.cause,
            "batch": taken.batch,
        },
    )
