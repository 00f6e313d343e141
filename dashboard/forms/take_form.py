"""What left the shelf: eaten, given or lost."""

from collections import Counter
from datetime import date

import streamlit as st

import model
from dashboard import session
from dashboard.doubts import taken_doubt
from dashboard.forms.past_day import past_day, told_day
from dashboard.forms.writing import IS_RIGHT, save_button, sure
from dashboard.units import units_of
from dashboard.words import capital, day, local, speaker
from model import CAUSES, EATEN, LOST, WHYS, Edit, Ledger, Season

MOST_PRESERVES = 12
NUMBERS = (0.5, 1.0, 2.0, 3.0, 4.0, 6.0)
BEFORE, AFTER = "before the count", "after the count"


def take_form(season: Season) -> None:
    """Ask what was taken from the shelf, and write it down."""
    form, today = session.form(), session.today()
    books = model.ledgers(season, today)
    there = [name for name, book in books.items() if book.units > 0]
    if not there:
        st.markdown("By the book nothing stands on the shelf. Count what is there.")
        return
    often = Counter(taken.preserve for taken in season.record.taken)
    likely = sorted(there, key=lambda name: -often[name])
    chosen = st.pills(
        "What was taken", likely[:MOST_PRESERVES], format_func=speaker(), key=f"take_{form}"
    )
    other = st.selectbox(
        "Another preserve",
        sorted(likely[MOST_PRESERVES:]),
        index=None,
        format_func=speaker(),
        key=f"take_other_{form}",
    )
    name = other or chosen
    number = st.pills(
        "How many", NUMBERS, default=1.0, format_func=lambda n: f"{n:g}", key=f"take_n_{form}"
    )
    why = st.segmented_control("Why", WHYS, default=WHYS[0], key=f"take_why_{form}") or WHYS[0]
    cause, unfinished = _what_of_it(season, name, why, form)
    taken_on = past_day("On", f"take_day_{form}")
    of_counted: float | None = None
    if name is not None and taken_on is not None:
        taken_on, of_counted = _seen_by_the_count(books[name], taken_on, form)
    ready = name is not None and bool(number) and taken_on is not None
    words = ""
    if ready:
        unit = season.preserve(name).unit
        words = f"{units_of(number, unit, season.units)} of {name} {why}, on {told_day(taken_on)}"
    doubt = ""
    if ready and not of_counted and taken_on and taken_on > (books[name].counted or date.min):
        doubt = taken_doubt(books[name], number or 0.0)
    known = sure(doubt, "take_sure")
    cells = {
        "taken_on": f"{taken_on}",
        "preserve": name or "",
        "jars": f"{number or 0:g}",
        "why": why,
        "cause": cause or "",
        "unfinished": "yes" if unfinished else "",
        "of_counted": "" if of_counted is None else f"{of_counted:g}",
    }
    save_button(
        "take_save",
        local(f"Save: {words}") if ready else "Save",
        [Edit("taken.csv", cells)] if ready and known else [],
        f"Took {words}",
        missing=IS_RIGHT if ready else "Choose what was taken, and how many.",
    )


def _what_of_it(season: Season, name: str | None, why: str, form: str) -> tuple[str | None, bool]:
    """Ask for the cause of a loss, or whether a jar that was eaten was finished."""
    if why == LOST:
        return st.selectbox("Cause", CAUSES, index=None, key=f"take_cause_{form}"), False
    if why != EATEN or name is None or not season.preserve(name).canned:
        return None, False
    left = "Not finished: part of it was thrown away"
    return None, st.toggle(left, key=f"take_unfinished_{form}_{name}")


def _seen_by_the_count(book: Ledger, taken_on: date, form: str) -> tuple[date | None, float | None]:
    """Say what a count of that day or later makes of it; of that day, ask which came first.

    Gives the day, None while that is not said, and what that count found where it came first.
    """
    if book.counted is None or taken_on > book.counted:
        return taken_on, None
    counted = f"{local(capital(book.preserve))}: counted on {day(book.counted)}"
    if taken_on < book.counted:
        st.caption(f"{counted}. That count has seen it already: what stands there stays the same.")
        return taken_on, None
    asked = st.segmented_control(
        f"{counted}. Taken",
        [BEFORE, AFTER],
        key=f"take_counted_{form}_{book.preserve}",
    )
    st.caption(
        "What was taken before it is in the count already, and what stands there stays the same; "
        "what was taken after it is taken off what it found. Or count again: that replaces the "
        "count of the day, and all that was taken before."
    )
    if asked is None:
        return None, None
    return taken_on, book.count_of(taken_on) if asked == AFTER else None
