"""What was put up: the preserve, how many jars, when its last process ended."""

import math
from collections.abc import Mapping
from datetime import date, datetime, time, timedelta
from zoneinfo import ZoneInfo

import pandas as pd
import streamlit as st

import model
from dashboard import session
from dashboard.doubts import again_doubt, batch_doubt
from dashboard.forms.past_day import past_day, told_day
from dashboard.forms.pick_form import likely_crops
from dashboard.forms.writing import IS_RIGHT, save_button, stored_rows, sure
from dashboard.look import table
from dashboard.record_findings import fill_words
from dashboard.units import units_of
from dashboard.words import local, speaker
from model import Edit, Preserve, Season

MOST_PRESERVES = 12
LATELY_DAYS, AGAIN_DAYS = 30, 2
# No two clocks in a kitchen say the same.
AHEAD = timedelta(minutes=5)
JARS = "jars.csv"


def put_up_form(season: Season, meant: list[str], fill: pd.DataFrame | None) -> None:
    """Ask what was put up, and write it down.

    ``meant`` are this week's preserves by the plan, ``fill`` its jars to fill, where it is known.
    """
    form, today = session.form(), session.today()
    lately = [
        b.preserve
        for b in reversed(season.record.batches)
        if (today - b.put_up).days <= LATELY_DAYS
    ]
    crops = likely_crops(season, today)
    ripe = [p for p in season.preserves if p.crops[0] in crops]
    ripe.sort(key=lambda p: crops.index(p.crops[0]))
    names = [p.name for p in (*ripe, *season.preserves)]
    likely = list(dict.fromkeys([*meant, *lately, *names]))[:MOST_PRESERVES]
    chosen = st.pills("Preserve", likely, format_func=speaker(), key=f"put_up_{form}")
    rest = [name for name in sorted(set(names)) if name not in likely]
    other = st.selectbox(
        "Another preserve", rest, index=None, format_func=speaker(), key=f"put_up_other_{form}"
    )
    name = other or chosen
    if name is None:
        st.caption("Choose what was put up.")
        if fill is not None and not fill.empty:
            st.markdown("**How many to fill so that enough seal**")
            table(fill, "content", key="fill")
        return
    if fill is not None and (words := fill_words(fill, name)):
        st.markdown(words)
    batch_form(season, name, float(season.preserve(name).units_per_load or 1))


def batch_form(season: Season, name: str, load: float, ended: datetime | None = None) -> None:
    """Ask how many of a preserve were filled; ``load`` and when it ended are offered."""
    form = session.form()
    preserve = season.preserve(name)
    filled = st.number_input(
        f"How many were filled ({preserve.unit})",
        0.0,
        2000.0,
        load,
        1.0,
        format="%g",
        key=f"put_up_filled_{form}_{name}",
    )
    day = past_day("Put up on", f"put_up_day_{form}")
    finished = box = again = None
    if preserve.canned:
        finished, box = _canned(season, preserve, form, ended)
        again = _again(season, preserve, form)
    if day is None:
        return
    code = next(model.free_codes(season, day, name))
    words = f"{units_of(filled, preserve.unit, season.units)} of {name} on {told_day(day)}"
    doubt = batch_doubt(season, preserve, filled, day, new=True)
    known = sure(doubt or again_doubt(season, again, filled, session.today()), "put_up_sure")
    cells = {
        "batch": code,
        "put_up_on": f"{day}",
        "finished_at": moment_text(day, finished, season.zone) if finished else "",
        "preserve": name,
        "filled": f"{filled:g}",
        "lid_box": (box or "").strip(),
        "again_of": again or "",
    }
    fault = _fault(season, preserve, filled, cells)
    lids = _lids_used(preserve, filled)
    save_button(
        "put_up_save",
        local(f"Save: {words}"),
        [Edit("batches.csv", cells), *lids] if known and not fault else [],
        f"Put up {words}{f'; {filled:g} new lids used' if lids else ''}",
        missing=fault or IS_RIGHT,
    )
    if preserve.method == "root store":
        st.caption("  \n".join(model.cautions_for({preserve.method})[1:]))
    if preserve.canned:
        st.caption(
            "Let the jars stand untouched. They count once their seals have been looked at, after "
            "12 to 24 hours."
        )


