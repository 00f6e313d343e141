"""Spring: what to plant, how many jars of what, and what limits it."""

from functools import partial

import altair as alt
import pandas as pd
import streamlit as st

import model
from dashboard import place, session
from dashboard.ahead_tables import (
    away_rows,
    buy_list_rows,
    in_house_rows,
    sizes_told,
    sowing_rows,
    sowing_size_rows,
)
from dashboard.cached import kept, table_of
from dashboard.chart_findings import harvest_finding, hours_finding
from dashboard.charts.garden_chart import harvest_strips
from dashboard.charts.kitchen_chart import hours_chart
from dashboard.charts.strips_chart import share_strips
from dashboard.findings import (
    all_started,
    bad_year_words,
    limit_words,
    margin_words,
    over_headline,
    spring_headline,
)
from dashboard.forms.change_form import change_form
from dashboard.forms.planting_questions import hedges, one_more, ways
from dashboard.forms.working import working
from dashboard.garden_tables import garden_rows, yield_rows
from dashboard.lasting import lasting_rows, shortfall_rows
from dashboard.look import choice, fold, kept_head, kept_picture, picture, printed, table
from dashboard.paper.buy_list import KEEP_TO, buy_list
from dashboard.record_findings import resow_words
from dashboard.strips import JARS, limit_strips, room_finding
from dashboard.supply_picture import supply_picture
from dashboard.tables import (
    LEAST_DRAWN_KG,
    count_rows,
    jar_rows,
    limit_rows,
    strips,
    week_rows,
    working_weeks,
)
from dashboard.units import amount
from dashboard.words import count, day, listed, local, named
from dashboard.working_behind import put_right, working_behind
from dashboard.workings import of_plantings, of_preserves, of_sizes, of_weeks
from model import PlannedSeason, Season

MOST_ROWS = 10
MEAN_WORDS = (
    "On average: over the simulated years, bad ones too. To fill: the aim, for which there is "
    "ground, time and jars, and which takes good weeks for every crop."
)
WHY_WORDS = (
    "Why it is not the rule of thumb: some are kept for a bad year; lean weeks want more than an "
    "even share; the harvest is too small; or it stands in for another."
)


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
    jars = table_of(plan, model.preserve_table)
    every = table_of(plan, model.limit_table)
    planted = table_of(plan, model.planting_table)
    place.answer(_headline(plan, fixed=fixed), place.WEEK, "what to do this week")
    garden, kitchen = st.columns([7, 6], gap="small")
    with garden:
        free = bool(plan.planting.tried)
        st.subheader("Planted" if fixed else "Plant for" if free else "Plant")
        if free:
            _plan_for(plan, season)
        rows = partial(garden_rows, planted, session.today(), season.units)
        kept_head(plan, rows, "plantings", MOST_ROWS)
        working_behind(of_plantings(plan), "plantings")
        put_right()
    with kitchen:
        st.subheader("Put up")
        kept_head(plan, partial(jar_rows, jars, season.units), "jars", MOST_ROWS + 3 * free)
        told = bad_year_words(table_of(plan, model.totals_table))
        if told:
            st.caption(f"{MEAN_WORDS} {told} {WHY_WORDS}")
        working_behind(of_preserves(plan), "jars")
    _more(plan, every)


def _headline(plan: PlannedSeason, *, fixed: bool) -> str:
    """Say what to plant and put up; nothing is to plant where all of it is fixed."""

    def words() -> str:
        season, planted = plan.case.season, table_of(plan, model.planting_table)
        share = season.settings.lean_share
        foods = lasting_rows(table_of(plan, model.food_table), plan.case.today, share)
        limits = model.tight_limits(table_of(plan, model.limit_table))
        grown = planted[planted["amount"] > 0]
        ground = amount(grown["area_m2"].sum(), "m2", season.units)
        sown = f"{count(grown['crop'].nunique(), 'crop')} on about {ground}"
        none = sorted(set(planted["crop"]) - set(grown["crop"]))
        sown += f" (left out: {listed(none)})" if none else ""
        totals = table_of(plan, model.totals_table)
        return spring_headline(totals, foods, limits, None if fixed else sown)

    return kept(plan, "the headline of spring", words)


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
    season, year = plan.case.season, plan.case.forecast.year
    planted = {planting.season for planting in season.plantings}
    coming = [s for s in season.garden_seasons if s.begins > year.ends and s.name in planted]
    st.markdown(over_headline(year.name, coming[0] if coming else None))
    if coming:
        st.button(
            f"Plan season {coming[0].name}, from {day(coming[0].begins)}",
            key="plan_coming",
            type="primary",
            icon=":material/arrow_forward:",
            on_click=session.look_from,
            args=(coming[0].begins,),
        )
    else:
        st.page_link(place.REVIEW, label="Next: next year's draft", icon=":material/arrow_forward:")
    share = season.settings.lean_share
    foods = lasting_rows(table_of(plan, model.food_table), session.today(), share)
    table(shortfall_rows(foods), height="content", key="shortfall")


