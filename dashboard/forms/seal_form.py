"""The morning after: how many jars sealed, and what to do with those that did not."""

from collections.abc import Sequence
from datetime import date, datetime, time

import streamlit as st

import model
from dashboard import session
from dashboard.forms.past_day import past_day
from dashboard.forms.writing import save_button
from dashboard.record_findings import cause_words
from dashboard.words import at_clock, capital, count
from model import WENT, Batch, Edit, Season

NEARLY = 4
_, FROZEN, REPROCESSED, *_ = WENT


def seal_form(season: Season, waiting: Sequence[Batch]) -> None:
    """Ask for the sealed jars of one batch; show the ways that remain for the others."""
    if cause := cause_words(model.cause_table(season, session.today())):
        st.markdown(cause)
    if not waiting:
        st.markdown("No batch is waiting to be looked at.")
        return
    now = session.moment()
    zone = season.zone
    due = model.seals_to_look_at(season, now, zone)
    early = [batch for batch in waiting if batch not in due]
    for batch in early:
        times = model.seal_times(batch, zone)
        st.text(f"{batch.code}: leave it untouched until {at_clock(times.look_from)}.")
    if due:
        codes = [batch.code for batch in due]
        code = st.selectbox("Batch", codes, key=f"seal_{session.form()}")
        _look_at(season, next(batch for batch in due if batch.code == code))


def _look_at(season: Season, batch: Batch) -> None:
    form, times = session.form(), model.seal_times(batch, season.zone)
    st.caption(
        "Press the middle of each lid: sealed, it is curved down and does not move. Count only "
        "jars that are sealed. Until this is done the batch is not counted as sure."
    )
    sealed = _sealed(batch, form)
    checked = past_day("Looked at on", f"sealed_day_{form}", earliest=times.look_from.date())
    failed = 0.0 if sealed is None else batch.filled - sealed
    went = _failed(season, batch, failed, _looked(checked, times.look_from), form) if failed else ""
    ready = sealed is not None and checked is not None and bool(went or not failed)
    words = f"{count(sealed or 0, 'jar')} sealed of {batch.code}"
    if went:
        words += f", {failed:g} {went}"
    cells = {
        "batch": batch.code,
        "checked_on": f"{checked}",
        "sealed": f"{sealed or 0:g}",
        "failed_went": went,
    }
    save_button(
        "sealed_save",
        f"Save: {words}" if ready else "Save",
        [Edit("seals.csv", cells)] if ready else [],
        capital(words),
        missing="Say how many sealed, and where those went that did not.",
    )


def _looked(checked: date | None, look_from: datetime) -> datetime:
    """Give the first moment at which lids can have been looked at: now, or on a day before."""
    now = session.moment()
    if checked is None or checked >= session.today():
        return now
    begins = datetime.combine(checked, time(), look_from.tzinfo)
    return min(now, max(begins, look_from))


def _sealed(batch: Batch, form: str) -> float | None:
    """Ask how many sealed: mostly all or nearly all did, which takes one tap."""
    key = f"sealed_{form}_{batch.code}"
    near = [batch.filled - fewer for fewer in range(NEARLY) if fewer <= batch.filled]
    label = f"Sealed, of {batch.filled:g} filled"
    tapped = st.pills(label, near, format_func=lambda number: f"{number:g}", key=f"{key}_near")
    typed = st.number_input(
        "Or another number",
        0.0,
        batch.filled,
        None,
        1.0,
        format="%g",
        key=key,
        placeholder="count them",
    )
    return tapped if typed is None else typed


def _failed(season: Season, batch: Batch, failed: float, now: datetime, form: str) -> str:
    """Show what can still be done with unsealed jars, and ask what is done."""
    times = model.seal_times(batch, season.zone)
    ways = model.ways_for_unsealed(season, batch, now, season.zone)
    if now < times.limit:
        st.warning(f"{count(failed, 'jar')} not sealed. Until **{at_clock(times.limit)}** you can:")
    else:
        st.error(
            f"{count(failed, 'jar')} not sealed. The 24 hours ended at {at_clock(times.limit)}: "
            "processing again is no longer a way."
        )
    if not times.known:
        st.caption("Nobody wrote when the process ended, so the day's first moment counts.")
    known = dict.fromkeys(way.step.went for way in ways if way.step.went in WENT)
    for way in ways:
        st.markdown(f"- {way.step.words}")
    if now < times.limit:
        later = model.ways_for_unsealed(season, batch, times.limit, season.zone)
        for way in later:
            st.markdown(f"- **From {at_clock(times.limit)} on**: {way.step.words}")
        known |= dict.fromkeys(way.step.went for way in later if way.step.went in WENT)
    went = st.pills("Where they go", list(known), key=f"failed_{form}_{batch.code}") or ""
    if went == FROZEN:
        st.caption(
            "What is frozen is not counted by itself: write it down as put up too, if you have a "
            "preserve for such packs."
        )
    if went == REPROCESSED:
        st.caption(
            "When they come out again, write them down as put up, with this batch under "
            "'Unsealed jars processed again'."
        )
    return went
