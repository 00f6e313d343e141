"""Something went wrong: a place is written off in one action, or one jar is suspect."""

import math
from collections import Counter
from collections.abc import Mapping, Sequence
from datetime import date, timedelta

import streamlit as st

import model
from dashboard import session
from dashboard.doubts import taken_doubt
from dashboard.forms.writing import IS_RIGHT, save_button, stored_rows, sure
from dashboard.units import US, units_of
from dashboard.words import capital, count, listed, short_day, speaker, typed_day
from model import (
    CAUSES,
    CELSIUS,
    FAHRENHEIT,
    FREEZER_DIED,
    LOST,
    SUSPECT,
    Edit,
    Ledger,
    Season,
    Taken,
)

FREEZER, PLACES, JARS = "freezer", "places.csv", "jars.csv"
SHELF_FELL = "shelf fell"
LONGEST = timedelta(days=731)
PLACE, JAR = "A whole place", "One suspect jar"


def incident_form(season: Season, books: Mapping[str, Ledger]) -> None:
    """Ask what happened, say what to do, and write off what is gone."""
    what = st.segmented_control(
        "What", [PLACE, JAR], default=PLACE, key=f"incident_{session.form()}"
    )
    if what == JAR:
        _suspect(season, books)
    else:
        _place(season, books)


def _place(season: Season, books: Mapping[str, Ledger]) -> None:
    form, today = session.form(), session.today()
    kinds = {place.name: place.kind for place in season.places}
    place = st.segmented_control(
        "Where", list(kinds), format_func=speaker(), key=f"incident_place_{form}"
    )
    cold = kinds.get(place or "", FREEZER) == FREEZER
    causes = [c for c in CAUSES if c != SUSPECT and (cold or c != FREEZER_DIED)]
    cause = st.selectbox("What happened", causes, index=None, key=f"incident_cause_{form}")
    if cause == FREEZER_DIED:
        _thawed(season, form)
    if not place or not cause:
        return
    gone = model.write_off(season, books, place, cause, today)
    if not gone:
        st.markdown(f"By the book nothing stands in {place}.")
        return
    st.markdown(
        f"It would be written off: {listed([_told(season, taken) for taken in gone], len(gone))}. "
        "What was saved is put back by a count."
    )
    edits = [_edit(taken) for taken in gone]
    if cause == FREEZER_DIED:
        edits += _works_again(place, form)
    if cause == SHELF_FELL:
        edits += _broken(season, gone, form)
    _say_counted(gone)
    words = f"{place} written off, {cause}, on {short_day(today)}"
    save_button(
        "incident_save",
        f"Write off everything in {place}",
        edits,
        capital(words),
    )


def _works_again(place: str, form: str) -> list[Edit]:
    """Ask from when a freezer works again, so that nothing is planned for it before."""
    today = session.today()
    asked = st.date_input(
        "It works again from (or there is another); blank where nobody knows",
        None,
        min_value=today,
        max_value=today + LONGEST,
        format=typed_day(),
        key=f"incident_works_{form}",
    )
    if not isinstance(asked, date):
        st.caption(
            "Without a day the plan takes it to be mended by the time something is to be frozen. "
            "Until something is put up for it or counted in it, nothing frozen is proposed against "
            "a bad winter."
        )
        return []
    row, cells = next(
        (row, cells) for row, cells in stored_rows(PLACES).items() if cells.get("place") == place
    )
    return [Edit(PLACES, {**cells, "works_from": asked.isoformat()}, row)]


def _broken(season: Season, gone: Sequence[Taken], form: str) -> list[Edit]:
    """Take jars that broke off those that are owned, where the notes say how many there are."""
    broken = Counter[str]()
    for taken in gone:
        own = season.preserve(taken.preserve)
        if own.canned and own.jar:
            broken[own.jar] += math.ceil(taken.units)
    rows = [
        Edit(JARS, {**cells, "owned": f"{max(0, int(cells['owned']) - broken[cells['jar']])}"}, row)
        for row, cells in stored_rows(JARS).items()
        if cells.get("owned") and broken[cells["jar"]]
    ]
    if not rows:
        return []
    label = f"{count(broken.total(), 'jar')} broke: take them off the jars you own"
    return rows if st.toggle(label, value=True, key=f"incident_broke_{form}") else []


