"""A day that is over or today, asked for as the household writes days."""

from datetime import date

import streamlit as st

from dashboard import session
from dashboard.words import typed_day


def past_day(
    label: str, key: str, usual: date | None = None, earliest: date | None = None
) -> date | None:
    """Ask for a day up to that looked from, which is offered; None while it is being typed."""
    today = session.today()
    day = st.date_input(
        label,
        usual or today,
        min_value=earliest,
        max_value=today,
        format=typed_day(),
        key=key,
    )
    return day if isinstance(day, date) else None
