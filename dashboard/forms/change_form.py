"""Try a change: an area, a target or a loss, the new plan beside the old one, and keep it."""

from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from datetime import date

import streamlit as st

import model
from dashboard import session
from dashboard.cached import planned
from dashboard.findings import what_holds_back
from dashboard.forms.writing import last_written, save
from dashboard.look import faults, table
from dashboard.record_findings import resow_words
from dashboard.said import Tried
from dashboard.tables import changed_plantings, compared_foods, compared_jars
from dashboard.units import amount, from_own, in_own, units_of
from dashboard.words import capital, listed, local, speaker
from model import Change, Edit, PlannedSeason

NOTHING = "no change"
STEPS = {"m²": 0.5, "ft²": 5.0}


@dataclass(frozen=True)
class Asked:
    """One part of a change, and the words for it."""

    change: Change = field(default_factory=Change)
    words: str = ""


def change_form(plan: PlannedSeason, today: date, *, loss: bool) -> None:
    """Ask for a change and show what it does; ``loss`` asks for what is gone first."""
    last_written()
    asks = [_ask_loss, _ask_target, _ask_amount] if loss else [_ask_amount, _ask_target, _ask_loss]
    parts = []
    for column, ask in zip(st.columns(3, gap="medium"), asks, strict=True):
        with column:
            parts.append(ask(plan, today))
    change = Change(
        amounts=sum((part.change.amounts for part in parts), ()),
        targets=sum((part.change.targets for part in parts), ()),
        losses=sum((part.change.losses for part in parts), ()),
    )
    if change.empty:
        st.caption("Choose something above: the new plan is then shown beside this one.")
        return
    try:
        changed = model.changed_season(plan.case.season, change, today)
        after = planned((*session.seasons(), changed), today)
    except model.PlanningError as error:
        faults(error, "With this change there is no plan.")
        return
    # What is kept is what the fields show when it is tapped: the tap may end the typing in one.
    key = f"keep_{session.scope()}_{session.form()}"
    label = "Write the loss down" if change.losses else "Keep this change"
    if st.button(label, type="primary", key=key):
        _keep(parts, change, today)
        st.rerun()
    if change.losses:
        st.caption("A loss is a fact: it is written into your notes, and can be taken back.")
    _say_unreached(after, change)
    resow = model.resow_table(after)
    for said in resow_words(resow, today, after.case.season.units):
        st.markdown(said)
    _show(plan, after)


def _keep(parts: Sequence[Asked], change: Change, today: date) -> None:
    """Write down what is lost; keep the rest of a change while the session lasts."""
    tried = replace(change, losses=())
    if not tried.empty:
        kept = [part.words for part in parts if part.words and not part.change.losses]
        session.keep(Tried(today, tried, "; ".join(kept)))
    lost = [
        {"noticed_on": f"{today}", "crop": crop, "lost_percent": f"{100 * share:g}"}
        for crop, share in change.losses
    ]
    if lost:
        words = "; ".join(part.words for part in parts if part.change.losses)
        save([Edit("setbacks.csv", cells) for cells in lost], words, session.operation())


def _ask_amount(plan: PlannedSeason, today: date) -> Asked:
    season = plan.case.season
    open_ones = [
        (b, planting)
        for b, planting in enumerate(plan.case.forecast.plantings)
        if planting.started is None or planting.started > today
    ]
    names = [NOTHING, *(f"{p.crop}, {p.bed} ({p.started})" for _, p in open_ones)]
    scope = session.scope()
    chosen = st.selectbox(
        "Plant more or less of", names, format_func=speaker(), key=f"change_planting_{scope}"
    )
    if chosen == NOTHING:
        return Asked()
    b, planting = open_ones[names.index(chosen) - 1]
    now, unit = in_own(float(plan.plan.amounts[b]), planting.per, season.units)
    step = STEPS.get(unit, 1.0)
    new = st.number_input(
        f"How much ({unit}; the plan: {amount(plan.plan.amounts[b], planting.per, season.units)})",
        min_value=0.0,
        max_value=max(20 * step, 4 * now),
        value=round(now / step) * step,
        step=step,
        format="%g",
        key=f"amount_{chosen}_{now:.3f}_{scope}",
    )
    if abs(new - now) <= step / 2:
        return Asked()
    inside = from_own(new, planting.per, season.units)
    words = f"{amount(inside, planting.per, season.units)} of {planting.crop} in {planting.bed}"
    return Asked(Change(amounts=((season.plantings.index(planting), inside),)), words)


