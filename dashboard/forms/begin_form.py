"""A household of its own, begun from a dozen answers; everything else is a guess to replace."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import date
from functools import partial
from zoneinfo import available_timezones

import streamlit as st
from streamlit.delta_generator import DeltaGenerator

import model
from dashboard import kept, session
from dashboard.cached import planned
from dashboard.look import faults
from dashboard.units import US, from_own
from dashboard.words import DayForm, count
from model import FirstAnswers, PlanningError, SeasonProblems, YearDay

METRIC = "metric"
NOT_BEGUN = "The household could not be begun."
# The notes hold at most so many rows of eaters.
MOST_ADULTS, OLDEST_CHILD = 400, 17
# The question that a fault of the first notes is about: nobody has seen their tables yet.
ASKED_BY = {
    "household.csv": "Your household and its height above the sea",
    "eaters.csv": "Adults and ages of the children",
    "frosts.csv": "Last and first frost",
    "beds.csv": "All beds together",
    "plantings.csv": "All beds together",
    "places.csv": "Freezer, shelf and cool cellar",
    "kitchen_hours.csv": "Hours a week to put things up",
}
CANNERS = {
    "No, nothing is canned": "",
    "A boiling-water canner, or a deep pot": "boiling-water canner",
    "A pressure canner with a dial": "pressure canner, dial gauge",
    "A pressure canner with a weight": "pressure canner, weighted gauge",
}


@dataclass(frozen=True)
class _Place:
    """What is usual where a household lives; its frosts only stand until it gives its own."""

    units: str
    country: str
    spring: tuple[int, int] = (5, 10)
    autumn: tuple[int, int] = (10, 10)

    @property
    def day_form(self) -> DayForm:
        """Give the order in which a day is typed there."""
        return "MM/DD/YYYY" if self.units == US else "DD/MM/YYYY"


PLACES = {
    "Britain or Ireland": _Place(METRIC, "UK"),
    "United States": _Place(US, "US"),
    "Canada": _Place(METRIC, "US", (5, 20), (9, 25)),
    "Elsewhere, northern half": _Place(METRIC, "elsewhere"),
    "Elsewhere, southern half": _Place(METRIC, "elsewhere", (10, 10), (5, 5)),
}


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
    crops: tuple[str, ...]


def begin_form() -> None:
    """Ask for what a first plan needs, plan it, and keep it."""
    st.markdown("About three minutes. Leave as it is what you do not know: all can be changed.")
    where = PLACES[st.selectbox("Where do you live?", list(PLACES), key="first_where")]
    with st.form("first"):
        given = _asked(where)
        wrong = st.container()
        done = st.form_submit_button("Make the first plan", type="primary", width="stretch")
        st.caption(
            "What you are not asked (portions, yields, jars) begins as published or usual figures, "
            "each marked as a guess. Your own pickings and counts replace them within weeks."
        )
    if done:
        _begin(given, where, wrong)


def _asked(where: _Place) -> _Given:
    people, garden, kitchen = st.columns(3)
    us, year = where.units == US, session.clock().year
    area, usual = "ft²" if us else "m²", f"{where.units}_{where.country}_{where.spring[0]}"
    with people:
        st.subheader("Who eats")
        name = st.text_input("What do you call your household?", "Our garden", key="first_name")
        adults = st.number_input("Adults", 1, MOST_ADULTS, 2, key="first_adults")
        children = st.text_input(
            "Ages of the children", key="first_children", placeholder="4, 9", max_chars=60
        )
    with garden:
        st.subheader("The garden")
        beds = _number(f"All beds together ({area})", 400.0 if us else 40.0, usual)
        spring = st.date_input(
            "Last frost in spring, in a usual year",
            date(year, *where.spring),
            format=where.day_form,
            key=f"first_spring_{usual}",
            help="A neighbour who gardens knows it, or a frost table for your town.",
        )
        autumn = st.date_input(
            "First frost in autumn, in a usual year",
            date(year, *where.autumn),
            format=where.day_form,
            key=f"first_autumn_{usual}",
        )
    with kitchen:
        st.subheader("The kitchen")
        canner = st.selectbox(
            "Do you can in jars?",
            list(CANNERS),
            key="first_canner",
            help="With a pressure canner a deep pot for boiling water is taken to be there too.",
        )
        altitude = st.text_input(
            f"Height above the sea, with {'ft' if us else 'm'}",
            key="first_altitude",
            placeholder="2,500 ft" if us else "640 m",
            help="Only for canning: every process time depends on it, so it is never guessed.",
        )
        freezer, roots = ("cu ft", "lb") if us else ("litres", "kg")
        cold = _number(f"Freezer space for the harvest ({freezer})", 3.0 if us else 80.0, usual)
        shelf = _number(f"Shelf for jars ({area})", 12.0 if us else 1.2, usual)
        store = _number(f"Cool cellar or shed for roots ({roots})", 150.0 if us else 70.0, usual)
        hours = _number("Hours a week to put things up", 5.0, usual)
    grown = st.pills(
        "What do you grow? Tap what you do not: it is left out. Other crops are added later.",
        FirstAnswers.CROPS,
        selection_mode="multi",
        default=FirstAnswers.CROPS,
        format_func=partial(model.in_tongue, tongue="US" if where.country == "US" else "UK"),
        key=f"first_crops_{usual}",
    )
    return _Given(
        *(name, adults, children, altitude, beds, spring, autumn, canner, cold, shelf, store),
        *(hours, tuple(grown)),
    )


def _number(label: str, usual: float, key: str) -> float:
    """Ask for a number; how large it may be says the gate, which also stands before uploads."""
    # a number below the least would be refused without a word, and the button with it
    return float(st.number_input(label, None, None, usual, format="%g", key=f"{label}_{key}"))


def _begin(given: _Given, where: _Place, wrong: DeltaGenerator) -> None:
    """Begin the household; what stands against it is told in ``wrong``, beside the button."""
    unread = list(_unread(given, where))
    if unread:
        with wrong:
            st.error(f"{count(len(unread), 'fault')}. {NOT_BEGUN}")
            st.text("\n".join(unread))
        _point()
        return
    try:
        # the day that an invented household is looked at from is none of ours
        tables = model.first_notes(_answers(given, where), session.clock().date())
        season = model.season_from_tables(tables)
        planned((season,), session.first_day(season))
        household = kept.begin(tables, "Begun from a few answers")
    except ValueError as error:
        wrong.error(str(error))
        _point()
        return
    except SeasonProblems as error:
        asked = (replace(p, file=ASKED_BY.get(p.file, p.file), row=0) for p in error.problems)
        _refused(SeasonProblems(asked), wrong)
        return
    except PlanningError as error:
        _refused(error, wrong)
        return
    session.use_household(household)
    session.just_begun()
    st.rerun()


def _refused(error: PlanningError, wrong: DeltaGenerator) -> None:
    with wrong:
        faults(error, NOT_BEGUN)
    _point()


def _point() -> None:
    """Say at the edge of the screen, wherever the page is scrolled to, that something is wrong."""
    st.toast(f"{NOT_BEGUN} Why, stands above the button.", icon=":material/error:")


def _unread(given: _Given, where: _Place) -> Iterator[str]:
    """Say of each answer that cannot be used why."""
    if not given.area:
        yield "All beds together: give more than 0; what stands in pots has its ground too"
    north = where.spring < where.autumn
    if (given.spring < given.autumn) != north:
        sooner, later = ("spring", "autumn") if north else ("autumn", "spring")
        yield f"Frosts: where you live the one in {sooner} comes before the one in {later}"
    wrong = [age for age in _ages(given) if not (age.isdecimal() and int(age) <= OLDEST_CHILD)]
    if wrong:
        listed = ", ".join(wrong)
        yield f"Ages of the children: {listed}; write whole years to {OLDEST_CHILD}, as 4, 9"
    if not given.crops:
        yield "What do you grow: choose one crop at least"
    if given.altitude.strip():
        try:
            model.altitude_ft(given.altitude.strip())
        except ValueError as error:
            yield f"Height above the sea: {error}"
    elif CANNERS[given.canner]:
        yield "Height above the sea: give it, with m or ft; process times depend on it"


def _ages(given: _Given) -> list[str]:
    return [part.strip() for part in given.children.split(",") if part.strip()]


def _answers(given: _Given, where: _Place) -> FirstAnswers:
    own_zone = st.context.timezone or ""
    return FirstAnswers(
        household=" ".join(given.name.split()) or "Our garden",
        adults=given.adults,
        children_ages=tuple(int(age) for age in _ages(given)),
        bed_area_m2=from_own(given.area, "m2", where.units),
        altitude=given.altitude.strip(),
        units=where.units,
        country=where.country,
        last_spring_frost=YearDay(given.spring.month, given.spring.day),
        first_autumn_frost=YearDay(given.autumn.month, given.autumn.day),
        canner=CANNERS[given.canner],
        freezer_l=from_own(given.freezer, "l", where.units),
        shelf_m2=from_own(given.shelf, "m2", where.units),
        root_store_kg=from_own(given.store, "kg", where.units),
        kitchen_hours_a_week=given.hours,
        time_zone=own_zone if own_zone in available_timezones() else "",
        crops=given.crops,
    )
