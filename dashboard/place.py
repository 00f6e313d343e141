"""The head of every place: its title, whose notes it shows, the way to the others, the plan."""

import re
from collections.abc import Callable
from datetime import date
from typing import NamedTuple

import streamlit as st
from streamlit.delta_generator import DeltaGenerator

import model
from dashboard import kept, session
from dashboard.cached import planned
from dashboard.look import faults
from dashboard.words import at_clock, counted_words, day, listed, local
from model import PlannedSeason, Season, StoredHousehold

Retitle = Callable[[PlannedSeason, str], str]
SPRING, WEEK, LOG = "views/spring.py", "views/this_week.py", "views/log.py"
DAY = "views/preserving_day.py"
LARDER, WINTER, REVIEW = "views/larder.py", "views/winter.py", "views/review.py"
PLACES = {
    SPRING: ("Spring: what to plant", ":material/potted_plant:"),
    WEEK: ("This week", ":material/view_week:"),
    DAY: ("Preserving day", ":material/timer:"),
    LOG: ("Write down", ":material/edit_note:"),
    LARDER: ("Larder: eat first", ":material/shelves:"),
    WINTER: ("Winter: will it last", ":material/ac_unit:"),
    REVIEW: ("Review", ":material/fact_check:"),
}
# What a link asks a page to open with.
ASKED, SEALS, SOWN = "open", "seals", "sown"
BELL = ":material/notification_important:"
BEGIN, HOUSEHOLD = "views/begin.py", "views/household.py"


def _same(_: PlannedSeason, title: str) -> str:
    return title


def opened(title: str, *, stock: bool = False, retitle: Retitle = _same) -> PlannedSeason:
    """Show the head of a place and give its plan; ``stock`` also says when it was counted.

    ``retitle`` may give another title once the plan is known. Nothing more is shown of a
    season that cannot be planned: its faults are listed instead.
    """
    head = headed(title, stock=stock)
    today = session.today()
    _banner()
    try:
        plan = planned(session.seasons(), today, head.work)
    except model.PlanningError as error:
        faults(error, f"These notes cannot be planned from {day(today)}.")
        st.stop()
    head.title.title(local(retitle(plan, title)))
    return plan


class Head(NamedTuple):
    """Where the title of a place stands, where work is shown, and the season that is shown."""

    title: DeltaGenerator
    work: DeltaGenerator
    season: Season


def headed(title: str, *, stock: bool = False) -> Head:
    """Show the head of a place without a plan."""
    notes, season = session.notes(), session.season()
    if notes is None or season is None:
        st.stop()
    head = st.empty()
    head.title(local(title))
    st.caption(_whose(notes.household, season, session.today(), stock=stock))
    _ways()
    _notes_ended(season)
    return Head(head, st.empty(), season)


def _notes_ended(season: Season) -> None:
    """Say that nothing of today can be planned or written down before another season is begun."""
    ends, today = season.garden_seasons[-1].ends, session.clock().date()
    if not season.invented and today > ends:
        st.warning(
            f"The last season of these notes ended on {day(ends)}, and today is {day(today)}. "
            "Begin the next one under Review, Next year: until then the plan stands on that day."
        )
        st.page_link(REVIEW, label="Begin the next season", icon=PLACES[REVIEW][1])


def answer(words: str, onward: str, why: str) -> None:
    """Answer the question of a place, the first sentence large, and lead to what comes next.

    ``onward`` is the file of the place that comes next, ``why`` what is done there.
    """
    first, *rest = re.split(r"(?<=\.) |(?<=\.\*\*) ", local(words), maxsplit=1)
    with st.container(key="answer"):
        st.markdown(first)
    for more in rest:
        st.markdown(more)
    st.page_link(onward, label=f"Next: {why}", icon=":material/arrow_forward:")


def looks_wait() -> None:
    """Lead to the jars that cannot wait for a quiet day: seals that are due, mates of a bad jar."""
    season = session.season()
    if season is None:
        return
    now = session.moment()
    due = model.seals_to_look_at(season, now, season.zone)
    if due:
        names = local(listed(dict.fromkeys(batch.preserve for batch in due)))
        limit = min(model.seal_times(batch, season.zone).limit for batch in due)
        when = f"by {at_clock(limit)}" if now < limit else "now: that is overdue"
        label = f"Look at the seals of {names} {when}"
        st.page_link(LOG, label=label, icon=BELL, query_params={ASKED: SEALS})
    if model.to_look_at(season, session.today()):
        label = "Open no jar like the bad one before each was looked at"
        st.page_link(LARDER, label=label, icon=BELL)


def _whose(household: StoredHousehold, season: Season, today: date, *, stock: bool) -> str:
    parts = [season.household + (", an invented household" if season.invented else "")]
    parts.append(f"as of {day(today)}")
    if stock:
        counted = season.counted_on(today)
        part = kept.part_counted_of(household, counted) if counted else (1, 1)
        parts.append(counted_words(counted, today, part))
    return " · ".join(parts)


def _ways() -> None:
    """Lead to the other places without the side bar, which a phone keeps closed."""
    if not _on_a_phone():
        return
    with st.container(key="ways", horizontal=True, gap="small"):
        for file, (words, icon) in PLACES.items():
            st.page_link(file, label=local(words.partition(":")[0]), icon=icon)


def _on_a_phone() -> bool:
    """Say whether the browser calls itself a phone's; one that says nothing may be one.

    A wide screen would be sent seven links with every page to show none of them.
    Source: MDN, Browser detection using the user agent (``Mobi``).
    """
    return "Mobi" in st.context.headers.get("User-Agent", "Mobi")


def _banner() -> None:
    """Say on every page that the season shown is a changed one."""
    changed = session.tried()
    if not changed:
        return
    with st.container(key="tried", border=True, horizontal=True, vertical_alignment="center"):
        changes = "; ".join(one.words for one in changed)
        st.markdown(f"**You are looking at a tried change**: {changes}.")
        st.button("Undo", on_click=session.undo, key="undo", icon=":material/undo:")
