"""The working behind a number: the hand rule written out, and the tested process."""

import streamlit as st

import model
from dashboard.words import listed
from model import PlannedSeason


def working(plan: PlannedSeason) -> None:
    """Let a preserve be chosen and show its sum, its process and why the plan differs."""
    names = [preserve.name for preserve in plan.case.season.preserves]
    chosen = st.selectbox("Preserve", names, key="working_of")
    place = names.index(chosen)
    rule, preserve = plan.by_hand[place], plan.case.season.preserves[place]
    row = model.preserve_table(plan).iloc[place]
    by_hand, tested = st.columns(2, gap="medium")
    with by_hand:
        st.markdown("**By the hand rule**")
        st.text("\n".join(rule.working))
        plan_words = f"The plan fills **{row['to_fill']}**"
        st.markdown(f"{plan_words}: {row['reason']}." if row["reason"] else f"{plan_words}.")
        fresh = [f"{part.kg:.2f} kg {part.crop}" for part in preserve.ingredients]
        st.caption(
            f"One {preserve.unit} takes {listed(fresh)} as picked, gives "
            f"{preserve.portions:.1f} portions and {preserve.minutes_per_unit:.0f} min of hand work"
            + (f", and {preserve.minutes_per_load:.0f} min a load." if preserve.canned else ".")
        )
    with tested:
        _process(plan, place)


def _process(plan: PlannedSeason, place: int) -> None:
    preserve = plan.case.season.preserves[place]
    process = preserve.process
    if process is None:
        st.markdown(f"**{preserve.method.capitalize()}**")
        for caution in model.cautions_for({preserve.method})[:4]:
            st.caption(caution)
        return
    card = model.ProcessCard(preserve.jar or "", plan.case.season.altitude_ft, process, ())
    pressure = f" at {process.pressure_psi} psi" if process.pressure_psi else " at a full boil"
    st.markdown(f"**{process.minutes} minutes**{pressure}, {process.pack} pack, {card.band}")
    if process.acid_in_every_jar:
        st.markdown("Acid goes into every jar.")
    if card.note:
        st.markdown(card.note)
    st.caption(f"Looked up for a {process.jar} jar. {model.source_title(process.source)}")
    with st.expander("Cautions"):
        for caution in card.cautions:
            st.markdown(f"- {caution}")
