"""Every key of the session, typed; the only file that touches ``st.session_state``."""

from dataclasses import dataclass, replace
from datetime import date

import streamlit as st

import model
from model import Change, Season


@dataclass(frozen=True)
class Notes:
    """The notes in use: whose they are, the season read from them, and what they held.

    ``digest`` is of the content of a file that was brought in, blank for a demo household.
    """

    name: str
    season: Season
    digest: str = ""

    @property
    def uploaded(self) -> bool:
        """Say whether the household brought them in itself."""
        return bool(self.digest)


@dataclass(frozen=True)
class Tried:
    """A change that is kept while the session lasts: when it was made, and its words."""

    day: date
    change: Change
    words: str


def notes() -> Notes | None:
    """Give the notes in use."""
    found = st.session_state.get("notes")
    return found if isinstance(found, Notes) else None


def use_notes(chosen: Notes) -> None:
    """Take notes into use, and look at them on their own day; own notes are remembered."""
    st.session_state["notes"] = chosen
    st.session_state["today"] = first_day(chosen.season)
    if chosen.uploaded:
        st.session_state["own"] = chosen


def first_day(season: Season) -> date:
    """Give the day notes are first looked at from: their own, else today, in their seasons."""
    own = season.notes_date or date.today()  # noqa: DTZ011
    return min(max(own, season.garden_seasons[0].begins), season.garden_seasons[-1].ends)


def own_notes() -> Notes | None:
    """Give the notes that the household last brought in, also while a demo is looked at."""
    found = st.session_state.get("own")
    return found if isinstance(found, Notes) else None


def today() -> date:
    """Give the day the plan is looked at from."""
    chosen = st.session_state.get("today")
    return chosen if isinstance(chosen, date) else date.today()  # noqa: DTZ011


def look_from(day: date) -> None:
    """Look at the plan from another day."""
    st.session_state["today"] = day


def tried() -> tuple[Tried, ...]:
    """List the changes kept for the notes in use, in the order they were made."""
    kept = st.session_state.get("tried")
    return kept.get(_key(), ()) if isinstance(kept, dict) else ()


def keep(change: Tried) -> None:
    """Keep a change: every page shows the changed season until it is undone."""
    _remember((*tried(), change))


def undo() -> None:
    """Take back the change that was kept last."""
    _remember(tried()[:-1])


def seasons() -> tuple[Season, ...]:
    """Give the season of the notes and, one after the other, what each kept change makes of it."""
    found = notes()
    if found is None:
        return ()
    every = [replace(found.season, plan_for=plan_for(found))]
    for one in tried():
        every.append(model.changed_season(every[-1], one.change, one.day))
    return tuple(every)


def season() -> Season | None:
    """Give the season in use, with every change that is kept."""
    every = seasons()
    return every[-1] if every else None


def plan_for(found: Notes) -> str:
    """Give how much bad years weigh: as chosen on the page, else as in the notes."""
    return _chosen_for().get(_key(), found.season.plan_for)


def choose_plan_for(words: str) -> None:
    """Weigh bad years so from now on, in the notes in use."""
    st.session_state["plan_for"] = {**_chosen_for(), _key(): words}


def _chosen_for() -> dict[str, str]:
    chosen = st.session_state.get("plan_for")
    return chosen if isinstance(chosen, dict) else {}


def scope() -> str:
    """Name what widgets of a page stand for: the notes, the day and the changes kept."""
    found = notes()
    outlook = plan_for(found) if found else ""
    return f"{_key()}_{today()}_{len(tried())}_{outlook}"


def _key() -> str:
    found = notes()
    return f"{found.name}_{found.digest[:12]}" if found else ""


def _remember(kept: tuple[Tried, ...]) -> None:
    every = st.session_state.get("tried")
    st.session_state["tried"] = {**(every if isinstance(every, dict) else {}), _key(): kept}
