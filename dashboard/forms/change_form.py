"""Try a change: an area, a target or a loss, and the new plan beside the old one."""

from datetime import date

import streamlit as st

import model
from dashboard.cached import planned
from dashboard.look import table
from dashboard.words import amount, day_or
from model import Change, PlannedSeason

NOTHING = "no change"


def change_form(plan: PlannedSeason, today: date, *, loss: bool) -> None:
    """Ask for a change and show what it does; ``loss`` asks for what is gone first."""
    asks = [_ask_loss, _ask_target, _ask_amount] if loss else [_ask_amount, _ask_target, _ask_loss]
    columns = st.columns(3, gap="medium")
    parts = []
    for column, ask in zip(columns, asks, strict=True):
        with column:
            parts.append(ask(plan, today))
    change = Change(
        amounts=sum((part.amounts for part in parts), ()),
        targets=sum((part.targets for part in parts), ()),
        losses=sum((part.losses for part in parts), ()),
    )
    if change.empty:
        st.caption("Choose something above: the new plan is then shown beside this one.")
        return
    season = model.changed_season(plan.case.season, change, today)
    try:
        after = planned(season, today, before=plan)
    except model.SeasonProblems as error:
        for problem in error.problems:
            st.error(f"{problem.found}; {problem.wanted}")
        return
    _show(plan, after)


def _ask_amount(plan: PlannedSeason, today: date) -> Change:
    season = plan.case.season
    open_ones = [
        (b, planting)
        for b, planting in enumerate(plan.case.forecast.plantings)
        if planting.started is None or planting.started > today
    ]
    names = [NOTHING, *(f"{p.crop}, {p.bed} ({p.started})" for _, p in open_ones)]
    chosen = st.selectbox("Plant more or less of", names, key="change_planting")
    if chosen == NOTHING:
        return Change()
    b, planting = open_ones[names.index(chosen) - 1]
    now = float(plan.plan.amounts[b])
    step = 1.0 if planting.per == "plant" else 0.5
    new = st.number_input(
        f"How much ({planting.per}; the plan: {amount(now, planting.per, season.units)})",
        min_value=0.0,
        max_value=max(10.0, 4 * now),
        value=round(now / step) * step,
        step=step,
        key=f"amount_{chosen}",
    )
    if abs(new - now) < step / 2:
        return Change()
    return Change(amounts=((season.plantings.index(planting), new),))


def _ask_target(plan: PlannedSeason, _: date) -> Change:
    names = [NOTHING, *(preserve.name for preserve in plan.case.season.preserves)]
    chosen = st.selectbox("Fill more or fewer of", names, key="change_preserve")
    if chosen == NOTHING:
        return Change()
    place = names.index(chosen) - 1
    now = int(plan.plan.to_fill[place])
    new = st.number_input(
        f"Sealed jars wanted (the plan fills {now})",
        min_value=0,
        max_value=500,
        value=now,
        step=1,
        key=f"target_{chosen}",
    )
    return Change() if new == now else Change(targets=((chosen, int(new)),))


def _ask_loss(plan: PlannedSeason, _: date) -> Change:
    coming = plan.plan.harvest_kg.sum(axis=1)
    crops = [crop for crop, kg in zip(plan.case.arrays.crops, coming, strict=True) if kg > 0.05]
    chosen = st.selectbox("Some of a crop is gone", [NOTHING, *crops], key="change_loss")
    if chosen == NOTHING:
        return Change()
    share = st.slider("About how much is gone (%)", 0, 100, 50, 5, key=f"loss_{chosen}")
    return Change(losses=((chosen, share / 100),)) if share else Change()


def _show(before: PlannedSeason, after: PlannedSeason) -> None:
    jars, foods = model.compare_jars(before, after), model.compare_foods(before, after)
    left, right = st.columns(2, gap="medium")
    with left:
        if jars.empty:
            st.markdown("The jars to fill stay the same.")
        else:
            st.markdown("**Jars to fill, before and after**")
            table(jars, key="changed_jars")
    with right:
        moved = foods[
            (foods["lasts_before"] != foods["lasts_after"])
            | ((foods["met_before"] - foods["met_after"]).abs() >= 5)
        ]
        if moved.empty:
            st.markdown("Every food lasts as long as before.")
            return
        st.markdown("**Foods, before and after**")
        shown = moved.copy()
        shown["met_before"] = shown["met_before"].round()
        shown["met_after"] = shown["met_after"].round()
        for name in ("lasts_before", "lasts_after", "new_crop"):
            shown[name] = [day_or(when, "none planted") for when in shown[name]]
        table(shown, key="changed_foods")
