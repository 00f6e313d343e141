"""Seasons and plans kept between clicks, so that only what changed is worked out again."""

import gc
import hashlib
import threading
from collections import OrderedDict
from collections.abc import Callable, Iterator, MutableMapping, Sequence
from contextlib import contextmanager
from dataclasses import replace
from datetime import date
from typing import NamedTuple, TypeVar, cast
from weakref import WeakKeyDictionary, WeakValueDictionary

import pandas as pd
import streamlit as st
from streamlit.delta_generator import DeltaGenerator

import model
from model import PlannedSeason, PlanningError, Season, SeasonTables

MOST_PLANS = 12
MOST_FILES = 2
WAIT_S = 0.2
Progress = Callable[[str, float], None]
Answer = TypeVar("Answer")


class _Turn:
    """Whose turn it is to make one plan."""

    def __init__(self) -> None:
        self.lock = threading.Lock()


class PlanShelf:
    """The last plans made, by season and day; each is made by one window at a time."""

    def __init__(self) -> None:
        """Begin empty."""
        self._plans: OrderedDict[str, PlannedSeason] = OrderedDict()
        self._of_basis: dict[str, str] = {}
        self._lock = threading.Lock()
        self._made = 0
        self._making: WeakValueDictionary[str, _Turn] = WeakValueDictionary()

    @contextmanager
    def turn(self, key: str, waiting: Callable[[], None]) -> Iterator[None]:
        """Wait until no other window makes the same plan; ``waiting`` is told meanwhile.

        Whoever stops, or is stopped, leaves the turn to the next one.
        """
        with self._lock:
            own = self._making.setdefault(key, _Turn())
        while not own.lock.acquire(timeout=WAIT_S):
            waiting()
        try:
            yield
        finally:
            own.lock.release()

    def get(self, key: str) -> PlannedSeason | None:
        """Give a plan that is there."""
        with self._lock:
            if key in self._plans:
                self._plans.move_to_end(key)
            return self._plans.get(key)

    def alike(self, basis: str) -> PlannedSeason | None:
        """Give the last plan of notes that differ at most in what plans nothing."""
        with self._lock:
            return self._plans.get(self._of_basis.get(basis, ""))

    def put(self, key: str, basis: str, planned: PlannedSeason) -> bool:
        """Keep a plan; the one not looked at for longest goes.

        Says whether it is the first of as many as are kept: what older ones left can be swept.
        """
        with self._lock:
            self._plans[key] = planned
            self._of_basis[basis] = key
            while len(self._plans) > MOST_PLANS:
                gone, _ = self._plans.popitem(last=False)
                self._of_basis = {b: k for b, k in self._of_basis.items() if k != gone}
            self._made += 1
            return self._made % MOST_PLANS == 1


@st.cache_resource(show_spinner=False)
def plan_shelf() -> PlanShelf:
    """Give the shelf that all sessions of this server share."""
    return PlanShelf()


def settle(*, whole: bool) -> None:
    """Leave all that is there now out of later sweeps for garbage.

    Streamlit sweeps at the end of every run of a page, and through a thousand years and all
    libraries that takes longer than the page itself. ``whole`` sweeps first, through what was
    left out before as well: what a plan leaves lying about is not worth a sweep of its own.
    """
    if whole:
        gc.unfreeze()
        gc.collect()
    gc.freeze()


class Content(NamedTuple):
    """What a season is known by: by all that is planned from, and by all that is shown."""

    planned: str
    shown: str


def content_of(season: Season) -> Content:
    """Name a season by its content; the ticks of a checklist are neither planned nor kept with it.

    A verdict, the plan kept to compare with, a container that was weighed and how the household
    writes its days and weights change what is shown, but no plan.
    """
    record = season.record
    bare = replace(
        season,
        units="",
        date_form="",
        tongue="",
        record=replace(record, ticks=(), verdicts=(), meant=(), containers=()),
    )
    rest = season.units, season.date_form, season.tongue
    rest += record.verdicts, record.meant, record.containers
    planned = hashlib.sha256(repr(bare).encode()).hexdigest()
    return Content(planned, hashlib.sha256(repr((planned, rest)).encode()).hexdigest())


def _content(season: Season) -> Content:
    """Give a season's content: twenty years of records are not read through at every run."""
    known = _contents()
    own = known.get(id(season))
    if own is None or own[0] is not season:
        own = known[id(season)] = season, content_of(season)
        for oldest in list(known)[:-MOST_PLANS]:
            known.pop(oldest, None)
    return own[1]


@st.cache_resource(show_spinner=False)
def _contents() -> dict[int, tuple[Season, Content]]:
    """Give the names of the last seasons; each is held, so that its number stays its own."""
    return {}


