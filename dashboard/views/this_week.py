"""This week: what to pick, eat and put up, and whether the season is ahead or behind."""

from datetime import timedelta
from functools import partial

import altair as alt
import pandas as pd
import streamlit as st

import model
from dashboard import place, session
from dashboard.ahead_tables import buy_rows
from dashboard.autumn import autumn_words
from dashboard.cached import kept, table_of
from dashboard.chart_findings import hours_finding
from dashboard.charts.kitchen_chart import hours_chart
from dashboard.findings import progress_words, unsown_now_words, week_headline
from dashboard.forms.change_form import change_form
from dashboard.forms.glut_form import glut_form
from dashboard.forms.kept_plan_form import kept_plan_form
from dashboard.forms.picked_form import picked_form
from dashboard.forms.process_form import process_form
from dashboard.garden_tables import sow_now_rows
from dashboard.look import choice, fold, kept_picture, kept_table, printed, table
from dashboard.paper.kitchen_sheet import kitchen_sheet
from dashboard.process import process_lines
from dashboard.record_findings import larder_headline, nothing_to_buy_words
from dashboard.record_tables import product_rows
from dashboard.store_rows import curing_rows, in_hand_rows
from dashboard.tables import batch_rows, opening_rows, picking_rows, week_rows
from dashboard.units import weight
from dashboard.words import capital, count, day, in_own_days, listed, local, write_as
from dashboard.working_behind import working_behind
from dashboard.workings import of_buying, of_weeks
from model import PlannedSeason

LEAST_KG = 0.05
AHEAD, CURE_SOON = 10, timedelta(weeks=2)
*_, ENOUGH = model.PRODUCT_STATUSES


def show() -> None:
    """Show the page."""
    plan = place.opened("This week in the garden and the kitchen", stock=True)
    units = plan.case.season.units
    weeks = table_of(plan, model.week_table)
    fresh = kept(plan, "what is to be picked now", lambda: model.fresh_table(plan, 0))
    told = kept(plan, "the headline of the week", lambda: _headline(plan, weeks, fresh))
    sowing = kept(
        plan,
        "what is to be sown now",
        lambda: sow_now_rows(table_of(plan, model.planting_table), plan.case.today, units),
    )
    if not sowing.empty:
        told += f" **To sow or plant out: {listed(sowing['crop'].unique())}**."
    if weeks.iloc[0]["jars"]:
        place.answer(told, place.DAY, "the preserving day, load by load")
    elif fresh.empty:
        place.answer(told, place.LARDER, "what to eat first")
    else:
        place.answer(told, place.LOG, "write down what was picked")
    place.looks_wait()
    if said := autumn_words(plan.case.season, session.today()):
        st.markdown(said)
    _chosen(plan, weeks, fresh, sowing)


def _headline(plan: PlannedSeason, weeks: pd.DataFrame, fresh: pd.DataFrame) -> str:
    kg_words = weight(weeks.iloc[0]["expected_kg"], plan.case.season.units)
    return week_headline(weeks.iloc[0], fresh, kg_words, _opened_now(plan))


def _chosen(
    plan: PlannedSeason, weeks: pd.DataFrame, fresh: pd.DataFrame, sowing: pd.DataFrame
) -> None:
    """Show the week, or what else was chosen; a glut is to be within reach of a thumb."""
    week, glut = "The week", "A glut on the table"
    gone, process = "A crop was lost", "Process times"
    jars, picked, buy = "Put up so far", "Picked so far", "Buy in"
    chosen = choice("Show", [week, glut, picked, jars, gone, buy, process], key="week_shows")
    if chosen == glut:
        _glut(plan)
    elif chosen == gone:
        change_form(plan, session.today(), loss=True)
    elif chosen == process:
        process_form(plan.case.season)
    elif chosen == picked:
        picked_form(plan)
    elif chosen == jars:
        _jars(plan)
    elif chosen == buy:
        _buy_in(plan)
    else:
        _week(plan, fresh, sowing)
        _coming(plan, weeks)


