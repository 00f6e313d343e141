"""A preserve in full: the working behind its jars, what one takes, and the tested process."""

import streamlit as st

import model
from dashboard import session
from dashboard.process import cautions, process_lines
from dashboard.units import in_own
from dashboard.words import capital, listed, speaker
from dashboard.working_behind import show_workings
from model import PlannedSeason


def working(plan: PlannedSeason) -> None:
    """Let a preserve be chosen and show its sum, its process and why the plan differs."""
    names = [preserve.name for preserve in plan.case.season.preserves]
    chosen = st.selectbox(
        "Preserve", names, format_func=speaker(), key=f"working_{session.scope()}"
    )
    place, units = names.index(chosen), plan.case.season.units
    preserve = plan.case.season.preserves[place]
    by_hand, tested = st.columns(2, gap="medium")
    with by_hand:
        show_workings(model.workings.stock_workings(plan, place))
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


def _process(plan: PlannedSeason, place: int) -> None:
    preserve = plan.case.season.preserves[place]
    card = model.ProcessCard.of_preserve(preserve, plan.case.season.altitude_ft)
    if card is None:
        st.markdown(f"**{capital(preserve.method)}**")
        for caution in model.cautions_for({preserve.method})[:4]:
            st.caption(caution)
        return
    process_lines(card)
    with st.expander("Cautions"):
        cautions(card)
