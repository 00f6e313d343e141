"""The tasks of a plan, each on its day: in the garden, the kitchen, the store and the larder."""

from collections.abc import Iterator
from datetime import UTC, date, timedelta

import pandas as pd

from model.outlook.curing_table import curing_table
from model.outlook.garden_table import harvest_table, planting_table
from model.outlook.kitchen_table import batch_table
from model.outlook.stores_table import stores_table
from model.planning import PlannedSeason
from model.safety.seals import seal_hours
from model.season.garden import OUT
from model.season.unseen_seals import unconfirmed

SOW, PLANT_OUT, PICK, CURE, PUT_AWAY, PUT_UP, SEALS, SORT, COUNT = TASKS = (
    "sow",
    "plant out",
    "pick",
    "cure",
    "put away",
    "put up",
    "check seals",
    "sort",
    "count",
)
# A ten-minute count every six to eight weeks keeps the book near the shelf.
COUNT_EVERY = timedelta(weeks=7)
WORTH_PICKING_KG = 0.05
_COLUMNS = ("day", "task", "what", "number", "unit", "begins_at", "ends_at")

_Task = dict[str, object]


def task_table(planned: PlannedSeason) -> pd.DataFrame:
    """One row a task, from today to the end of the plan, by day.

    ``number`` is None where nothing is counted. ``begins_at`` and ``ends_at`` (UTC) are given
    for the seals of a batch whose process is known to have ended at a moment; every other task
    has its day only. What is due in a week stands on its Monday, this week on today; seals
    that nobody looked at in time stand on today.

    >>> tasks = model.task_table(planned)
    >>> print(*tasks)
    day task what number unit begins_at ends_at
    >>> tasks["day"].is_monotonic_increasing
    True
    """
    tasks = [
        *_garden(planned),
        *_weekly(planned),
        *_cured(planned),
        *_seals(planned),
        *_sorted(planned),
        *_counts(planned),
    ]
    frame = pd.DataFrame(tasks, columns=list(_COLUMNS), dtype=object)
    order = frame["task"].map({task: place for place, task in enumerate(TASKS)})
    frame = frame.assign(order=order).sort_values(["day", "order", "what"], ignore_index=True)
    return frame.drop(columns="order")


def _task(day: date, task: str, what: str, number: float | None, unit: str) -> _Task:
    return {
        "day": day,
        "task": task,
        "what": what,
        "number": number,
        "unit": unit,
        "begins_at": None,
        "ends_at": None,
    }


def _garden(planned: PlannedSeason) -> Iterator[_Task]:
    today = planned.case.today
    for row in planting_table(planned).to_dict("records"):
        what, amount = f"{row['crop']} in {row['bed']}", float(row["amount"])
        if amount <= 0:
            continue
        if row["sown"] is not None and row["sown"] >= today and not row["done"]:
            yield _task(row["sown"], SOW, what, amount, row["per"])
        out = row["start"] is not None and row["start"] != row["sown"] and row["done"] != OUT
        if out and row["start"] >= today:
            yield _task(row["start"], PLANT_OUT, what, amount, row["per"])


def _weekly(planned: PlannedSeason) -> Iterator[_Task]:
    today = planned.case.today
    for row in harvest_table(planned).to_dict("records"):
        if row["expected_kg"] >= WORTH_PICKING_KG:
            yield _task(max(row["week"], today), PICK, row["crop"], row["expected_kg"], "kg")
    for row in batch_table(planned).to_dict("records"):
        if row["jars"]:
            day = max(row["week"], today, row["cure_until_low"] or today)
            yield _task(day, PUT_UP, row["preserve"], float(row["jars"]), row["unit"])


def _cured(planned: PlannedSeason) -> Iterator[_Task]:
    """Give the day on which curing begins, and the first on which it may be over."""
    case = planned.case
    ends = case.weeks.monday(len(case.weeks))
    for row in curing_table(planned).to_dict("records"):
        begins, over = row["cure_from"], row["cure_until_low"]
        days = dict.fromkeys((over - begins, row["cure_until_high"] - begins))
        how_long = " to ".join(f"{length.days}" for length in days)
        what = f"{row['crop']}, {how_long} days, {row['cure_how']}"
        if begins >= case.today:
            yield _task(begins, CURE, what, row["lifted_kg"], "kg")
        if case.today <= over < ends:
            yield _task(over, PUT_AWAY, f"{row['crop']}, if it is cured", row["lifted_kg"], "kg")


def _sorted(planned: PlannedSeason) -> Iterator[_Task]:
    """Give the next day on which each root store is to be sorted."""
    for place, days in stores_table(planned).dropna(subset="sort_on").groupby("place")["sort_on"]:
        yield _task(min(days), SORT, f"{place}: take out what rots or sprouts", None, "")


def _seals(planned: PlannedSeason) -> Iterator[_Task]:
    season, today = planned.case.season, planned.case.today
    for batch in unconfirmed(season, today):
        what, unit = f"{batch.preserve}, batch {batch.code}", season.preserve(batch.preserve).unit
        day = max(batch.put_up + timedelta(days=1), today)
        task = _task(day, SEALS, what, batch.filled, unit)
        if batch.finished is not None:
            times = seal_hours(batch.finished, season.zone)
            begins, ends = times.look_from, times.limit
            if ends.date() >= today:
                utc = {"begins_at": begins.astimezone(UTC), "ends_at": ends.astimezone(UTC)}
                task |= {"day": begins.date(), **utc}
        yield task


def _counts(planned: PlannedSeason) -> Iterator[_Task]:
    case = planned.case
    counted = case.season.counted_on(case.today)
    last = counted and (case.unseen_since or counted)
    due = case.today if last is None else max(case.today, last + COUNT_EVERY)
    while due < case.weeks.monday(len(case.weeks)):
        yield _task(due, COUNT, "every shelf, freezer and store", None, "")
        due += COUNT_EVERY
