"""Seasons and plans kept between clicks, so that only what changed is worked out again."""

import hashlib
import threading
from collections import OrderedDict
from datetime import date
from importlib.resources import files

import streamlit as st

import model
from model import PlannedSeason, Season

DEMOS = {"Alder Lane": "alder_lane", "Two Rivers": "two_rivers"}
MOST_PLANS = 12


@st.cache_resource(show_spinner=False)
def demo_season(name: str) -> Season:
    """Give one of the invented households."""
    return model.read_season(str(files("demo_data") / DEMOS[name]))


class PlanShelf:
    """The last plans made, by season and day."""

    def __init__(self) -> None:
        """Begin empty."""
        self._plans: OrderedDict[str, PlannedSeason] = OrderedDict()
        self._lock = threading.Lock()

    def get(self, key: str) -> PlannedSeason | None:
        """Give a plan that is there."""
        with self._lock:
            if key in self._plans:
                self._plans.move_to_end(key)
            return self._plans.get(key)

    def put(self, key: str, planned: PlannedSeason) -> None:
        """Keep a plan; the one not looked at for longest goes."""
        with self._lock:
            self._plans[key] = planned
            while len(self._plans) > MOST_PLANS:
                self._plans.popitem(last=False)


@st.cache_resource(show_spinner=False)
def plan_shelf() -> PlanShelf:
    """Give the shelf that all sessions of this server share."""
    return PlanShelf()


def fingerprint(season: Season, today: date) -> str:
    """Name a season on a day by its content."""
    return hashlib.sha256(f"{today}|{season!r}".encode()).hexdigest()


def planned(season: Season, today: date, before: PlannedSeason | None = None) -> PlannedSeason:
    """Give the plan of a season on a day, showing what is being done while it is made.

    ``before`` is an earlier plan of the same household, from which it is found quicker.
    Raises PlanningError as ``model.plan_season`` does; the bar is gone by then.
    """
    key = fingerprint(season, today)
    known = plan_shelf().get(key)
    if known is not None:
        return known
    bar = st.progress(0.0, text="Reading the season")
    try:
        made = model.plan_season(
            season,
            today,
            before=before,
            progress=lambda words, part: bar.progress(min(1.0, part), text=words),
        )
    finally:
        bar.empty()
    plan_shelf().put(key, made)
    return made
