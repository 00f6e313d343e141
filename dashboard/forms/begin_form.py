"""A household of its own, begun from a dozen answers; everything else is a guess to replace."""

from dataclasses import dataclass
from datetime import date

import streamlit as st

import model
from dashboard import kept, session
from dashboard.cached import planned
from dashboard.look import choice, faults
from dashboard.units import US, from_own
from model import FirstAnswers, PlanningError, YearDay

NONE = "none"


@dataclass(frozen=True)
class _Given:
    """What was typed, in the units of the household."""

    name: str
    adults: int
    children: str
    altitude: str
    area: float
    spring: date
    autumn: date
    canner: str
    freezer: float
    shelf: float
    store: float
    hours: float


def begin_form() -> None:
    """Ask for what a first plan needs, plan it, and keep it."""
    units = choice("Units", ["metric", US], key="first_units")
    with st.form("first"):
        given = _asked(us=units == US)
        st.caption(
            "Portions, yields and jars begin as published or usual figures, each marked as a guess "
            "in the notes. Your own counts and pickings replace them within weeks."
        )
        done = st.form_submit_button("Make the first plan", type="primary", width="stretch")
    if done:
        _begin(given, units)


def _asked(*, us: bool) -> _Given:
    people, garden, kitchen = st.columns(3)
    area, year = "ft²" if us else "m²", session.today().year
    with people:
        st.subheader("Who eats")
        name = st.text_input("Name of the household", "Our garden", max_chars=60, key="first_name")
        adults = st.number_input("Adults", 1, 30, 2, key="first_adults")
        children = st.text_input("Ages of children", key="first_children", placeholder="4, 9")
        altitude = st.text_input(
            "Altitude of the kitchen",
            key="first_altitude",
            placeholder="2,500 ft" if us else "640 m",
            help="Without it nothing can be canned: process times depend on it.",
        )
    with garden:
        st.subheader("The garden")
        beds = _number(f"Beds, all together ({area})", "first_area", 400.0 if us else 40.0)
        spring = st.date_input("Last spring frost, usually", date(year, 5, 10), key="first_spring")
        autumn = st.date_input(
            "First autumn frost, usually", date(year, 10, 10), key="first_autumn"
        )
        hours = _number("Free kitchen hours a week", "first_hours", 5.0)
    with kitchen:
        st.subheader("The kitchen")
        canner = st.selectbox("Canner", (NONE, *model.CANNERS), key="first_canner")
        freezer = "cu ft" if us else "litres"
        cold = _number(f"Freezer for the harvest ({freezer})", "first_freezer", 3.0 if us else 80.0)
        shelf = _number(f"Shelf for jars ({area}, one tier)", "first_shelf", 12.0 if us else 1.2)
        roots = "lb" if us else "kg"
        store = _number(f"Cool store for roots ({roots})", "first_store", 150.0 if us else 70.0)
    return _Given(
        name, adults, children, altitude, beds, spring, autumn, canner, cold, shelf, store, hours
    )


def _number(label: str, key: str, usual: float) -> float:
    return float(st.number_input(label, 0.0, 1e5, usual, key=key))


def _begin(given: _Given, units: str) -> None:
    try:
        tables = model.first_notes(_answers(given, units), session.today())
        season = model.season_from_tables(tables)
        planned((season,), session.first_day(season))
        household = kept.begin(tables, "Begun from a few answers")
    except ValueError as error:
        st.error(str(error))
        return
    except PlanningError as error:
        faults(error, "The household could not be begun.")
        return
    session.use_household(household)
    st.rerun()


def _answers(given: _Given, units: str) -> FirstAnswers:
    ages = [part.strip() for part in given.children.split(",") if part.strip()]
    if not all(age.isdigit() and int(age) <= 120 for age in ages):
        raise ValueError(f"Ages of children are {', '.join(ages)}; write whole years, as 4, 9")
    return FirstAnswers(
        household=" ".join(given.name.split()) or "Our garden",
        adults=given.adults,
        children_ages=tuple(int(age) for age in ages),
        bed_area_m2=from_own(given.area, "m2", units),
        altitude=given.altitude.strip(),
        units=units,
        last_spring_frost=YearDay(given.spring.month, given.spring.day),
        first_autumn_frost=YearDay(given.autumn.month, given.autumn.day),
        canner="" if given.canner == NONE else given.canner,
        freezer_l=from_own(given.freezer, "l", units),
        shelf_m2=from_own(given.shelf, "m2", units),
        root_store_kg=from_own(given.store, "kg", units),
        kitchen_hours_a_week=given.hours,
        time_zone="",
    )
