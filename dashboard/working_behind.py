"""The working beside a figure: its few lines, where each is from, and the way to what is judged."""

from collections.abc import Callable, Mapping, Sequence

import streamlit as st

from dashboard import place, session
from dashboard.kept import number_of
from dashboard.look import fold
from dashboard.words import count, day, listed, local, speaker
from model import workings as known

TITLE = "The working"
# Parts of the page of notes, and what is chosen there.
PART, SETTING = "part", "setting"
JUDGEMENTS, GUESSES = "Judgements", "Guesses"
Workings = Mapping[str, Callable[[], Sequence[known.Working]]]


def working_behind(workings: Workings, key: str, of: str = "Of") -> None:
    """Offer the workings behind the figures above, one named figure at a time."""
    if not workings:
        return
    with fold(TITLE, f"behind_{key}", ":material/calculate:") as is_open:
        if not is_open:
            return
        names = list(workings)
        chosen = names[0]
        if len(names) > 1:
            scope = f"working_{key}_{session.scope()}"
            chosen = st.selectbox(of, names, format_func=speaker(), key=scope)
        show_workings(workings[chosen]())


def put_right() -> None:
    """Lead to what of the notes is still a guess, where anything is."""
    notes = session.notes()
    if notes is None:
        return
    if number := number_of(notes.guesses):
        st.page_link(
            place.HOUSEHOLD,
            label=f"Put right crops, jars, portions: {count(number, 'guess', 'guesses')} still",
            icon=":material/edit:",
            query_params={PART: GUESSES},
        )


def show_workings(workings: Sequence[known.Working]) -> None:
    """Show workings one below the other, and lead to the judgements in them."""
    for working in workings:
        shown = working.shown if isinstance(working.shown, str) else day(working.shown)
        with st.container(gap=None):
            st.markdown(f"**{local(working.what)}: {local(shown)}**")
            for one in working.lines:
                st.markdown(local(one.told(day)))
                if one.sources:
                    st.caption(local("; ".join(_marked(source) for source in one.sources)))
    _lead_on([source for working in workings for one in working.lines for source in one.sources])


def _marked(source: known.Source) -> str:
    """Name a source; what somebody judged or guessed is marked."""
    if _guessed(source):
        return f"**your guess** ({source.words})"
    return f"**a judgement** ({source.words})" if source.judgement else source.words


def _guessed(source: known.Source) -> bool:
    notes = session.notes()
    if notes is None or source.kind != known.FROM_NOTES:
        return False
    guesses = notes.guesses.get(source.key, ())
    return source.row.lower() in (name.lower() for name in guesses)


def _lead_on(sources: Sequence[known.Source]) -> None:
    """Lead to where each judgement is set, and to the guesses, once."""
    settings = {s.key: s.words for s in sources if s.kind == known.FROM_SETTING}
    for name, called in settings.items():
        st.page_link(
            place.HOUSEHOLD,
            label=f"Change: {local(called)}",
            icon=":material/tune:",
            query_params={PART: JUDGEMENTS, SETTING: name},
        )
    guessed = dict.fromkeys(s.row for s in sources if _guessed(s))
    if guessed:
        st.page_link(
            place.HOUSEHOLD,
            label=f"Put right: {local(listed(guessed))}",
            icon=":material/edit:",
            query_params={PART: GUESSES},
        )