def _fault(season: Season, preserve: Preserve, filled: float, cells: Mapping[str, str]) -> str:
    """Say why a batch cannot be written down as it is; blank where it can."""
    if not filled:
        return "Say how many were filled."
    if preserve.in_pieces and filled != round(filled):
        return f"Say it in whole {preserve.unit}s."
    return _time_fault(season, preserve, cells) if preserve.canned else ""


def _time_fault(season: Season, preserve: Preserve, cells: Mapping[str, str]) -> str:
    if not cells["finished_at"]:
        return "Say when its last process ended."
    ended, again = datetime.fromisoformat(cells["finished_at"]), cells["again_of"]
    if is_to_come(ended, session.today(), session.clock()):
        return "That is still to come: say when its last process ended, once it has."
    if again and _too_late(season, preserve, again, ended):
        st.error(
            f"The 24 hours of {again} were over. Its unsealed jars are thrown away, untasted: "
            "processing them again does not make them safe."
        )
        return "What stood longer than 24 hours is not put up again."
    return ""


def is_to_come(ended: datetime, looked_from: date, clock: datetime) -> bool:
    """Say whether the end of a process is still to come.

    A day that is looked from, and is not that of the ``clock``, is over when it is written down.
    """
    if looked_from == clock.date():
        return ended > clock + AHEAD
    return ended.date() > looked_from


def _too_late(season: Season, preserve: Preserve, again: str, ended: datetime) -> bool:
    first = next(batch for batch in season.record.batches if batch.code == again)
    minutes = preserve.process.minutes if preserve.process else 0.0
    return model.seal_times(first, season.zone).too_late_again(ended, minutes)


def _canned(
    season: Season, preserve: Preserve, form: str, ended: datetime | None
) -> tuple[time | None, str | None]:
    left, right = st.columns(2)
    with left:
        finished = st.time_input(
            "Last process ended at",
            ended.time().replace(second=0, microsecond=0) if ended else None,
            key=f"put_up_finished_{form}_{preserve.name}",
        )
        st.caption(
            "The 24 hours in which a jar that did not seal may be saved run from here, not from "
            "when it is written down."
        )
    with right:
        boxes = list(dict.fromkeys(b.lid_box for b in reversed(season.record.batches) if b.lid_box))
        box = st.selectbox(
            "Box of lids",
            boxes,
            index=None,
            accept_new_options=True,
            key=f"put_up_box_{form}",
            placeholder="if you know it",
        )
    return finished, box


def _lids_used(preserve: Preserve, filled: float) -> list[Edit]:
    """Take the new lids that jars were closed with off those in the notes, where they say any."""
    if not preserve.canned:
        return []
    for row, cells in stored_rows(JARS).items():
        if cells.get("jar") == preserve.jar and cells.get("lids"):
            left = max(0, int(cells["lids"]) - math.ceil(filled))
            return [Edit(JARS, {**cells, "lids": f"{left}"}, row)]
    return []


def _again(season: Season, preserve: Preserve, form: str) -> str | None:
    """Ask which batch's unsealed jars these are, if there are any of the last days."""
    near = [
        batch.code
        for batch in reversed(season.record.batches)
        if batch.preserve == preserve.name and (session.today() - batch.put_up).days <= AGAIN_DAYS
    ]
    if not near:
        return None
    label = "Unsealed jars processed again, of batch"
    return st.selectbox(label, near, index=None, key=f"put_up_again_{form}", placeholder="no, new")


def moment_text(day: date, at: time, zone: ZoneInfo | None) -> str:
    """Write a clock time on a day with the offset that the clock had then, not the one of today.

    ``zone`` is None where it is the machine's clock. Of an hour that comes twice it is the first.
    """
    there = datetime.combine(day, at, zone)
    return (there if zone else there.astimezone()).isoformat(timespec="minutes")
