"""What was sown or planted: of what the plan has near its day, how much and when."""

import math
from collections.abc import Mapping
from datetime import date, timedelta

import streamlit as st

from dashboard import session
from dashboard.cached import planned
from dashboard.entries import day_in, is_guess
from dashboard.forms.past_day import past_day
from dashboard.forms.writing import save_button, stored_rows
from dashboard.units import from_own, in_own
from dashboard.words import local, short_day
from model import US, Edit, PlanningError, Season

PLANTINGS, METRIC = "plantings.csv", "metric"
# Nobody writes down at once what was sown; what is far ahead is not sown yet: judgements.
BACK, AHEAD = timedelta(weeks=10), timedelta(weeks=3)
# What is still a guess is asked for as long as its season lasts.
BACK_OF_GUESSES = timedelta(weeks=40)
SOWN, OUT = "sown", "planted_out"
# The column that says which step was done last.
LAST = "done"
SETTLED = {"least_percent": "100", "most_percent": "100"}
DONE = {SOWN: "Sown", OUT: "Planted out"}
TO_DO = {SOWN: "to sow", OUT: "to plant out"}
# How much is measured, and in whose units it stands under a heading.
AMOUNTS = {
    "plants": ("plant", METRIC),
    "area_m2": ("m2 of bed", METRIC),
    "area_ft2": ("m2 of bed", US),
    "row_m": ("m of row", METRIC),
    "row_ft": ("m of row", US),
}


def sown_form(season: Season) -> None:
    """Ask which planting was sown or planted out, how much of it and when."""
    form = session.form()
    due = {
        row: cells
        for row, cells in stored_rows(PLANTINGS).items()
        if any(_near(day, cells) for day in _days(cells)) and _amount(cells)
    }
    if not due:
        st.markdown("By the notes nothing is to be sown or planted out in these weeks.")
        return
    order = sorted(due, key=lambda row: _likely(due[row]))
    # told now: the chooser asks again once the page has run, and then in no tongue
    told = {row: _told(due[row]) for row in order}
    row = st.selectbox(
        "What was sown or planted", order, format_func=told.__getitem__, key=f"sown_{form}"
    )
    cells = due[row]
    steps = [step for step in DONE if cells.get(step)]
    left = _to_do(cells) or steps
    step = near = min(left, key=lambda step: _off(day_in(cells[step])))
    if len(steps) > 1:
        step = st.segmented_control(
            "Step",
            steps,
            default=near,
            required=True,
            format_func=lambda step: DONE[step],
            key=f"sown_step_{form}_{row}",
        )
    heading = _amount(cells)
    per, there = AMOUNTS[heading]
    word = "plants" if per == "plant" else in_own(1.0, per, season.units)[1]
    amount = st.number_input(
        f"How much ({word})",
        0.0,
        None,
        _planned(cells, heading, season.units),
        1.0,
        format="%g",
        key=f"sown_much_{form}_{row}",
    )
    day = past_day("When", f"sown_day_{form}_{row}")
    if day is None:
        return
    amount = amount or 0.0
    amount = round(amount) if per == "plant" else amount
    written = in_own(from_own(amount, per, season.units), per, there)[0]
    words = f"{amount:g} {word} of {cells['crop']} in {cells['bed']}"
    last = OUT if cells.get(LAST) == DONE[OUT].lower() else step
    made = {heading: f"{written:.6g}", step: f"{day}", LAST: DONE[last].lower()}
    edits = _edits(row, cells, made)
    save_button(
        "sown_save",
        local(f"Save: {words}, {short_day(day)}"),
        edits if amount else [],
        f"{DONE[step]} {words} on {short_day(day)}",
        missing="Say how much. What was not sown at all is taken out under Notes in and out.",
    )
    st.caption(
        "From now on the plan counts on so much of it. What is never written down is taken to "
        "have been planted as the notes say, and where they only guess, as the plan says."
    )


def _edits(row: int, cells: Mapping[str, str], done: Mapping[str, str]) -> list[Edit]:
    """Write down what was done: the plan may choose neither its amount nor its bed any more."""
    left = {name: cell for name, cell in cells.items() if name != "choice"}
    if is_guess(cells):
        del left["note"]
    others = [
        Edit(PLANTINGS, None, other)
        for other, also in stored_rows(PLANTINGS).items()
        if other != row
        and cells.get("choice")
        and (also.get("choice"), also.get("season")) == (cells["choice"], cells["season"])
    ]
    return [Edit(PLANTINGS, {**left, **SETTLED, **done}, row), *others]


def _planned(cells: Mapping[str, str], heading: str, units: str) -> float | None:
    """Give how much the plan has of a planting, or the notes where they settle it, in own units.

    None where there is no plan: Save would make a fact of what the notes only guess.
    """
    per, there = AMOUNTS[heading]
    written = round(in_own(from_own(float(cells[heading]), per, there), per, units)[0], 1)
    if all(cells.get(name) == part for name, part in SETTLED.items()):
        return written
    try:
        plan = planned(session.seasons(), session.today())
    except PlanningError:
        return None
    for planting, amount in zip(plan.case.forecast.plantings, plan.plan.amounts, strict=True):
        dates = {SOWN: planting.sown, OUT: planting.planted_out}
        same = all(
            cells.get(step, "") == (f"{when}" if when else "") for step, when in dates.items()
        )
        if same and (planting.crop, planting.bed) == (cells["crop"], cells["bed"]) and amount:
            own = in_own(float(amount), per, units)[0]
            return float(math.ceil(own - 1e-9)) if per == "plant" else round(own, 1)
    return written


def _likely(cells: Mapping[str, str]) -> tuple[bool, bool, timedelta]:
    """Put first what is not written down yet, then guesses, then what is due about now."""
    days = [day for step in _to_do(cells) if (day := day_in(cells[step])) and _near(day, cells)]
    return not days, not is_guess(cells), min(map(_off, days or _days(cells)))


def _near(day: date, cells: Mapping[str, str]) -> bool:
    back = BACK_OF_GUESSES if is_guess(cells) else BACK
    return session.today() - back <= day <= session.today() + AHEAD


def _amount(cells: Mapping[str, str]) -> str:
    return next((name for name in AMOUNTS if cells.get(name)), "")


def _to_do(cells: Mapping[str, str]) -> list[str]:
    """List the steps that are dated and not written down as done."""
    over = {DONE[SOWN].lower(): [SOWN], DONE[OUT].lower(): list(DONE)}.get(cells.get(LAST, ""), [])
    return [step for step in DONE if cells.get(step) and step not in over]


def _days(cells: Mapping[str, str]) -> list[date]:
    found = (day_in(cells.get(step, "")) for step in DONE)
    return [day for day in found if day is not None]


def _off(day: date | None) -> timedelta:
    return abs(day - session.today()) if day else timedelta.max


def _told(cells: Mapping[str, str]) -> str:
    to_do = _to_do(cells)
    dated = ", ".join(
        f"{TO_DO[step] if step in to_do else DONE[step].lower()} {short_day(day)}"
        for step in DONE
        if (day := day_in(cells.get(step, "")))
    )
    return local(f"{cells['crop']}, {cells['bed']}: {dated}")
