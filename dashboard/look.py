"""How tables, charts, folds and faults are shown: in our words, on every width of screen."""

from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from contextvars import copy_context
from functools import partial
from types import MappingProxyType
from typing import Any, Literal, NamedTuple

import altair as alt
import pandas as pd
import streamlit as st
from streamlit.dataframe_util import convert_anything_to_arrow_bytes

import model
from dashboard.cached import kept
from dashboard.plain import carded, cells, letters_wide, plain, written
from dashboard.schemes import INKS
from dashboard.words import count, named
from model import PlannedSeason, PlanningError, SeasonProblems

MOST_FAULTS = 40
ROW_PX = 31
LETTER_PX, AROUND_NAME_PX, MOST_NAME_PX = 7.0, 24, 280
# What is read at a glance, and takes a browser no longer than a table that scrolls in a grid.
MOST_COLUMNS, MOST_CELLS = 8, 280
# As many as stand side by side on a screen of 390 px, in a table of as many columns as fit it.
PHONE_LETTERS = 46


def choice(
    label: str,
    options: list[str],
    key: str,
    usual: str = "",
    told: Mapping[str, str] = MappingProxyType({}),
) -> str:
    """Let one of a few options be chosen; the usual one, or the first, is until then.

    ``told`` gives what is shown of an option that is not told by its name.
    """
    chosen = st.segmented_control(
        label,
        options,
        format_func=lambda option: told.get(option, option),
        default=usual or options[0],
        required=True,
        key=key,
        label_visibility="collapsed",
    )
    return str(chosen)


def faults(error: PlanningError, head: str) -> None:
    """List what is wrong with a season, as plain text: the notes are not ours."""
    if not isinstance(error, SeasonProblems):
        st.error(head)
        st.text(str(error))
        return
    st.error(f"{count(len(error.problems), 'fault')}. {head}")
    for problem in error.problems[:MOST_FAULTS]:
        st.text(f"{problem.where}\n  {problem.found}\n  {problem.wanted}")
    if len(error.problems) > MOST_FAULTS:
        st.text(f"... and {len(error.problems) - MOST_FAULTS} more")


def done(do: Callable[[], object], head: str) -> bool:
    """Do something and say whether it went well; what went wrong is listed below ``head``."""
    try:
        do()
    except PlanningError as error:
        faults(error, head)
        return False
    return True


def table(
    frame: pd.DataFrame, height: Literal["auto", "content"] = "auto", key: str | None = None
) -> None:
    """Show a table with the headings of the outlook, as wide as there is room.

    A column of words already carries its unit in each cell. What fits a phone is one text, which
    is there at once; what can be read at a glance is plain as well, and on a phone a card a row. A
    larger table scrolls in a grid.
    """
    _show(_made(frame), height, key)


def kept_table(plan: PlannedSeason, make: Callable[[], pd.DataFrame], key: str) -> None:
    """Show a table that is made once for its plan; ``key`` names all that it shows of it."""
    _show(kept(plan, f"the table {key}", lambda: _made(make())), "content", key)


def kept_head(plan: PlannedSeason, make: Callable[[], pd.DataFrame], key: str, most: int) -> None:
    """Show the first rows of a table that is made once for its plan, and all behind one click."""
    frame = kept(plan, f"the rows {key}", make)
    if len(frame) <= most:
        kept_table(plan, lambda: frame, key)
        return
    kept_table(plan, lambda: frame.head(most), f"{key}, the first {most}")
    with fold(f"All {len(frame)}", f"all_{key}") as is_open:
        if is_open:
            kept_table(plan, lambda: frame, key)


class _Large(NamedTuple):
    """A table that scrolls in a grid, and how its columns are headed."""

    frame: pd.DataFrame
    config: dict[str, Any]


def _made(frame: pd.DataFrame) -> str | pd.DataFrame | _Large:
    headings = {name: _heading(frame[name]) for name in frame.columns}
    if frame.size <= MOST_CELLS:
        told = cells(named(frame).rename(columns=headings))
        if letters_wide(told) <= PHONE_LETTERS:
            return written(told)
        if len(frame.columns) <= MOST_COLUMNS:
            return carded(told)
    config = {
        name: st.column_config.Column(
            label=words,
            help=model.HEADINGS[name].meaning or None,
            width=None if place else _names_wide(frame[name]),
        )
        for place, (name, words) in enumerate(headings.items())
    }
    return _Large(named(frame), config)


def _names_wide(names: pd.Series) -> int:
    """Give the pixels that the names of the rows take, none of them cut."""
    longest = max((len(str(name)) for name in names), default=0)
    return min(MOST_NAME_PX, round(LETTER_PX * longest) + AROUND_NAME_PX)


