"""Keep the plan: what it wants of each preserve becomes what the season is held against."""

import pandas as pd
import streamlit as st

from dashboard import session
from dashboard.forms.writing import last_written, save
from dashboard.words import count, day
from model import Edit, PlannedSeason


def kept_plan_form(plan: PlannedSeason, products: pd.DataFrame) -> None:
    """Say which plan the season is held against, and let the present one be kept instead.

    What it means for a season is what is sealed already and what is still to come.
    """
    last_written()
    season, today = plan.case.season, plan.case.today
    last = max((meant.day for meant in season.record.meant if meant.day <= today), default=None)
    st.caption(
        f"Compared with the plan kept on {day(last)}."
        if last
        else "No plan has been kept yet: compared with the one made now."
    )
    edits = [
        Edit(
            "meant.csv",
            {
                "planned_on": f"{today}",
                "preserve": row.preserve,
                "sealed_jars": f"{row.sealed_units - row.lost_units + row.still_units:.6g}",
            },
        )
        for row in products.itertuples()
    ]
    words = f"Kept the plan of {day(today)}: {count(len(edits), 'preserve')}"
    st.button(
        "Keep this plan to compare with",
        key=f"keep_plan_{session.form()}",
        disabled=last == today or not edits,
        on_click=save,
        args=(edits, words, session.operation()),
    )
