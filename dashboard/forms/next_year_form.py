"""Next year's first draft, kept: its garden year, its plantings, and the numbers to aim at."""

from collections.abc import Mapping
from datetime import date

import pandas as pd
import streamlit as st

import model
from dashboard import kept, session
from dashboard.forms.sown_form import SETTLED
from dashboard.forms.writing import save_button
from dashboard.words import count, day, listed, local
from model import VERDICTS, Edit, Planting, Season

*_, TOO_MUCH, NOT_AGAIN = VERDICTS
DATES = ("sown", "planted_out", "first_picking")
# Judgement: from nothing to three times this year's ground.
FREE = {"least_percent": "0", "most_percent": "300"}


def next_year_form(season: Season, year: str, draft: pd.DataFrame) -> None:
    """Offer to begin the next garden year, and to aim at the draft's numbers."""
    notes = session.notes()
    if notes is None:
        return
    household = notes.household.household_id
    aim = st.toggle("Aim at the numbers of this draft", value=False, key="next_aim")
    st.caption(
        "Without it the plan finds the numbers itself, from what is eaten and what grows, and from "
        "the ground, hours and jars there are: Spring tells them. What was too much, or is not "
        "wanted again, is heeded in any case."
    )
    less = draft[draft["verdict"].isin((TOO_MUCH, NOT_AGAIN))]
    targets = target_edits(household, draft if aim else less)
    told = f"{count(len(targets), 'target')} from the review of {year}"
    try:
        following, moved = model.next_garden_year(season, year)
    except ValueError:
        if not targets:
            st.caption("The next garden year is in the notes already.")
            return
        save_button("next_save", f"Save: {told}", targets, told)
        return
    if said := _stands_already(season, moved):
        st.caption(local(said))
    edits = season_edits(season, household, year, following, moved)
    plantings = count(len(moved), "planting")
    label = f"Begin season {following.name}: move {plantings} into it"
    words = f"Season {following.name} begun, {plantings} moved into it"
    if targets:
        label, words = f"{label}, set {told}", f"{words}, {told}"
    save_button("next_save", label, [*edits, *targets], words)


def _stands_already(season: Season, moved: tuple[Planting, ...]) -> str:
    """Name what the next garden year counts on as in the ground though nobody said so."""
    today = session.today()
    past = [one for one in moved if one.started and one.started <= today and _annual(season, one)]
    if not past:
        return ""
    names = listed(f"{one.crop} ({day(one.started)})" for one in past if one.started)
    return (
        f"It counts on these as in the ground since then: {names}. What is not there is taken out "
        "under Notes in and out."
    )


def _annual(season: Season, planting: Planting) -> bool:
    return season.crop(planting.crop).days_low is not None


def season_edits(
    season: Season,
    household: int,
    year: str,
    following: model.GardenSeason,
    moved: tuple[Planting, ...],
) -> list[Edit]:
    """Give the rows of the next garden year: itself, and this one's plantings moved into it."""
    begins = {
        "season": following.name,
        "begins": f"{following.begins}",
        "ends": f"{following.ends}",
        "normal": "yes",
    }
    rows = kept.store().rows(household, "plantings.csv").values()
    own = [cells for cells in rows if cells.get("season") == year]
    later = [
        _moved(_freed(cells) if _annual(season, planting) else cells, planting)
        for cells, planting in zip(own, moved, strict=True)
    ]
    return [Edit("seasons.csv", begins), *(Edit("plantings.csv", cells) for cells in later)]


def _freed(cells: Mapping[str, str]) -> Mapping[str, str]:
    """Free the amount of next year's planting that was only settled by what was sown this year."""
    settled = cells.get("done") and all(cells.get(name) == part for name, part in SETTLED.items())
    return {**cells, **FREE} if settled else cells


def _moved(cells: Mapping[str, str], planting: Planting) -> dict[str, str]:
    dates = {name: getattr(planting, name) for name in DATES}
    return {
        **{name: cell for name, cell in cells.items() if name != "done"},
        "season": planting.season,
        **{name: f"{when}" for name, when in dates.items() if isinstance(when, date)},
    }


def target_edits(household: int, draft: pd.DataFrame) -> list[Edit]:
    """Give the preserves whose target the draft changes."""
    aims = dict(zip(draft["preserve"].str.lower(), draft["next_units"], strict=True))
    rows = kept.store().rows(household, "preserves.csv")
    changed = {
        row_id: {**cells, "target": f"{aims[cells['preserve'].lower()]:.0f}"}
        for row_id, cells in rows.items()
        if cells["preserve"].lower() in aims
    }
    return [Edit("preserves.csv", cells, n) for n, cells in changed.items() if cells != rows[n]]
