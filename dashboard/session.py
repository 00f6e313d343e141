"""Every key of the session, typed; the only file that touches ``st.session_state``."""

from collections.abc import Hashable, Sequence
from dataclasses import replace
from datetime import date, datetime, time
from typing import Any, TypeVar
from zoneinfo import ZoneInfo

import streamlit as st

import model
from dashboard import kept
from dashboard.kept import Notes
from dashboard.said import OnTable, Tried
from model import PlanningError, Season, Wanted

MORNING = time(10)
Kept = TypeVar("Kept")


def notes() -> Notes | None:
    """Give the notes in use, as they stood when this run of the page began."""
    found = st.session_state.get("notes")
    return found if isinstance(found, Notes) else read_notes()


def read_notes() -> Notes | None:
    """Read the notes in use anew: those chosen, else those that were written in last.

    Once a run of the page, which asks for them some thirty times. Raises StoreError.
    """
    own = kept.notes(st.session_state.get("household_id"))
    st.session_state["notes"] = own
    return own


def newly_opened() -> bool:
    """Say whether no page was come to yet in this session."""
    return "place" not in st.session_state


def use_household(household: int) -> None:
    """Take the notes of a household into use."""
    st.session_state["household_id"] = household
    st.session_state["beginning"] = False


def beginning() -> bool:
    """Say whether another household is being begun."""
    return bool(st.session_state.get("beginning"))


def begin_another(*, really: bool = True) -> None:
    """Show the beginning, or no longer."""
    st.session_state["beginning"] = really


def just_begun(*, really: bool = True) -> None:
    """Show what comes next for the household in use, which has just been begun, or no longer."""
    st.session_state["just_begun"] = really
    begin_another(really=really)


def newly_begun() -> bool:
    """Say whether the household in use was just begun and what comes next is not read yet."""
    return bool(st.session_state.get("just_begun"))


def first_day(season: Season) -> date:
    """Give the day notes are first looked at from: their own, else today, in their seasons."""
    own = season.notes_date if season.invented else None
    day = own or date.today()  # noqa: DTZ011
    return min(max(day, season.garden_seasons[0].begins), season.garden_seasons[-1].ends)


def today() -> date:
    """Give the day the plan is looked at from."""
    found = notes()
    chosen = _kept("days").get(_key())
    if isinstance(chosen, date) or found is None:
        return chosen if isinstance(chosen, date) else date.today()  # noqa: DTZ011
    return first_day(found.season)


def look_from(day: date) -> None:
    """Look at the plan of the notes in use from another day."""
    _keep("days", _key(), day)


def clock() -> datetime:
    """Give the moment on the clock of the household."""
    found = notes()
    return kept.now().astimezone(found.season.zone if found else None)


def moment() -> datetime:
    """Give the moment things are looked at from; on another day it is ten in the morning."""
    here = clock()
    if today() == here.date():
        return here
    there = datetime.combine(today(), MORNING)
    own = isinstance(here.tzinfo, ZoneInfo)
    return there.replace(tzinfo=here.tzinfo) if own else there.astimezone()


def written() -> tuple[int, str] | None:
    """Give the last change written in this session to the household in use, and its words."""
    found = _kept("written").get(_key())
    return found if isinstance(found, tuple) else None


def remember_written(written: tuple[int, str] | None, news: str) -> None:
    """Keep the change written last and its words, so that it can be taken back; ``news`` once."""
    _keep("written", _key(), written)
    st.session_state["news"] = news


def arrive(at: str) -> None:
    """Come to a page: what was written on another one is not offered to be taken back there."""
    if st.session_state.get("place") != at:
        _keep("written", _key(), None)
    st.session_state["place"] = at


def newly_written() -> str:
    """Give what is new since this was asked last: that something was written or taken back."""
    return str(st.session_state.pop("news", ""))


def remember_fault(error: PlanningError) -> None:
    """Keep why something could not be written, until the page has told it."""
    st.session_state["fault"] = error


def fault() -> PlanningError | None:
    """Give why the last thing could not be written, once."""
    found = st.session_state.pop("fault", None)
    return found if isinstance(found, PlanningError) else None


def form() -> str:
    """Name the form on the page: after something is saved it is another, empty one."""
    return f"{_key()}_{today()}_{st.session_state.get('form', 0)}"


def next_form() -> None:
    """Begin a new form."""
    st.session_state["form"] = st.session_state.get("form", 0) + 1


