"""The ten-minute count: place by place, what stands there; it overrules the book."""

from collections import Counter
from collections.abc import Mapping
from dataclasses import replace
from datetime import date

import streamlit as st

import model
from dashboard import session
from dashboard.forms.past_day import past_day, told_day, typed_past_day
from dashboard.forms.writing import IS_RIGHT, save_button, stored_rows, sure
from dashboard.words import capital, count, day, listed, local, speaker
from model import Edit, Ledger, Preserve, Season


def count_form(season: Season, books: Mapping[str, Ledger]) -> None:
    """Ask for the jars of one place, and write down those that were counted."""
    form, today = session.form(), session.today()
    places = [p.name for p in season.places if any(own.place == p.name for own in season.preserves)]
    st.caption(
        "Ten minutes every six to eight weeks are enough. Fill in what you counted; what is left "
        "empty was not counted. A count stands for the end of its day, and where it differs from "
        "the book the difference is booked as unknown, not as eaten."
    )
    place = st.segmented_control(
        "Place", places, default=places[0], format_func=speaker(), key=f"count_place_{form}"
    )
    counted_on = past_day("Counted on", f"count_day_{form}")
    made = typed_past_day(
        "Put up about (only for what the book does not know)",
        f"count_made_{form}",
        season.frosts.first_autumn.median.on_or_before(today),
    )
    st.caption(
        "Press every lid as you count: a jar whose lid gives is not counted. More than a day after "
        "it was put up it is thrown away."
    )
    found: dict[str, float] = {}
    unseen = unlooked_at(season, counted_on or today)
    here = [p for p in season.preserves if p.place == place]
    here.sort(key=lambda p: (books[p.name].units == 0, p.name))
    for columns, preserve in zip(_columns(len(here)), here, strict=True):
        with columns:
            number = _counted(preserve, books[preserve.name].units, form)
            if waiting := unseen.get(preserve.name):
                st.caption(f"{waiting:g} more wait for a look at their seals: leave them out.")
        if number is not None:
            found[preserve.name] = number
    ready = bool(found) and counted_on is not None and made is not None
    edits = count_edits(season, found, counted_on, made) if ready else []
    before = _counted_before(found, counted_on) if ready else {}
    seen = _seen_as_well(found, counted_on) if ready else []
    if before:
        names = listed(dict.fromkeys(before.values()))
        st.caption(f"{local(capital(names))}: counted on that day already. This count replaces it.")
    words = f"{count(len(found), 'preserve')} in {place}" if ready else ""
    then = books if counted_on in (None, today) else model.ledgers(season, counted_on)
    known = sure(count_doubt(found, then, unseen), "count_sure")
    changes = [*(Edit("stock.csv", None, row_id) for row_id in before), *edits, *seen]
    save_button(
        "count_save",
        f"Save: {words}" if ready else "Save",
        changes if known else [],
        f"Counted {words} on {told_day(counted_on or today)}",
        missing=IS_RIGHT if changes else "Fill in what you counted.",
    )
    for name, number in found.items():
        _difference(then[name], number, books[name].counted)


def unlooked_at(season: Season, day: date) -> Counter[str]:
    """Count the jars of each preserve that are too fresh for a count of a day to have seen."""
    jars = Counter[str]()
    for batch in model.unseen_by_count(season, day):
        jars[batch.preserve] += int(batch.filled)
    return jars


def count_doubt(
    found: Mapping[str, float], books: Mapping[str, Ledger], unseen: Mapping[str, float]
) -> str:
    """Ask whether jars were counted that count only once their seals were looked at."""
    asked = [
        f"{number:g} of {name}, where the book has {books[name].units:g} and {unseen[name]:g} wait "
        "for a look at their seals"
        for name, number in found.items()
        if unseen.get(name) and number > books[name].units
    ]
    return f"You counted {listed(asked)}. Those are left out?" if asked else ""


def _counted(preserve: Preserve, by_book: float, form: str) -> float | None:
    """Ask how many there are; as many as by the book takes one tap."""
    key = f"count_{form}_{preserve.name}"
    typed = st.number_input(
        local(f"{capital(preserve.name)} ({preserve.unit})"),
        0.0,
        100_000.0,
        None,
        1.0,
        format="%g",
        key=key,
        placeholder=f"by the book {by_book:g}",
    )
    if not by_book:
        return typed
    tapped = st.pills(
        f"As many {preserve.name} as by the book",
        [by_book],
        format_func=lambda number: f"{number:g}, as by the book",
        key=f"{key}_same",
        label_visibility="collapsed",
    )
    return tapped if typed is None else typed


def _columns(number: int) -> list[st.delta_generator.DeltaGenerator]:
    across = 3
    rows = [st.columns(across) for _ in range(-(-number // across))]
    return [column for row in rows for column in row][:number]


def _difference(book: Ledger, number: float, newest: date | None) -> None:
    """Say what a count differs by from the book of its day, or that a newer one stands."""
    name = local(capital(book.preserve))
    if newest and newest != book.counted:
        st.caption(
            f"{name}: counted again on {day(newest)}. That count stands: this one changes nothing "
            "of today."
        )
        return
    differs = number - book.units
    if abs(differs) > 1e-6:
        seen = f"counted {day(book.counted)} before" if book.counted else "never counted before"
        st.caption(f"{name}: {differs:+g} against the book ({seen}).")


def _counted_before(found: dict[str, float], counted_on: date) -> dict[int, str]:
    """Give the rows of earlier counts of a day that these ones replace, with their preserves."""
    names = {name.lower(): name for name in found}
    return {
        row_id: names[cells["preserve"].lower()]
        for row_id, cells in stored_rows("stock.csv").items()
        if cells.get("counted_on") == f"{counted_on}" and cells["preserve"].lower() in names
    }


def _seen_as_well(found: dict[str, float], counted_on: date) -> list[Edit]:
    """Let a count have seen what was taken of an earlier one of its day, if it finds as many."""
    names = {name.lower() for name in found}
    return [
        Edit("taken.csv", {**cells, "of_counted": ""}, row_id)
        for row_id, cells in stored_rows("taken.csv").items()
        if cells.get("taken_on") == f"{counted_on}"
        and cells.get("of_counted")
        and cells["preserve"].lower() in names
    ]


def count_edits(
    season: Season, found: Mapping[str, float], counted_on: date, made: date
) -> list[Edit]:
    """Write counts as rows, one a making; what the book does not know was made on ``made``."""
    others = (c for c in season.counts if c.day != counted_on or c.preserve not in found)
    books = model.ledgers(replace(season, counts=tuple(others)), counted_on)
    return [
        Edit(
            "stock.csv",
            {
                "counted_on": f"{counted_on}",
                "preserve": name,
                "jars": f"{units:g}",
                "put_up_on": f"{min(put_up, counted_on)}" if units else "",
            },
        )
        for name, number in found.items()
        for put_up, units in model.makings_counted(books[name], number, made)
    ]