def _keys(seasons: Sequence[Season], today: date) -> tuple[str, str]:
    """Name a run of seasons on a day by all that is shown, and by all that is planned from."""
    contents = [_content(season) for season in seasons]
    shown = "|".join([str(today), *(one.shown for one in contents)])
    return shown, "|".join([str(today), *(one.planned for one in contents)])


def known_plan(seasons: Sequence[Season], today: date) -> PlannedSeason | None:
    """Give the plan of the last of some seasons if it has been made; makes none.

    One made from notes that differ only in what plans nothing is the plan of these as well.
    """
    key, basis = _keys(seasons, today)
    known = plan_shelf().get(key)
    if known is None and (other := plan_shelf().alike(basis)) is not None:
        known = replace(other, case=replace(other.case, season=seasons[-1]))
        settle(whole=plan_shelf().put(key, basis, known))
    return known


def planned(
    seasons: Sequence[Season], today: date, slot: DeltaGenerator | None = None
) -> PlannedSeason:
    """Give the plan of the last of some seasons, showing what is being done while it is made.

    Each season is a small change of the one before, and its plan keeps to the one before.
    ``slot`` is where the bar stands; it is there without one too, or all below would move, and
    what was unfolded would close, when a plan is ready. Raises PlanningError as
    ``model.plan_season`` does; the bar is gone by then.
    """
    slot = st.empty() if slot is None else slot
    known = known_plan(seasons, today)
    if known is not None:
        return known
    key, basis = _keys(seasons, today)
    before = planned(seasons[:-1], today, slot) if len(seasons) > 1 else None
    with (
        _bar(key, slot) as progress,
        plan_shelf().turn(basis, lambda: progress("Another window is working this out", 0.0)),
    ):
        known = known_plan(seasons, today)
        if known is None:
            known = model.plan_season(seasons[-1], today, before=before, progress=progress)
            settle(whole=plan_shelf().put(key, basis, known))
    return known


@st.cache_resource(show_spinner=False, max_entries=MOST_FILES)
def read_file(name: str, content: bytes) -> tuple[SeasonTables, Season] | PlanningError:
    """Read notes brought in, or say what is wrong with them: once, while the file lies there."""
    try:
        tables = model.read_upload(content, name)
        return tables, model.season_from_tables(tables)
    except PlanningError as error:
        return error


def answered(plan: PlannedSeason, question: str, ask: Callable[[Progress], Answer]) -> Answer:
    """Give the answer to a question about a plan, worked out once while the plan is kept."""

    slot = st.empty()

    def slowly() -> Answer:
        with _bar(question, slot) as progress:
            return ask(progress)

    return kept(plan, question, slowly)


def kept(plan: PlannedSeason, question: str, make: Callable[[], Answer]) -> Answer:
    """Give what belongs to a plan, made once while the plan is kept; it is not to be changed."""
    known = _answers().setdefault(plan, {})
    if question not in known:
        known[question] = make()
    return cast("Answer", known[question])


def newest(plan: PlannedSeason, question: str, asked: object, make: Callable[[], Answer]) -> Answer:
    """Give the answer to the last form of a question about a plan: only that one is kept."""
    known = _answers().setdefault(plan, {})
    last = known.get(question)
    if not (isinstance(last, tuple) and last[0] == asked):
        last = known[question] = asked, make()
    return cast("Answer", last[1])


def table_of(plan: PlannedSeason, table: Callable[[PlannedSeason], pd.DataFrame]) -> pd.DataFrame:
    """Give one of the model's tables of a plan, worked out once while the plan is kept."""
    return kept(plan, table.__name__, lambda: table(plan)).copy(deep=False)


@st.cache_resource(show_spinner=False)
def _answers() -> MutableMapping[PlannedSeason, dict[str, object]]:
    """Give the answers of all plans that are still kept somewhere."""
    return WeakKeyDictionary()


@contextmanager
def _bar(work: str, place: DeltaGenerator) -> Iterator[Progress]:
    """Show what is being done until it is done or fails, or the person at the page stops it.

    Streamlit ends the run of a page at its next sign of life when something is clicked, so a stop
    leaves the work at its next progress, and all that is kept as it was.
    """
    with place.container():
        bar = st.progress(0.0, text="Reading the season")
        stopped = st.button("Stop", icon=":material/stop_circle:", key=f"stop_{work}")
    if stopped:
        with place.container():
            st.info("Stopped. Nothing was changed, and all that is written down stands.")
            st.button("Work it out now", key=f"go_on_{work}")
        st.stop()

    def tell(words: str, part: float) -> None:
        bar.progress(min(1.0, part), text=words)

    try:
        yield tell
    finally:
        place.empty()
