"""What is made on a preserving day: how many, from when, until when; and what else."""

from dataclasses import replace
from datetime import datetime, time

import streamlit as st

import model
from dashboard import session
from dashboard.day_findings import refused_words
from dashboard.forms.process_form import ask_product
from dashboard.forms.writing import save, stored_rows
from dashboard.look import fold
from dashboard.words import capital, local, speaker
from model import Edit, Season, Wanted

BEGINS = time(9)
MOST_UNITS = 500
FILE, SETTING = "settings.csv", "bedtime_hour"


def day_times(season: Season) -> tuple[datetime, bool]:
    """Ask when work begins and when it is bedtime; gives the beginning, and whether to go on."""
    day = session.today()
    begin, bed = st.columns(2)
    with begin:
        known = session.day_begins() or BEGINS
        at = st.time_input("Begin at", known, key=f"day_begins_{session.scope()}", step=900)
        session.begin_day_at(at or BEGINS)
    with bed:
        own = int(season.settings.bedtime_hour * 60)
        shown = time(own // 60 % 24, own % 60)
        key = f"day_bedtime_{session.form()}"
        st.time_input("Bedtime", shown, key=key, step=900, on_change=_keep_bedtime, args=(key,))
    late = st.toggle("Go on past bedtime", key=f"day_late_{session.scope()}")
    return datetime.combine(day, at or BEGINS), late


def _keep_bedtime(key: str) -> None:
    """Write the household's bedtime into its settings; a small hour is one after midnight."""
    at = session.chosen_time(key)
    if at is None:
        return
    hour = at.hour + at.minute / 60
    cells = {"setting": SETTING, "value": f"{hour if hour >= 12 else hour + 24:g}"}
    rows = stored_rows(FILE)
    line = next((n for n, row in rows.items() if row.get("setting") == SETTING), None)
    save([Edit(FILE, cells, line)], f"Bedtime at {at:%H:%M}", session.operation())


def day_numbers(season: Season, wanted: tuple[Wanted, ...]) -> None:
    """Let the numbers be changed, and something be added."""
    for place, one in enumerate(wanted):
        unit = "jar" if one.method else season.preserve(one.name).unit
        jar = one.jar or season.preserve(one.name).jar
        size = f", {jar}" if jar else ""
        key = f"day_n_{place}_{one.name}_{one.jar}_{session.scope()}"
        number = st.number_input(
            local(f"{capital(one.name)} ({unit}{size})"), 0, MOST_UNITS, one.units, key=key
        )
        if number != one.units:
            session.want_today(tuple(replace(w, units=number) if w is one else w for w in wanted))
            st.rerun()
    st.markdown("**Add something**")
    _add_preserve(season, wanted)
    other = "A tested product that is not in your notes, or another size of jar"
    with fold(other, "day_product") as is_open:
        if is_open:
            _add_product(season, wanted)


def _add_preserve(season: Season, wanted: tuple[Wanted, ...]) -> None:
    there = {one.name for one in wanted}
    names = [preserve.name for preserve in season.preserves if preserve.name not in there]
    key = f"day_add_{len(wanted)}_{session.scope()}"
    name = st.selectbox("One of your preserves", names, index=None, format_func=speaker(), key=key)
    if name is not None:
        own = season.preserve(name)
        session.want_today((*wanted, Wanted(name, own.units_per_load or 1)))
        st.rerun()


def _add_product(season: Season, wanted: tuple[Wanted, ...]) -> None:
    scope = f"{len(wanted)}_{session.scope()}"
    product = ask_product(f"day_product_{scope}")
    method = st.selectbox("Canner", model.METHODS, index=None, key=f"day_method_{scope}")
    pack = st.radio("Pack", ["hot", "raw"], index=None, horizontal=True, key=f"day_pack_{scope}")
    jars = [jar.name for jar in season.jars if any(c.load_of(jar.name) for c in season.canners)]
    jar = st.selectbox("Jar", jars, index=None, key=f"day_jar_{scope}")
    number = st.number_input("How many jars", 1, MOST_UNITS, 7, key=f"day_jars_{scope}")
    ready = bool(product and method and pack and jar)
    if st.button("Add", key=f"day_add_product_{scope}", disabled=not ready, width="stretch"):
        added = Wanted(product or "", int(number), method or "", pack or "", jar or "")
        _, refused = model.day_products(season, [added])
        for one in refused:
            st.error(local(refused_words(one)))
        if not refused:
            session.want_today((*wanted, added))
            st.rerun()
    st.caption(
        "What is not in your notes can be timed, but not written down: add it to your preserves "
        "to keep its jars in the book."
    )