def _told(season: Season, taken: Taken) -> str:
    own = season.preserve(taken.preserve)
    unseen = ", seals not looked at" if taken.batch else ""
    return f"{units_of(taken.units, own.unit, season.units)} of {taken.preserve}{unseen}"


def _say_counted(gone: Sequence[Taken]) -> None:
    """Say which losses are taken off a count of today."""
    counted = [taken.preserve for taken in gone if taken.of_counted is not None]
    if counted:
        st.caption(
            f"Counted today: {listed(counted, 12)}. The loss is taken off what that count found. "
            "If it came after the loss, it has seen it already: then there is nothing to write "
            "off. Count what was saved: that replaces the count of today, loss and all."
        )


def _thawed(season: Season, form: str) -> None:
    """Ask what is known of a thaw; what is unknown is written off, whatever it looks like."""
    for step in model.thaw_steps():
        st.markdown(f"- {step.words}")
    scale = FAHRENHEIT if season.units == US else CELSIUS
    ice = st.segmented_control(
        "Ice crystals still in the packs", ["yes", "no", "not known"], key=f"thaw_ice_{form}"
    )
    measured = st.number_input(
        f"Warmest reading of a thermometer in there ({scale})",
        -60.0,
        140.0,
        None,
        1.0,
        format="%g",
        key=f"thaw_measured_{form}",
        placeholder="nobody measured",
    )
    froze_again = st.toggle(
        "It may have thawed and frozen again before anybody looked", key=f"thaw_again_{form}"
    )
    if model.may_be_frozen_again(
        ice_crystals=ice == "yes", measured=measured, scale=scale, froze_again=froze_again
    ):
        st.warning(
            "Pack by pack: those of which this holds may be frozen again, all others are thrown "
            "away. Write everything off here, then count what was saved."
        )
        if (
            not model.may_be_frozen_again(
                ice_crystals=False, measured=measured, scale=scale, froze_again=froze_again
            )
            and measured is not None
        ):
            st.warning(
                "That reading is too warm: only a pack in which you feel ice crystals yourself is "
                "one of those, and no other."
            )
    else:
        st.error(
            "Write it off: nothing that is known says that it stayed cold. Neither smell nor look "
            "nor taste proves anything."
        )


def _suspect(season: Season, books: Mapping[str, Ledger]) -> None:
    form, today = session.form(), session.today()
    canned = [p.name for p in season.preserves if p.canned]
    name = st.selectbox(
        "What is in it", canned, index=None, format_func=speaker(), key=f"suspect_{form}"
    )
    if name is None:
        st.caption("A jar that bulges, leaks, spurts, smells or has let go: do not taste it.")
        return
    there = [b for b in season.record.batches if b.preserve == name and b.put_up <= today]
    codes = [batch.code for batch in reversed(there)]
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
        "How many are thrown away", 1.0, 1000.0, 1.0, 1.0, format="%g", key=f"suspect_n_{form}"
    )
    of_counted = books[name].count_of(today)
    gone = Taken(today, name, units, LOST, SUSPECT, code or "", of_counted=of_counted)
    _say_counted([gone])
    known = sure(taken_doubt(books[name], units), "suspect_sure")
    words = f"{count(units, 'suspect jar')} of {name} thrown away, on {short_day(today)}"
    save_button(
        "suspect_save",
        "Write it off",
        [_edit(gone)] if known else [],
        words,
        missing=IS_RIGHT,
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
            "of_counted": "" if taken.of_counted is None else f"{taken.of_counted:g}",
        },
    )