def _ask_target(plan: PlannedSeason, _: date) -> Asked:
    season, scope = plan.case.season, session.scope()
    names = [NOTHING, *(preserve.name for preserve in season.preserves)]
    chosen = st.selectbox(
        "Fill more or fewer of", names, format_func=speaker(), key=f"change_preserve_{scope}"
    )
    if chosen == NOTHING:
        return Asked()
    row = _row(plan, chosen)
    now, unit = int(row["sealed_needed"]), row["unit"]
    new = st.number_input(
        f"{_sealed(unit)} wanted, in {_plural(unit)} (the plan counts on {now})",
        min_value=0,
        max_value=max(500, now),
        value=now,
        step=1,
        help=f"{now} {_plural(unit)} are {units_of(now, unit, season.units)}",
        key=f"target_{chosen}_{now}_{scope}",
    )
    if new == now:
        return Asked()
    words = f"{units_of(new, unit, season.units)} of {chosen} wanted"
    return Asked(Change(targets=((chosen, int(new)),)), words)


def _sealed(unit: str) -> str:
    return "Sealed" if unit == "jar" else "Kept"


def _plural(unit: str) -> str:
    return unit if unit == "kg" else f"{unit}s"


def _row(plan: PlannedSeason, preserve: str) -> dict[str, object]:
    table = model.preserve_table(plan)
    return table[table["preserve"] == preserve].iloc[0].to_dict()


def _ask_loss(plan: PlannedSeason, _: date) -> Asked:
    scope, coming = f"{session.scope()}_{session.form()}", plan.plan.harvest_kg.sum(axis=1)
    crops = [crop for crop, kg in zip(plan.case.arrays.crops, coming, strict=True) if kg > 0.05]
    chosen = st.multiselect(
        "Some of a crop is gone", crops, format_func=speaker(), key=f"change_loss_{scope}"
    )
    if not chosen:
        return Asked()
    share = st.slider(
        "About how much of what is still to come (%)", 0, 100, 50, 5, key=f"loss_{chosen}_{scope}"
    )
    if not share:
        return Asked()
    words = f"{share}% of the {listed(chosen)} still to come is gone"
    return Asked(Change(losses=tuple((crop, share / 100) for crop in chosen)), words)


def _say_unreached(after: PlannedSeason, change: Change) -> None:
    """Say how many of a target are possible, and with what, where it cannot be reached."""
    units = after.case.season.units
    for preserve, wanted in change.targets:
        row = _row(after, preserve)
        possible = row["sealed_needed"]
        if possible < wanted:
            limits = model.tight_limits(model.limit_table(after))
            st.warning(
                f"{local(capital(preserve))}: only {units_of(possible, row['unit'], units)} of "
                f"{wanted} are possible with {what_holds_back(after, preserve, limits)}."
            )


def _show(before: PlannedSeason, after: PlannedSeason) -> None:
    units = after.case.season.units
    jars = compared_jars(model.compare_jars(before, after), units)
    foods = compared_foods(model.compare_foods(before, after))
    ground = changed_plantings(before, after)
    if not ground.empty:
        st.markdown("**Planted, before and after**")
        table(ground, height="content", key="changed_plantings")
    left, right = st.columns(2, gap="small")
    with left:
        if jars.empty:
            st.markdown("What is put up stays the same.")
        else:
            st.markdown("**To put up, before and after**")
            table(jars, key="changed_jars")
    with right:
        if foods.empty:
            st.markdown("Every food lasts as long as before.")
        else:
            st.markdown("**Foods, before and after**")
            table(foods, key="changed_foods")
