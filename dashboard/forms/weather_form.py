"""Own weather: a file of daily temperatures gives the garden's own frost odds and warmth."""

from collections.abc import Iterator
from datetime import date

import streamlit as st

import model
from dashboard import kept, session
from dashboard.kept import Notes
from dashboard.look import done, faults
from dashboard.words import count, listed, local, short_day
from model import Frost, OwnWeather, PlanningError

LEAP = 2000


def weather_form(notes: Notes) -> None:
    """Let a weather file be brought in; say what it would change, and keep it when asked."""
    st.caption(
        "A daily file of the nearest station in the GHCN-Daily CSV form, or your own with the "
        "columns date, min_c and max_c (or min_f and max_f). It replaces the frost dates by your "
        "own odds, and the warmth by which crops ripen."
    )
    file = st.file_uploader("Daily temperatures (CSV)", type="csv", key="own_weather")
    if file is None:
        return
    number = notes.household.household_id
    try:
        own = model.with_weather(kept.store().tables(number), file.getvalue(), file.name)
        model.season_from_tables(own.tables)
    except PlanningError as error:
        faults(error, "The weather in use stays as it was.")
        return
    for words in weather_words(own):
        st.markdown(words)
    if st.button("Use this weather", key="use_weather", type="primary", width="stretch"):
        signed = kept.author(f"Own weather from {file.name}", session.writer())
        if not done(
            lambda: kept.store().replace(number, signed, own.tables), "Nothing was changed."
        ):
            return
        st.success("The plans use it from now on. It can be taken back under Write down.")


def weather_words(own: OwnWeather) -> Iterator[str]:
    """Say what a weather file brings: its days, the frost odds, and how many years they rest on."""
    yield f"**{count(own.added, 'day')}** are new; {count(own.kept, 'day')} stood in the notes."
    left_out = own.flagged + own.one_sided + own.too_old
    if left_out:
        yield f"{count(left_out, 'reading')} are left out: doubtful, one-sided or too old."
    odds = own.odds
    if odds.frosts is None:
        yield f"The frost dates stay as they are: {odds.why_not}."
    else:
        years = count(odds.spring_years, "year")
        yield f"**Last spring frost**, from {years}: {_frost_words(odds.frosts.last_spring)}."
        years = count(odds.autumn_years, "year")
        yield (
            local("**First autumn frost**")
            + f", from {years}: {_frost_words(odds.frosts.first_autumn)}."
        )
    if odds.with_gaps:
        yield f"Not used, for days are missing: {listed(odds.with_gaps)}."
    if own.warmth is not None:
        warm = own.warmth
        yield (
            f"**Warmth** between the frosts, from {count(warm.years, 'year')}: "
            f"{warm.mean_c_days:,.0f} degree-days (C), {warm.least_c_days:,.0f} in the coolest."
        )


def _frost_words(frost: Frost) -> str:
    early, median, late = (
        short_day(date(LEAP, day.month, day.day)) for day in (frost.early, frost.median, frost.late)
    )
    return f"{median} in every second year, before {early} or after {late} in one year of ten"