@st.fragment
def _glut(plan: PlannedSeason) -> None:
    """Show the glut, which alone is run again while its numbers are typed."""
    season = plan.case.season
    write_as(season.date_form, season.tongue)
    pile_kg = glut_form(plan)
    _waiting(model.in_hand_table(plan, pile_kg), season.units)


def _week(plan: PlannedSeason, fresh: pd.DataFrame, sowing: pd.DataFrame) -> None:
    units = plan.case.season.units
    if fresh.empty and sowing.empty:
        picking = putting_up = st.container()
    else:
        picking, putting_up = st.columns([4, 3], gap="small")
    with picking:
        st.subheader("Pick and eat")
        _pick(plan, fresh, units)
        _sow(plan, sowing)
        _cure(table_of(plan, model.curing_table), units)
    with putting_up:
        st.subheader("Put up")
        _put_up(plan, units)
    # where there is little to put up its half of the page is free
    with putting_up if fresh.empty else picking:
        _open(plan, _opened_now(plan))
    printed("the sheet for the fridge door", kitchen_sheet, plan, session.moment())
    _season(plan, units)


def _sow(plan: PlannedSeason, sowing: pd.DataFrame) -> None:
    """Show what is to be sown and planted out, this week and the next, and what nobody told."""
    unsaid = unsown_now_words(plan.case.forecast.plantings, plan.case.today)
    if not sowing.empty:
        st.subheader("Sow and plant out")
        kept_table(plan, lambda: sowing, "sow_now")
    if unsaid:
        st.markdown(local(unsaid))
    if unsaid or not sowing.empty:
        st.page_link(
            place.LOG,
            label="Write down what was sown or planted",
            icon=place.PLACES[place.LOG][1],
            query_params={place.ASKED: place.SOWN},
        )


def _open(plan: PlannedSeason, openings: pd.DataFrame) -> None:
    """Show what the plan opens, below what the larder has to eat or to look at before it."""
    if not openings.empty:
        st.subheader("From the shelf")
        st.markdown(local(kept(plan, "what to eat first", lambda: _eat_first(plan))))
        kept_table(plan, lambda: opening_rows(openings, plan.case.season.units), "open")
        st.caption(
            "At the plan's pace, the oldest first. What is left in an opened jar goes into the "
            "refrigerator."
        )


def _opened_now(plan: PlannedSeason) -> pd.DataFrame:
    return kept(plan, "what this week opens", lambda: model.opening_table(plan, 0))


def _eat_first(plan: PlannedSeason) -> str:
    case, first = plan.case, table_of(plan, model.eat_first_table)
    return in_own_days(larder_headline(case.season, first, case.today, case.unseen_since))


def _cure(curing: pd.DataFrame, units: str) -> None:
    """Show what is curing, or is to be cured from this week or the next."""
    near = curing[curing["cure_from"] <= session.today() + CURE_SOON]
    if not near.empty:
        st.subheader("Cure before it is stored")
        table(curing_rows(near, units))


def _pick(plan: PlannedSeason, fresh: pd.DataFrame, units: str) -> None:
    if fresh.empty:
        coming = table_of(plan, model.harvest_table)
        later = coming[coming["expected_kg"] > 0.1].sort_values("week")
        if later.empty:
            st.markdown("Nothing more is to come from the garden in these weeks.")
        else:
            first = later.iloc[0]
            st.markdown(f"First to come: **{local(first['crop'])}**, week of {day(first['week'])}.")
        return
    once = {crop.name for crop in plan.case.season.crops if crop.shape == "single lift"}
    rows = kept(plan, "rows of what is to be picked", lambda: picking_rows(fresh, units, once))
    kept_table(plan, lambda: rows, "pick")
    over = (
        " Over: more than is used, of what is lifted once; it may stand in the ground still, or "
        "never have been there."
    )
    told = over if rows["rest"].str.contains("over ").any() else ""
    st.caption(f"In brackets: eight years in ten. What is held waits for next week.{told}")


