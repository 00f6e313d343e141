"""What each table or chart can open to: its figures by name, and the working of each."""

from collections.abc import Callable, Sequence
from functools import partial

import pandas as pd

import model
from dashboard.cached import kept
from dashboard.words import day
from dashboard.working_behind import Workings
from model import PlannedSeason


def of_preserves(plan: PlannedSeason) -> Workings:
    """Give the jars of every preserve, what is put up most first."""
    names = [preserve.name for preserve in plan.case.season.preserves]
    order = sorted(range(len(names)), key=lambda r: -plan.plan.to_fill[r])
    return {names[r]: partial(model.workings.stock_workings, plan, r) for r in order}


def of_plantings(plan: PlannedSeason) -> Workings:
    """Give the plantings that are grown; of one crop and bed told apart by start."""
    found: dict[str, Callable[[], Sequence[model.workings.Working]]] = {}
    for b, planting in enumerate(plan.case.forecast.plantings):
        if planting.choice and not plan.plan.amounts[b]:
            continue
        name = f"{planting.crop}, {planting.bed}"
        if name in found and planting.started:
            name = f"{name}, {day(planting.started)}"
        found[name] = partial(model.workings.planting_workings, plan, b)
    return found


def of_weeks(plan: PlannedSeason, most: int = 52) -> Workings:
    """Give the first weeks in which something is put up."""
    weeks = model.week_table(plan).head(most)
    working = weeks[weeks["hours"] >= 0.01]["week"]
    return {day(monday): partial(model.workings.week_workings, plan, monday) for monday in working}


def of_places(plan: PlannedSeason) -> Workings:
    """Give the places in which something stands."""
    places = [place.name for place in plan.case.season.places]
    return {
        name: partial(model.workings.fullest_workings, plan, name)
        for name in places
        if model.workings.fullest_workings(plan, name)
    }


def of_foods(plan: PlannedSeason, foods: pd.DataFrame, *, now: bool) -> Workings:
    """Give how long each food of a table lasts, until this season's crop (``now``) or the next."""
    return {
        food: partial(model.workings.lasting_workings, plan, food, now=now)
        for food in foods["food"]
    }


def of_rations(plan: PlannedSeason, rations: pd.DataFrame) -> Workings:
    """Give the rations of a table."""
    rows = rations.to_dict("records")
    return {row["food"]: _one(partial(model.workings.ration_working, plan, row)) for row in rows}


def of_spoiling(plan: PlannedSeason, first: pd.DataFrame) -> Workings:
    """Give what a table says will not be eaten in time."""
    rows = kept(plan, "what spoils", lambda: first[first["not_eaten_units"] > 0].to_dict("records"))
    return {
        row["preserve"]: _one(partial(model.workings.spoils_working, plan, row)) for row in rows
    }


def of_sizes(plan: PlannedSeason, sizes: pd.DataFrame) -> Workings:
    """Give how much a table says to sow at once."""
    return {
        f"{row['crop']}, {row['bed']}": _one(partial(model.workings.sowing_size_working, plan, row))
        for row in sizes.to_dict("records")
    }


def of_buying(plan: PlannedSeason, buying: pd.DataFrame) -> Workings:
    """Give what a table says is to be bought in."""
    return {
        f"{row['food']}: {row['crop']}": _one(partial(model.workings.buy_in_working, plan, row))
        for row in buying.to_dict("records")
    }


def of_learned(plan: PlannedSeason, learned: pd.DataFrame) -> Workings:
    """Give what a table says was learned."""
    return {
        f"{row['learned']}: {row['what']}": _one(partial(model.workings.learned_working, plan, row))
        for row in learned.to_dict("records")
    }


def of_next_year(plan: PlannedSeason, year: str) -> Workings:
    """Give what is aimed at next year."""
    drafts = model.workings.next_year_workings(plan.case, year)
    return {name: _one(partial(drafts.__getitem__, name)) for name in drafts}


def of_books(plan: PlannedSeason, year: str) -> Workings:
    """Give what is left of each preserve by the book of a garden year."""
    books = model.workings.book_workings(plan.case, year)
    return {name: _one(partial(books.__getitem__, name)) for name in books}


def _one(
    make: Callable[[], model.workings.Working],
) -> Callable[[], Sequence[model.workings.Working]]:
    return lambda: (make(),)
