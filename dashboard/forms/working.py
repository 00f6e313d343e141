"""The working behind a number: the hand rule written out, and the tested process."""

import math

import streamlit as st

import model
from dashboard import session
from dashboard.process import cautions, process_lines
from dashboard.units import in_own, units_of
from dashboard.words import listed, local, speaker
from model import HandRule, PlannedSeason

MOST_DIGITS = 6


def working(plan: PlannedSeason) -> None:
    """Let a preserve be chosen and show its sum, its process and why the plan differs."""
    names = [preserve.name for preserve in plan.case.season.preserves]
    chosen = st.selectbox(
        "Preserve", names, format_func=speaker(), key=f"working_{session.scope()}"
    )
    place, units = names.index(chosen), plan.case.season.units
    preserve = plan.case.season.preserves[place]
    row = model.preserve_table(plan).iloc[place]
    by_hand, tested = st.columns(2, gap="medium")
    with by_hand:
        st.markdown("**By the hand rule**")
        st.text("\n".join(rule_lines(plan.by_hand[place], units)))
        plan_words = f"The plan fills **{units_of(row['to_fill'], preserve.unit, units)}**"
        st.markdown(local(f"{plan_words}: {row['reason']}." if row["reason"] else f"{plan_words}."))
        each, unit = in_own(1.0, preserve.unit, units)
        fresh = [_fresh(part.kg / each, part.crop, units) for part in preserve.ingredients]
        st.caption(
            f"One {unit} takes {listed(fresh)} as picked, gives "
            f"{preserve.portions / each:.1f} portions and "
            f"{preserve.minutes_per_unit / each:.0f} min of hand work"
            + (f", and {preserve.minutes_per_load:.0f} min a load." if preserve.canned else ".")
        )
    with tested:
        _process(plan, place)


def _fresh(kg: float, crop: str, units: str) -> str:
    number, unit = in_own(kg, "kg", units)
    return f"{number:.2f} {unit} {crop}"


def rule_lines(rule: HandRule, units: str) -> list[str]:
    """Write the hand rule's sum out, so that a person who redoes it comes to the same number.

    The sum is in the unit the preserve is counted in, because it is rounded up in that; the
    last line gives it in the household's own where that is another.
    """
    digits = next((d for d in range(1, MOST_DIGITS) if _redone(rule, d)), MOST_DIGITS)
    uses, portions, loss, needed, made = _figures(rule, digits)
    lines = [
        f"{uses:g} portions a week x {rule.weeks_without_fresh} weeks without fresh = {needed:g}",
        f"{needed:g} portions / {portions:g} in one {rule.unit} = {made:g}",
        f"less {rule.carry_over} left on {rule.begins}, rounded up = {rule.sealed_needed} needed",
    ]
    if rule.loss_share > 0:
        kept, lost = (
            ("kept", "is lost in store") if rule.unit == "kg" else ("sealed", "does not seal")
        )
        sealing = f"{rule.sealed_needed} {kept} / (1 - {loss:g} that {lost})"
        lines.append(f"{sealing}, rounded up = {rule.to_fill} to fill")
    if in_own(1.0, rule.unit, units)[1] != rule.unit:
        lines.append(f"{rule.to_fill} {rule.unit} = {units_of(rule.to_fill, rule.unit, units)}")
    return lines


def _figures(rule: HandRule, digits: int) -> tuple[float, float, float, float, float]:
    """Give the factors and the steps of the sum, each rounded before the next uses it."""
    uses, portions = round(rule.uses_a_week, digits), round(rule.portions_a_unit, digits)
    needed = round(uses * rule.weeks_without_fresh, digits)
    made = round(needed / portions, digits) if portions else math.inf
    return uses, portions, round(rule.loss_share, digits + 2), needed, made


def _redone(rule: HandRule, digits: int) -> bool:
    """Say whether so many decimals are enough, with the steps rounded or not in between."""
    uses, portions, loss, _, made = _figures(rule, digits)
    if not portions:
        return False
    at_once = uses * rule.weeks_without_fresh / portions
    sealed = {max(0, math.ceil(sum_ - rule.carry_over - 1e-9)) for sum_ in (made, at_once)}
    to_fill = math.ceil(rule.sealed_needed / (1 - loss) - 1e-9)
    return sealed == {rule.sealed_needed} and to_fill == rule.to_fill


def _process(plan: PlannedSeason, place: int) -> None:
    preserve = plan.case.season.preserves[place]
    card = model.ProcessCard.of_preserve(preserve, plan.case.season.altitude_ft)
    if card is None:
        st.markdown(f"**{preserve.method.capitalize()}**")
        for caution in model.cautions_for({preserve.method})[:4]:
            st.caption(caution)
        return
    process_lines(card)
    with st.expander("Cautions"):
        cautions(card)