def _put_up(plan: PlannedSeason, units: str) -> None:
    batches = table_of(plan, model.batch_table)
    this = batches[batches["week"] == plan.case.weeks.monday(0)]
    if this.empty:
        nxt = batches.head(1)
        if nxt.empty:
            st.markdown("Nothing is to be put up in these weeks.")
        else:
            row = nxt.iloc[0]
            st.markdown(f"Next: **{local(row['preserve'])}**, week of {day(row['week'])}.")
        return
    kept_table(plan, lambda: batch_rows(this, units), "put_up")
    working_behind(of_weeks(plan, 1), "this_week", "Week of")
    order = "In which order, and when it is done"
    st.page_link(place.DAY, label=order, icon=place.PLACES[place.DAY][1])
    for preserve in plan.case.season.preserves:
        card = model.ProcessCard.of_preserve(preserve, plan.case.season.altitude_ft)
        if card is not None and preserve.name in set(this["preserve"]):
            process_lines(card, local(capital(preserve.name)))
    st.caption(
        "Times are for planning: follow a current tested recipe. What is not listed has enough "
        "already, or is worth less than what is."
    )


def _season(plan: PlannedSeason, units: str) -> None:
    progress = table_of(plan, model.progress_table)
    if progress.empty:
        return
    over = plan.plan.harvest_kg.sum() < LEAST_KG
    st.subheader("How the season came out" if over else "How the season stands")
    today = session.today()
    logged = [picking.day for picking in plan.case.season.pickings if picking.day <= today]
    last = max(logged, default=None)
    for words in progress_words(progress, last, partial(weight, units=units)):
        st.markdown(local(words))


def _coming(plan: PlannedSeason, weeks: pd.DataFrame) -> None:
    st.subheader("The weeks to come")
    near = kept(plan, f"the next {AHEAD} weeks", lambda: week_rows(weeks.head(AHEAD)))
    if not near["hours"].any():
        st.markdown(f"No kitchen work in the next {AHEAD} weeks.")
        return
    hours = partial(_hours, near)
    kept_picture(plan, hours, lambda: near, "hours", f"the next {AHEAD} weeks")
    st.caption("Bars: hours needed, with their loads; red: all are used. Line: hours free.")
    working_behind(of_weeks(plan, AHEAD), "weeks", "Week of")


def _hours(near: pd.DataFrame) -> alt.LayerChart:
    return hours_chart(near, hours_finding(near), short=True)


def _waiting(in_hand: pd.DataFrame, units: str) -> None:
    """Show how long what is to hand holds, and how it may wait."""
    if in_hand.empty:
        return
    st.subheader("How long it holds, and how it may wait")
    table(in_hand_rows(in_hand, session.today(), units))
    st.caption(
        "First what loses most by waiting: what it gives for winter, by how soon it spoils. Days "
        "count from the oldest picking in the log that may still lie there, else from today."
    )


def _jars(plan: PlannedSeason) -> None:
    """Show each preserve ahead, on track or behind what was meant, and let the plan be kept."""
    products = model.product_table(plan)
    if products.empty:
        st.markdown("Nothing is meant to be put up this season.")
        return
    rows = product_rows(products, plan.case.season.units)
    enough = rows["product_status"].eq(ENOUGH)
    if enough.all():
        st.markdown("Of all that is aimed at there is enough.")
    else:
        table(rows[~enough], "content", key="products")
    if enough.any():
        with fold(f"Enough already: {count(enough.sum(), 'preserve')}", "put_up") as is_open:
            if is_open:
                table(rows[enough], "content", key="enough_products")
    kept_plan_form(plan, products)


def _buy_in(plan: PlannedSeason) -> None:
    buying = model.buy_in_table(plan)
    if buying.empty:
        st.markdown(nothing_to_buy_words(model.food_table(plan)))
        return
    table(buy_rows(buying, plan.case.season.units), "content", key="buy_in")
    working_behind(of_buying(plan, buying), "buy_in")
    st.caption(
        "So much, or so much less eaten, covers what an ordinary year leaves short; what eight "
        "years in ten ask for stands under Winter, To make it last. Only what can still be put up "
        "this season is listed, and each needs kitchen hours beside those of the plan."
    )


show()