def _show(
    made: str | pd.DataFrame | _Large, height: Literal["auto", "content"], key: str | None
) -> None:
    if isinstance(made, str):
        st.markdown(made)
    elif isinstance(made, pd.DataFrame):
        st.table(made, border="horizontal", height="content", hide_index=True)
    else:
        st.dataframe(
            made.frame,
            hide_index=True,
            column_config=made.config,
            height=height,
            width="stretch",
            row_height=ROW_PX,
            key=key,
        )


def _heading(column: pd.Series) -> str:
    known = model.HEADINGS[str(column.name)]
    return known.with_unit if pd.api.types.is_numeric_dtype(column) else known.words


@contextmanager
def fold(label: str, key: str, icon: str | None = None) -> Iterator[bool]:
    """Make a fold and say whether it is open: only then is what it holds worked out and sent."""
    made = st.expander(label, icon=icon, key=f"fold_{key}", on_change="rerun")
    with made:
        yield bool(made.open)


def picture(chart: alt.LayerChart, told: pd.DataFrame, key: str) -> None:
    """Show a chart as wide as there is room, with its figures behind one click."""
    drawing(chart)
    figures(lambda: told, key)


def kept_picture(
    plan: PlannedSeason,
    draw: Callable[[], alt.LayerChart],
    told: Callable[[], pd.DataFrame],
    key: str,
    of: object = "",
) -> None:
    """Show a chart that is drawn once for its plan, with its figures behind one click.

    ``of`` is all that it shows a part or a side of besides the plan.
    """
    drawn(plan, f"{key} of {of}", draw)
    figures(told, key)


def drawing(chart: alt.LayerChart) -> None:
    """Show a chart without its figures."""
    words, spec = _words_and_drawing(chart)
    _finding(words)
    st.vega_lite_chart(spec, width="stretch")


def drawn(plan: PlannedSeason, what: str, draw: Callable[[], alt.LayerChart]) -> None:
    """Show one chart of many: kept ready with its plan, since drawing each takes so long."""
    question = f"{what}, drawn for {st.context.theme.type}"
    words, spec = kept(plan, question, lambda: _words_and_drawing(draw()))
    _finding(words)
    st.vega_lite_chart(spec, width="stretch")


def _words_and_drawing(chart: alt.LayerChart) -> tuple[str, dict[str, Any]]:
    # The tests hold every chart against its schema, which takes as long as all the rest of it.
    spec = _told(chart).to_dict(validate=False)
    # Rows are turned into what the browser reads here, not at every run of the page.
    spec["datasets"] = {
        name: convert_anything_to_arrow_bytes(pd.DataFrame(rows))
        for name, rows in spec["datasets"].items()
    }
    return _words_of(chart), spec


def _finding(words: str) -> None:
    """Show what a chart finds above it, in lines as long as there is room for."""
    st.markdown(f"**{plain(words)}**")


def _words_of(chart: alt.LayerChart) -> str:
    return str(chart.title)


def _told(chart: alt.LayerChart) -> alt.LayerChart:
    """Say a chart in words too, which is all that a screen reader is given of it.

    Its title stands above it. Its words, and a line of no other meaning, have the ink of the
    scheme that the page is seen in.
    """
    words = f"{_words_of(chart)}. The figures are in the table below."
    told = chart.properties(description=words)
    told.title = alt.Undefined
    ink = INKS.get(st.context.theme.type or "")
    return told.configure_text(color=ink).configure_line(color=ink) if ink else told


def figures(make: Callable[[], pd.DataFrame], key: str) -> None:
    """Show the figures of a chart behind one click: of its columns those that have a heading."""
    with fold("The figures", f"figures_{key}") as is_open:
        if is_open:
            told = make()
            shown = told[[name for name in told.columns if name in model.HEADINGS]]
            days = {name: shown[name].dt.date for name in shown.select_dtypes("datetime").columns}
            parts = {name: _to_read(shown[name]) for name in shown.select_dtypes("float").columns}
            table(shown.assign(**days, **parts))


def _to_read(numbers: pd.Series) -> pd.Series:
    """Round to what can be read and compared: three figures, or whole ones."""
    size = numbers.abs()
    return numbers.round(2).mask(size >= 10, numbers.round(1)).mask(size >= 100, numbers.round(0))


def printed(what: str, make: Callable[..., bytes], *given: object) -> None:
    """Offer a sheet of paper, made when it is asked for, in the household's words and dates."""
    st.download_button(
        f"Print {what} (PDF)",
        partial(copy_context().run, make, *given),
        f"{what.removeprefix('the ')}.pdf",
        "application/pdf",
        key=f"print_{what}",
        icon=":material/print:",
    )