def _more(plan: PlannedSeason, limits: pd.DataFrame) -> None:
    when, time, why, change = (
        "When it is picked",
        "Hours and jars",
        "One preserve in full",
        "Try a change",
    )
    sow, buy, gap = "Sow by", "Buy list", "Where the portions come from"
    asks = {"What one more brings": one_more, "Against a bad year": hedges, "Ways to plan": ways}
    chosen = choice("More", [when, gap, sow, buy, time, why, change, *asks], key="spring_more")
    if chosen == when:
        _picked(plan)
    elif chosen == gap:
        supply_picture(plan)
    elif chosen == time:
        _limits(plan, limits)
    elif chosen == why:
        _working(plan)
    elif chosen == sow:
        for words in resow_words(model.resow_table(plan), session.today(), plan.case.season.units):
            st.markdown(words)
        rows = sowing_rows(model.sowing_table(plan), plan.case.season.units)
        table(rows, "content", key="sow_by")
        slower = plan.case.season.settings.autumn_slow_days
        st.caption(
            "The last day to start, with nine, five and two chances in ten that it is picked. "
            f"After midsummer it takes up to {slower:g} days longer. "
            "Behind the garden's own crops stand quick ones for beds that are free."
        )
        _sizes(plan, sizes_told(model.sowing_size_table(plan)))
        _away(model.away_table(plan), plan.case.season.units)
    elif chosen == buy:
        _buy(plan)
    elif chosen in asks:
        asks[chosen](plan)
    else:
        change_form(plan, session.today(), loss=False)


def _picked(plan: PlannedSeason) -> None:
    """Draw what is picked week by week."""
    harvest, units = table_of(plan, model.harvest_table), plan.case.season.units

    def picked() -> pd.DataFrame:
        return named(strips(harvest, units))

    if (harvest["expected_kg"] > LEAST_DRAWN_KG).any():
        kept_picture(plan, lambda: _strips(harvest, picked(), units), picked, "picked")
    else:
        st.markdown("Nothing is to be picked in these weeks.")
    st.caption(
        "The stronger the colour, the more of its crop; an ordinary year. Yields are published "
        "figures moved by the household's own seasons; the table shows how many stand behind each."
    )
    with fold("What each planting should give", "yields") as is_open:
        if is_open:
            rows = yield_rows(model.planting_table(plan), plan.case.season.units)
            table(rows, key="yields")


def _strips(harvest: pd.DataFrame, picked: pd.DataFrame, units: str) -> alt.LayerChart:
    now = pd.Timestamp(session.today())
    return harvest_strips(picked, now, harvest_finding(harvest, units))


def _working(plan: PlannedSeason) -> None:
    working(plan)
    with fold(
        "What the plan counts on, and why it differs from the rule of thumb", "count"
    ) as is_open:
        if is_open:
            rows = count_rows(model.preserve_table(plan), plan.case.season.units)
            table(rows, key="counted_on")


def _sizes(plan: PlannedSeason, sizes: pd.DataFrame) -> None:
    """Show what is best ripe together for a full load, and what is best sown in parts."""
    if sizes.empty:
        return
    st.subheader("How much to sow at once")
    table(sowing_size_rows(sizes, plan.case.season.units), "content", key="sowing_sizes")
    st.caption(
        "By an ordinary year and the plan's own weeks, in at most four sowings, the last of them "
        "picked in nine years of ten. Anything else needs no more than one sowing."
    )
    working_behind(of_sizes(plan, sizes), "sizes")


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


def _buy(plan: PlannedSeason) -> None:
    """Show what has to be in the house by when, to be printed as well."""
    season, buying = plan.case.season, model.buy_list_table(plan)
    rows = buy_list_rows(buying, season.units)
    if rows.empty:
        st.markdown("By the plan nothing has to be bought.")
    else:
        table(rows)
        st.caption(f"{KEEP_TO} Seed that you save and plants that you raise need not be bought.")
        printed("the buy list", buy_list, season, rows, session.today())
    enough = in_house_rows(buying, season.units)
    if not enough.empty:
        with fold("What is there in plenty", "enough") as is_open:
            if is_open:
                table(enough)


def _limits(plan: PlannedSeason, limits: pd.DataFrame) -> None:
    weeks = working_weeks(week_rows(model.week_table(plan)))
    if weeks.empty:
        st.markdown("No kitchen work in these weeks.")
    else:
        picture(hours_chart(weeks, hours_finding(weeks)), weeks, "hours")
        st.caption("Bars: hours needed, with their loads; red: all are used. Line: hours free.")
        working_behind(of_weeks(plan), "hours", "Week of")
    jars = limit_strips(limits, JARS)
    if not jars.empty:
        finding = room_finding(limits, JARS, "size of jar")
        owned = limits[limits["kind"].isin(JARS)]
        picture(share_strips(jars, finding), limit_rows(owned, plan.case.season.units), "jars")
        st.caption("Jars in use of those owned: full ones, those given away and those to fill.")
    tight = model.tight_limits(limits)
    scarce = limit_words(tight)
    st.caption(local(f"Used up: {scarce}.") if scarce else "No hours, jars or room are used up.")
    with fold("What is used of every limit", "limits") as is_open:
        if is_open:
            table(limit_rows(tight, plan.case.season.units), key="limits")


show()