def operation() -> str:
    """Name what the form on the page will do, the same until it is saved."""
    names = st.session_state.setdefault("operations", {})
    return str(names.setdefault(form(), kept.new_operation()))


def wanted_today() -> tuple[Wanted, ...] | None:
    """Give what is made on the day looked from; None until it was chosen or planned."""
    return _of_day("wanted", tuple)


def want_today(wanted: tuple[Wanted, ...]) -> None:
    """Make so much on the day looked from."""
    _keep_of_day("wanted", wanted)


def day_begins() -> time | None:
    """Give when work begins on the day looked from, where that was said."""
    return _of_day("begins", time)


def begin_day_at(at: time) -> None:
    """Begin work at a clock time."""
    _keep_of_day("begins", at)


def on_table() -> OnTable | None:
    """Give what was said to lie on the table on the day looked from."""
    return _of_day("on the table", OnTable)


def put_on_table(pile: OnTable) -> None:
    """Remember what lies on the table, while other pages are looked at."""
    _keep_of_day("on the table", pile)


def finish_load(number: int) -> None:
    """Write a load of the day down next."""
    _keep_of_day("finished", (form(), number))


def finished_load() -> int | None:
    """Give the load that is being written down, until it is saved."""
    found = _of_day("finished", tuple)
    return found[1] if found is not None and found[0] == form() else None


def chosen_time(key: str) -> time | None:
    """Give the time in a widget."""
    found = st.session_state.get(key)
    return found if isinstance(found, time) else None


def _of_day(name: str, kind: type[Kept]) -> Kept | None:
    found = _kept("preserving_day").get((_key(), today(), name))
    return found if isinstance(found, kind) else None


def _keep_of_day(name: str, value: object) -> None:
    _keep("preserving_day", (_key(), today(), name), value)


def container(crop: str, known: Sequence[str]) -> str:
    """Give what a crop was last picked into in this session, if that is known, else the first."""
    used = _kept("containers").get(crop, "")
    return used if used in known else known[0]


def use_container(crop: str, name: str) -> None:
    """Remember what a crop was picked into."""
    _keep("containers", crop, name)


def sign() -> None:
    """Remember who is writing, as they typed it."""
    st.session_state["writer"] = " ".join(str(st.session_state.get("writer_name", "")).split())


def writer() -> str:
    """Give who is writing, where they said so."""
    return str(st.session_state.get("writer") or "")


def tried() -> tuple[Tried, ...]:
    """List the changes kept for the notes in use, in the order they were made."""
    changes: tuple[Tried, ...] = _kept("tried").get(_key(), ())
    return changes


def keep(change: Tried) -> None:
    """Keep a change: every page shows the changed season until it is undone."""
    _keep("tried", _key(), (*tried(), change))


def undo() -> None:
    """Take back the change that was kept last."""
    _keep("tried", _key(), tried()[:-1])


def seasons() -> tuple[Season, ...]:
    """Give the season of the notes and, one after the other, what each kept change makes of it."""
    found = notes()
    if found is None:
        return ()
    chosen = plan_for(found)
    own = found.season
    every = [own if chosen == own.plan_for else replace(own, plan_for=chosen)]
    for one in tried():
        every.append(model.changed_season(every[-1], one.change, one.day))
    return tuple(every)


def season() -> Season | None:
    """Give the season in use, with every change that is kept."""
    every = seasons()
    return every[-1] if every else None


def plan_for(found: Notes) -> str:
    """Give how much bad years weigh: as chosen on the page, else as in the notes."""
    return _kept("plan_for").get(_key(), found.season.plan_for)


def choose_plan_for(words: str) -> None:
    """Weigh bad years so from now on, in the notes in use."""
    _keep("plan_for", _key(), words)


def scope() -> str:
    """Name what widgets of a page stand for: the notes, the day and the changes kept."""
    found = notes()
    outlook = plan_for(found) if found else ""
    return f"{_key()}_{today()}_{len(tried())}_{outlook}"


def _key() -> str:
    found = notes()
    return f"household {found.household.household_id}" if found else ""


def _keep(name: str, key: Hashable, value: object) -> None:
    """Keep something under a name and the household, crop or day it belongs to."""
    st.session_state[name] = {**_kept(name), key: value}


def _kept(name: str) -> dict[Any, Any]:
    """Give what the session keeps under a name, by what it belongs to."""
    found = st.session_state.get(name)
    return found if isinstance(found, dict) else {}
