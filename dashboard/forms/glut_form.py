"""A glut on the table: what lies there, how many hours there are, and what becomes of it."""

from datetime import datetime, time

import streamlit as st

import model
from dashboard import place, session
from dashboard.cached import newest
from dashboard.day_findings import bedtime_words, clock
from dashboard.look import faults, table
from dashboard.process import process_lines
from dashboard.question_tables import glut_rows
from dashboard.said import OnTable
from dashboard.units import from_own, in_own, units_of, weight
from dashboard.words import capital, listed, local, speaker
from model import GlutSplit, PlannedSeason, Wanted

MOST = 500.0
START, USUAL_HOURS = time(9, 0), 4.0


def glut_form(plan: PlannedSeason) -> dict[str, float]:
    """Ask for the pile and the hours, and show the split at once; gives the pile, kg by crop."""
    known = session.on_table()
    before = known or OnTable({}, {}, USUAL_HOURS)
    crops, hours, start = st.columns([3, 1, 1], gap="medium")
    scope, units = session.scope(), plan.case.season.units
    to_hand = _to_hand(plan)
    with crops:
        chosen = st.multiselect(
            "What lies on the table",
            plan.case.arrays.crops,
            list(known.pile_kg) if known else list(to_hand)[:3],
            format_func=speaker(),
            key=f"glut_{scope}",
        )
    with hours:
        free = st.number_input(
            "Free hours for it", 0.0, 100.0, before.hours, 0.5, format="%g", key=f"glut_h_{scope}"
        )
    with start:
        first = session.day_begins() or START
        begins = st.time_input("Starting at", first, key=f"glut_at_{scope}") or first
    pile_kg = _weights(chosen, to_hand | before.pile_kg, units)
    if told := _put_up_of_it(plan, pile_kg):
        st.caption(local(told))
    some = any(pile_kg.values())
    bruised_kg = _bruised(pile_kg, before.bruised_kg, units) if some else {}
    session.put_on_table(OnTable(pile_kg, bruised_kg, free))
    if not some:
        st.caption("Choose what lies there and give its weight.")
        return {}
    try:
        pile = newest(
            plan,
            "the glut",
            (pile_kg, bruised_kg),
            lambda: model.Glut(plan, pile_kg, bruised_kg),
        )
        split = pile.split(free)
    except model.SeasonProblems as error:
        faults(error, "This pile cannot be split.")
    else:
        _show(plan, split, begins)
    return pile_kg


def _to_hand(plan: PlannedSeason) -> dict[str, float]:
    """Give what lies there from before and is to be picked this week, kg by crop.

    What was picked and still holds lies on the table, and stands first; then the most.
    """
    fresh, season, today = model.fresh_table(plan, 0), plan.case.season, plan.case.today
    kg = dict(zip(fresh["crop"], fresh["expected_kg"] + fresh["before_kg"], strict=True))
    lies = {
        picking.crop
        for picking in season.pickings
        if 0 <= (today - picking.day).days <= season.crop(picking.crop).hold_days
    }
    return dict(sorted(kg.items(), key=lambda one: (one[0] not in lies, -one[1])))


def _put_up_of_it(plan: PlannedSeason, pile_kg: dict[str, float]) -> str:
    """Say what of these crops was put up today already: whether of this pile nobody wrote."""
    season, told = plan.case.season, []
    for name, number in model.put_up_on(season, plan.case.today).items():
        own = season.preserve(name)
        kg = sum(part.kg * number for part in own.ingredients if pile_kg.get(part.crop))
        if kg:
            made = units_of(number, own.unit, season.units)
            told.append(f"{made} of {name} ({weight(kg, season.units)})")
    if not told:
        return ""
    return f"Put up today already: {listed(told, len(told))}. Take it off, if it was of this pile."


def _weights(crops: list[str], usual_kg: dict[str, float], units: str) -> dict[str, float]:
    pile_kg = {}
    word = in_own(1.0, "kg", units)[1]
    for column, crop in zip(st.columns(max(3, len(crops))), crops, strict=False):
        with column:
            usual = round(in_own(usual_kg.get(crop, 0.0), "kg", units)[0], 1)
            given = st.number_input(
                f"{local(capital(crop))} ({word})",
                0.0,
                MOST,
                min(usual, MOST),
                0.5,
                format="%g",
                key=f"glut_{crop}_{session.scope()}",
            )
            pile_kg[crop] = from_own(given, "kg", units)
    return pile_kg


def _bruised(pile_kg: dict[str, float], known_kg: dict[str, float], units: str) -> dict[str, float]:
    """Ask how much of each crop is bruised or cut."""
    scope = session.scope()
    if not st.toggle(
        "Some of it is bruised or cut", any(known_kg.values()), key=f"glut_bruised_{scope}"
    ):
        return {}
    word = in_own(1.0, "kg", units)[1]
    crops = [crop for crop, kg in pile_kg.items() if kg]
    bruised_kg = {}
    for column, crop in zip(st.columns(max(3, len(crops))), crops, strict=False):
        with column:
            given = st.number_input(
                f"{local(capital(crop))}, of it bruised ({word})",
                0.0,
                MOST,
                round(in_own(known_kg.get(crop, 0.0), "kg", units)[0], 1),
                0.5,
                format="%g",
                key=f"glut_bruised_{crop}_{scope}",
            )
            bruised_kg[crop] = from_own(given, "kg", units)
    return bruised_kg


def _show(plan: PlannedSeason, split: GlutSplit, begins: time) -> None:
    season, units = plan.case.season, plan.case.season.units
    made, refused = model.day_products(season, split.wanted)
    start = datetime.combine(plan.case.today, begins)
    sheet = model.day_sheet(season, made, refused, start, past_bedtime=True)
    work = f"Done about **{clock(sheet.finish, start)}**. " if sheet.loads else ""
    work = work or "Nothing to put up. "
    limit, _, why = split.limit.partition(": ")
    st.markdown(f"{work}What limits it: **{local(limit)}** ({local(why)}).")
    if late := bedtime_words(sheet):
        st.warning(local(late))
    table(glut_rows(model.glut_table(split), sheet, units), height="content", key="glut_split")
    if split.wanted:
        _take_to_the_day(plan, split, begins)
    if any(step.bruised_kg for step in split.steps):
        st.markdown(
            "What is bruised or cut is trimmed and used up first. It neither waits nor goes to "
            "the store; what is mouldy or rotten is not put up at all."
        )
    named = {step.preserve for step in split.steps}
    for preserve in plan.case.season.preserves:
        card = model.ProcessCard.of_preserve(preserve, plan.case.season.altitude_ft)
        if card is not None and preserve.name in named:
            process_lines(card, local(capital(preserve.name)))
    st.caption(
        "Eat first, then work as the preserving day orders it, which fills the next load while one "
        "is in the canner: its hours are those of the clock. Kitchen time is that of each by "
        "itself. Times are for planning: follow a current tested recipe, and fill no jar for "
        "which you have not read its process."
    )


def _take_to_the_day(plan: PlannedSeason, split: GlutSplit, begins: time) -> None:
    """Make the split what the preserving day is about, beside what was put up today already."""
    there = model.put_up_on(plan.case.season, plan.case.today)
    wanted = *(Wanted(name, round(units)) for name, units in there.items()), *split.wanted

    icon = place.PLACES[place.DAY][1]
    if st.button("Take this to the preserving day", key="glut_day", icon=icon):
        session.want_today(wanted)
        session.begin_day_at(begins)
        st.switch_page(place.DAY)
