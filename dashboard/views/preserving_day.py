"""Preserving day: what to do now, in which order, and when it is done."""

from collections.abc import Sequence

import streamlit as st

import model
from dashboard import place, session
from dashboard.charts.day_chart import day_chart
from dashboard.day_findings import (
    bedtime_words,
    cautions_of,
    day_headline,
    day_steps,
    load_words,
    nearly,
    now_words,
    picture_title,
    refused_words,
    set_out_words,
    step_words,
    waiting_words,
)
from dashboard.forms.checklist_form import checklist_form
from dashboard.forms.day_form import day_numbers, day_times
from dashboard.forms.put_up_form import batch_form
from dashboard.forms.writing import last_written
from dashboard.look import choice, picture, printed
from dashboard.paper.day_paper import PaperDay, day_paper
from dashboard.process import process_lines
from dashboard.words import capital, day, local
from model import DayProduct, DaySheet, Load, Season, Wanted

TITLE = "Preserving day: what to do now, and when it is done"
CHECK, SET_OUT, PROCESS, LABELS = "Checklist", "Set out", "Process", "Labels"


def show() -> None:
    """Show the page."""
    season, wanted = _opened()
    last_written()
    made, refused = model.day_products(season, wanted)
    top = st.container()
    with st.expander("When, and what is made", expanded=not wanted):
        begins, late = day_times(season)
        day_numbers(season, wanted)
    there = model.put_up_on(season, session.today())
    sheet = model.day_sheet(season, made, refused, begins, past_bedtime=late, put_up=there)
    with top:
        canned = any(load.process for load in sheet.loads)
        after = "look at the seals the day after" if canned else "write down what is put up"
        place.answer(day_headline(sheet), place.LOG, after)
        place.looks_wait()
        _warn(sheet, season)
        _now(sheet, season.units)
    # Beside an empty half a page looks broken.
    left, right = st.columns([1, 1], gap="medium") if sheet.loads else [st.container()] * 2
    with left:
        _loads(sheet, season)
        if sheet.loads:
            paper = PaperDay(session.today(), sheet, made)
            printed("the day", day_paper, season, paper)
    with right:
        _picture(sheet)
        _more(season, sheet, made)
    _cautions(made)


def _more(season: Season, sheet: DaySheet, made: tuple[DayProduct, ...]) -> None:
    chosen = choice("More", [CHECK, SET_OUT, PROCESS, LABELS], key="day_more")
    if chosen == CHECK:
        checklist_form(model.checklist(season, made, session.today()))
    elif chosen == SET_OUT:
        for words in set_out_words(model.set_out(season, sheet.to_make), season.units):
            st.markdown(f"- {local(words)}")
    elif chosen == PROCESS:
        _processes(made)
    else:
        _labels(season, sheet)


def _opened() -> tuple[Season, tuple[Wanted, ...]]:
    """Show the head; what is made today is the plan's until the household changes it."""
    known = session.wanted_today()
    if known is not None:
        season = place.headed(TITLE).season
        return season, known
    plan = place.opened(TITLE)
    wanted = model.wanted_today(plan)
    session.want_today(wanted)
    # a plan made before something was ticked knows nothing of it, and is still the plan
    return session.season() or plan.case.season, wanted


def _warn(sheet: DaySheet, season: Season) -> None:
    for one in sheet.refused:
        st.error(local(refused_words(one)))
    words = [bedtime_words(sheet), *waiting_words(sheet.waiting, season.units)]
    told = [one for one in words if one]
    if told:
        st.warning(local("  \n".join(told)))


def _now(sheet: DaySheet, units: str) -> None:
    now = session.moment().replace(tzinfo=None)
    told = now_words(sheet, now, units)
    if not told:
        return
    with st.container(key="now", border=True):
        for at, words in told:
            st.markdown(f"**{at}**  \n{local(words)}")


def _loads(sheet: DaySheet, season: Season) -> None:
    if sheet.loads:
        st.subheader("In this order")
    for load in sheet.loads:
        over = load.number in sheet.done
        with st.container(border=True, key=f"load_{load.number}"):
            told = [local(load_words(load, sheet, season.units))]
            if not over:
                # As published, acid first: whoever fills a jar does not look elsewhere for it.
                told += load.product.card.steps if load.product.card else []
                told += map(local, step_words(load, sheet, season.zone))
            st.markdown("  \n".join(told))
            if load.product.preserve is None or over:
                continue
            if session.finished_load() == load.number:
                _write_down(season, load)
            else:
                st.button(
                    f"Done: write down batch {load.number}",
                    key=f"day_done_{load.number}_{session.form()}",
                    on_click=session.finish_load,
                    args=(load.number,),
                    width="stretch",
                )


def _write_down(season: Season, load: Load) -> None:
    """Ask how many of the load that is done were filled, as the log asks it."""
    ended = load.process.ends if load.process else None
    if ended and session.today() == session.clock().date():
        # done before its time: what is offered is no moment that is still to come
        ended = min(ended, session.moment().replace(tzinfo=None))
    batch_form(season, load.product.name, float(load.units), ended)


def _picture(sheet: DaySheet) -> None:
    if not sheet.loads:
        return
    steps = day_steps(model.day_table(sheet))
    picture(day_chart(steps, picture_title(sheet), nearly(sheet)), steps, "day")
    st.caption(
        "Grey: your hands. Thin: the canner heats, vents or cools. Thick: the process, with the "
        "number of its batch. The process is the tested one; the times round it are usual ones, "
        "and the clock of the process starts only at a full boil or at full pressure."
    )


def _processes(made: tuple[DayProduct, ...]) -> None:
    cards = [(one.card, one.name) for one in made if one.card is not None]
    for card, name in cards:
        process_lines(card, local(capital(name)))
    if not cards:
        st.markdown("Nothing of today is canned.")


def _labels(season: Season, sheet: DaySheet) -> None:
    today = session.today()
    for batch in season.record.batches:
        if batch.put_up == today:
            st.text(_label_text(model.label_of(season, batch).lines(day)))
    free: dict[str, object] = {}
    for load in sheet.loads:
        own = load.product.preserve
        if own is not None and load.number not in sheet.done:
            codes = free.setdefault(own.name, model.free_codes(season, today, own.name))
            st.text(_label_text(model.label_for(own, today, next(codes)).lines(day)))
    st.caption(
        local(
            "One label a jar: the last line is the name of its batch in the record. "
            "Under Larder, Labels, they are printed once the seals were looked at."
        )
    )


def _label_text(lines: Sequence[str]) -> str:
    """Give a label in the household's words; the name of its batch stays as it is written down."""
    *told, code = lines
    return "\n".join([*map(local, told), code])


def _cautions(made: tuple[DayProduct, ...]) -> None:
    if not made:
        return
    st.subheader("Cautions for what is made today")
    for what, cautions in cautions_of(made).items():
        st.markdown(f"**{local(what)}**")
        for caution in cautions:
            st.markdown(f"- {caution}")


show()
