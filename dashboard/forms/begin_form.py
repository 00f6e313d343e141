"""A household of its own, begun from a dozen answers; everything else is a guess to replace."""

from datetime import date

import streamlit as st

import model
from dashboard import kept, session
from dashboard.cached import planned
from dashboard.look import choice, faults
from dashboard.units import M2_PER_FT2, US
from model import FirstAnswers, PlanningError, YearDay

NONE = "none"
CANNERS = (NONE, *model.CANNERS)
LB_KG, CU_FT_L = 0.45359237, 28.316846592


def begin_form() -> None:
    """Ask for what a first plan needs, plan it, and keep it."""
    units = choice("Units", ["metric", US], key="first_units")
    us = units == US
    with st.form("first"):
        st.text_input("Name of the household", "Our garden", max_chars=60, key="first_name")
        people, garden, kitchen = st.columns(3)
        with people:
            st.subheader("Who eats")
            st.number_input("Adults", 1, 30, 2, key="first_adults")
            st.text_input("Ages of children", "", key="first_children", placeholder="such as 4, 9")
            st.text_input(
                "Altitude of the kitchen",
                "",
                key="first_altitude",
                placeholder="2,500 ft" if us else "640 m",
                help="Without it nothing can be canned: process times depend on it.",
            )
        with garden:
            st.subheader("The garden")
            area = "ft²" if us else "m²"
            _number(f"Beds, all together ({area})", "first_area", 400.0 if us else 40.0)
            year = session.today().year
            st.date_input("Last spring frost, usually", date(year, 5, 10), key="first_spring")
            st.date_input("First autumn frost, usually", date(year, 10, 10), key="first_autumn")
        with kitchen:
            st.subheader("The kitchen")
            st.selectbox("Canner", CANNERS, key="first_canner")
            freezer = "cu ft" if us else "litres"
            _number(f"Freezer for the harvest ({freezer})", "first_freezer", 3.0 if us else 80.0)
            _number(f"Shelf for jars ({area}, one tier)", "first_shelf", 12.0 if us else 1.2)
            store = "lb" if us else "kg"
            _number(f"Cool store for roots ({store})", "first_store", 150.0 if us else 70.0)
            st.number_input("Free kitchen hours a week", 0.0, 80.0, 5.0, 0.5, key="first_hours")
        st.caption(
            "Portions, yields and jars begin as published or usual figures, each marked as a guess "
            "in the notes. Your own counts and pickings replace them within weeks."
        )
        done = st.form_submit_button("Make the first plan", type="primary", width="stretch")
    if done:
        _begin(units)


def _number(label: str, key: str, usual: float) -> None:
    st.number_input(label, 0.0, 1e5, usual, key=key)


def _begin(units: str) -> None:
    try:
        tables = model.first_notes(_answers(units), session.today())
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


def _answers(units: str) -> FirstAnswers:
    given, us = st.session_state, units == US
    ages = [part.strip() for part in str(given["first_children"]).split(",") if part.strip()]
    if not all(age.isdigit() and int(age) <= 120 for age in ages):
        raise ValueError(f"Ages of children are {', '.join(ages)}; write whole years, such as 4, 9")
    area = M2_PER_FT2 if us else 1.0
    canner = str(given["first_canner"])
    return FirstAnswers(
        household=" ".join(str(given["first_name"]).split()) or "Our garden",
        adults=int(given["first_adults"]),
        children_ages=tuple(int(age) for age in ages),
        bed_area_m2=float(given["first_area"]) * area,
        altitude=str(given["first_altitude"]).strip(),
        units=units,
        last_spring_frost=_year_day(given["first_spring"]),
        first_autumn_frost=_year_day(given["first_autumn"]),
        canner="" if canner == NONE else canner,
        freezer_l=float(given["first_freezer"]) * (CU_FT_L if us else 1.0),
        shelf_m2=float(given["first_shelf"]) * area,
        root_store_kg=float(given["first_store"]) * (LB_KG if us else 1.0),
        kitchen_hours_a_week=float(given["first_hours"]),
        time_zone="",
    )


def _year_day(day: date) -> YearDay:
    return YearDay(day.month, day.day)
