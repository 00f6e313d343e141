"""A day that is over or today: with one tap where it is near, else as the household writes days."""

from datetime import date, timedelta

import streamlit as st

from dashboard import session
from dashboard.look import choice
from dashboard.words import day, short_day, typed_day

TODAY, YESTERDAY, OTHER = "today", "yesterday", "another day"


def past_day(label: str, key: str, earliest: date | None = None) -> date | None:
    """Ask for a day up to that looked from, which is offered; None while it is being typed."""
    today = session.today()
    yesterday = today - timedelta(days=1)
    near = [TODAY, YESTERDAY] if earliest is None or earliest <= yesterday else [TODAY]
    # a day that the notes ended on, or that was chosen to look from, is not called today
    now = session.clock().date() if _real() else today
    days = {TODAY: f"today, {short_day(today)}" if today == now else short_day(today)}
    days[YESTERDAY] = YESTERDAY if today == now else short_day(yesterday)
    chosen = choice(label, [*near, OTHER], f"{key}_near", told=days)
    if chosen == OTHER:
        return typed_past_day(label, key, yesterday, earliest)
    return today if chosen == TODAY else yesterday


def _real() -> bool:
    season = session.season()
    return season is not None and not season.invented


def typed_past_day(label: str, key: str, usual: date, earliest: date | None = None) -> date | None:
    """Ask for a day up to that looked from, as a date; ``usual`` is offered."""
    today = session.today()
    first = usual if earliest is None else max(usual, earliest)
    asked = st.date_input(
        label, first, min_value=earliest, max_value=today, format=typed_day(), key=key
    )
    return asked if isinstance(asked, date) else None


def told_day(when: date) -> str:
    """Tell a day of an entry, with its year where that is not the one looked from."""
    return short_day(when) if when.year == session.today().year else day(when)
