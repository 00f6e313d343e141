"""Questions before planting: what one more would bring, hedges, and ways to plan."""

import streamlit as st

import model
from dashboard import session
from dashboard.cached import answered
from dashboard.look import table
from dashboard.question_tables import hedge_rows, idle_limits, more_rows, way_rows
from dashboard.words import about, listed, speaker
from model import Interval, PlannedSeason

SEED = 1
WORKING = "Working it out"


def one_more(plan: PlannedSeason) -> None:
    """Show what one more of each limit would bring."""
    found = answered(
        plan,
        "one more",
        lambda tell: model.one_more_table(plan, lambda part: tell(WORKING, part)),
    )
    rows, idle = more_rows(found, plan.case.season.units), idle_limits(found)
    if not plan.case.arrays.kitchen_minutes.any():
        st.markdown("The notes give no hours for the kitchen: nothing can be put up.")
    if found.empty:
        st.markdown(
            "No hours, jars, lids or room are used up, and of nothing is planted all that the "
            "notes allow."
        )
        return
    if not rows.empty:
        table(rows, height="content", key="one_more")
    if idle:
        st.markdown(f"Used up, but more of it brings nothing: {listed(idle, len(idle))}.")
    st.caption(
        "In an ordinary year for hours, jars and room; the mean of simulated years for ground and "
        "plants. The plan's loads stay, or grow by one; where that brings nothing it says so."
    )


def hedges(plan: PlannedSeason) -> None:
    """Let a food be chosen, and show what would help it through a bad year."""
    food = st.selectbox(
        "Food", plan.case.arrays.foods, format_func=speaker(), key=f"hedged_{session.scope()}"
    )
    found = answered(
        plan,
        f"hedges {food}",
        lambda tell: model.hedge_table(plan, food, SEED, lambda part: tell(WORKING, part)),
    )
    if found.empty:
        st.markdown(
            "Everything of it is in the ground: what is left is to buy in or to go without."
        )
        return
    table(hedge_rows(found, plan.case.season.units), height="content", key="hedges")
    st.caption(
        "Each in the same 1,000 simulated years, everyone eating what they want. What grows more "
        "takes a quarter more ground than the plan; of a bought box the weight is what that ground "
        "would give. Hours are the mean of these years: some have too little to fill a load with."
    )


def ways(plan: PlannedSeason) -> None:
    """Show the ways of choosing what to plant beside each other, when asked for."""
    st.markdown(
        "The plan is made for the mean year, with a margin that does best in simulated years. "
        "Here it is compared with the notes, the rule of thumb and a choice for many years at once."
    )
    if not plan.planting.tried:
        st.caption("Everything is planted or fixed: there is nothing to choose.")
        return
    if not st.toggle("Compare in 2,000 fresh years (some seconds)", key=f"ways_{session.scope()}"):
        return
    found = answered(plan, "ways", lambda tell: model.ways_table(plan, SEED, progress=tell))
    table(way_rows(found), height="content", key="ways_table")
    worth = answered(
        plan,
        "worth",
        lambda tell: model.planting_value(
            plan.case, SEED, progress=lambda part: tell("Weighing what planning is worth", part)
        ),
    )
    st.caption(
        "Ranges hold 95 of 100 such samples. These years were lived as a household does, who does "
        "not know what is to come. A planner that foresaw each season from its first week would "
        f"gain {_range(worth.stochastic)} portions a year by choosing for many years instead of "
        f"the mean one, and {_range(worth.perfect)} more by knowing the year before planting."
    )


def _range(interval: Interval) -> str:
    return f"{about(interval.value)} ({about(interval.low)} to {about(interval.high)})"
