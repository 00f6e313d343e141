"""Spring: what to plant, how many jars of what, and what limits it."""

import pandas as pd
import streamlit as st

import model
from dashboard import place, session
from dashboard.ahead_tables import away_rows, sowing_rows
from dashboard.charts.garden_chart import harvest_strips
from dashboard.charts.kitchen_chart import hours_chart
from dashboard.charts.strips_chart import share_strips
from dashboard.findings import (
    all_started,
    limit_words,
    margin_words,
    over_headline,
    spring_headline,
)
from dashboard.forms.change_form import change_form
from dashboard.forms.planting_questions import hedges, one_more, ways
from dashboard.forms.working import working
from dashboard.lasting import lasting_rows, shortfall_rows
from dashboard.look import choice, picture, table
from dashboard.record_findings import resow_words
from dashboard.strips import JARS, limit_strips, room_finding
from dashboard.tables import (
    count_rows,
    garden_rows,
    jar_rows,
    limit_rows,
    strips,
    week_rows,
    yield_rows,
)
from dashboard.units import amount
from dashboard.words import count, local, named
from model import PlannedSeason, Season

TABLE_PX, CONTROL_PX, MOST_ROWS = 352, 92, 10


def show() -> None:
    """Show the page."""
    season = session.season()
    if season is None:
        return
    fixed = all_started(season, session.today())
    what = "is planted" if fixed else "to plant"
    plan = place.opened(f"What {what}, and how many jars of what", retitle=_title)
    if _is_over(plan):
        _over(plan)
        return
    jars = model.preserve_table(plan)
    every = model.limit_table(plan)
    limits = model.tight_limits(every)
    foods = lasting_rows(model.food_table(plan), session.today(), season.settings.lean_share)
    planted = model.planting_table(plan)
    ground = amount(planted["area_m2"].sum(), "m2", season.units)
    sown = f"{count(planted['crop'].nunique(), 'crop')} on {ground}"
    told = spring_headline(jars, foods, limits, None if fixed else sown)
    place.answer(told, place.WEEK, "what to do this week")
    garden, kitchen = st.columns([7, 6], gap="small")
    with garden:
        free = bool(plan.planting.tried)
        st.subheader("Planted" if fixed else "Plant for" if free else "Plant")
        if free:
            _plan_for(plan, season)
        rows = garden_rows(planted, season.units)
        table(rows, TABLE_PX if len(rows) > MOST_ROWS else "content", key="plantings")
    with kitchen:
        st.subheader("Put up")
        height = TABLE_PX + CONTROL_PX * free
        table(jar_rows(jars, season.units), height, key="jars")
    _more(plan, every)


def _plan_for(plan: PlannedSeason, season: Season) -> None:
    """Let the household say how much bad years weigh in what it plants."""
    chosen = choice("Plan for", list(model.PLAN_FOR), "plan_for_choice", season.plan_for)
    if chosen != season.plan_for:
        session.choose_plan_for(chosen)
        st.rerun()
    st.caption(margin_words(plan.planting.margin))


def _is_over(plan: PlannedSeason) -> bool:
    return not plan.plan.to_fill.any() and not plan.plan.harvest_kg.any()


def _title(plan: PlannedSeason, title: str) -> str:
    return "What the season leaves short" if _is_over(plan) else title


def _over(plan: PlannedSeason) -> None:
    """Show what the season leaves short, which is what the coming one should mend."""
    st.markdown(over_headline(plan.case.forecast.year.name))
    table(shortfall_rows(model.food_table(plan)), height="content", key="shortfall")


def _more(plan: PlannedSeason, limits: pd.DataFrame) -> None:
    when, time, why, change = "When it is picked", "Hours and jars", "The working", "Try a change"
    sow = "Sow by"
    asks = {"One more": one_more, "A bad year": hedges, "Ways to choose": ways}
    chosen = choice("More", [when, sow, time, why, change, *asks], key="spring_more")
    if chosen == when:
        harvest = named(strips(model.harvest_table(plan), plan.case.season.units))
        title = "The weeks of picking; the darker, the more"
        chart = harvest_strips(harvest, pd.Timestamp(session.today()), title)
        picture(chart, harvest)
        st.caption(
            "An ordinary year. Yields are published figures moved by the household's own seasons; "
            "the table shows how many of those stand behind each."
        )
        with st.expander("What each planting should give"):
            table(yield_rows(model.planting_table(plan), plan.case.season.units), key="yields")
    elif chosen == time:
        _limits(plan, limits)
    elif chosen == why:
        working(plan)
        with st.expander("What the plan counts on, and why it differs from the hand rule"):
            rows = count_rows(model.preserve_table(plan), plan.case.season.units)
            table(rows, key="counted_on")
    elif chosen == sow:
        for words in resow_words(model.resow_table(plan), session.today(), plan.case.season.units):
            st.markdown(words)
        table(sowing_rows(model.sowing_table(plan)), "content", key="sow_by")
        st.caption(
            "The last day to start, with nine, five and two chances in ten that it is picked; "
            "behind the garden's own crops stand quick ones for beds that are free."
        )
        _away(model.away_table(plan), plan.case.season.units)
    elif chosen in asks:
        asks[chosen](plan)
    else:
        change_form(plan, session.today(), loss=False)


def _away(away: pd.DataFrame, units: str) -> None:
    """Show when to sow instead so that less ripens while nobody is there."""
    if away.empty:
        return
    st.subheader("Not ripe while everyone is away")
    table(away_rows(away, units), "content", key="away")
    st.caption(
        "In an ordinary year, up to six weeks earlier or later, where the bed has room. What is "
        "lifted at once waits in the ground and is left out."
    )


def _limits(plan: PlannedSeason, limits: pd.DataFrame) -> None:
    weeks = week_rows(model.week_table(plan))
    picture(hours_chart(weeks, "Hours needed, below those free"), weeks)
    jars = limit_strips(limits, JARS)
    if not jars.empty:
        finding = room_finding(limits, JARS, "size of jar")
        picture(share_strips(jars, finding), limits[limits["kind"].isin(JARS)])
        st.caption("Jars in use of those owned: full ones, those given away and those to fill.")
    tight = model.tight_limits(limits)
    scarce = limit_words(tight)
    st.caption(local(f"Used up: {scarce}.") if scarce else "No hours, jars or room are used up.")
    with st.expander("What is used of every limit"):
        table(limit_rows(tight, plan.case.season.units), key="limits")


show()
