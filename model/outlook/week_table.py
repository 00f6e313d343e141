"""What to do in one week: what is picked, eaten fresh, put up and spared."""

from datetime import date, timedelta

import numpy as np
import pandas as pd

from model.outlook.eat_first_table import BEFORE_TAKING, LOOK, best_weeks
from model.outlook.limits import kitchen_minutes
from model.planning import PlannedSeason
from model.season.arrays import Bools
from model.season.kitchen import Preserve
from model.season.mates import to_look_at

SOON_WEEKS = 8


def fresh_table(planned: PlannedSeason, week: int) -> pd.DataFrame:
    """One row a crop to hand in a week: what is picked, and what becomes of it.

    ``expected_kg`` + ``before_kg`` = ``eaten_kg`` + ``put_up_kg`` + ``held_kg`` + ``spare_kg``;
    ``before_kg`` was picked before, up to today, and is still good. Raises IndexError for a
    week beyond the plan.

    >>> print(*model.fresh_table(planned, 25))
    crop expected_kg low_kg high_kg before_kg eaten_kg put_up_kg held_kg spare_kg
    """
    plan, arrays = planned.plan, planned.case.arrays
    put_up = arrays.fresh_kg.T @ plan.put_up[:, week]
    # Of what lay there before, what is past holding is no part of the plan.
    kept = plan.eaten_kg[:, week] + put_up + plan.on_hand_kg[:, week] + plan.spare_kg[:, week]
    before = np.maximum(0.0, kept - plan.harvest_kg[:, week])
    rows = [
        {
            "crop": crop,
            "expected_kg": float(plan.harvest_kg[c, week]),
            "low_kg": float(planned.harvest_low[c, week]),
            "high_kg": float(planned.harvest_high[c, week]),
            "before_kg": float(before[c]),
            "eaten_kg": float(plan.eaten_kg[c, week]),
            "put_up_kg": float(put_up[c]),
            "held_kg": float(plan.on_hand_kg[c, week]),
            "spare_kg": float(plan.spare_kg[c, week]),
        }
        for c, crop in enumerate(arrays.crops)
        if plan.harvest_kg[c, week] + kept[c] > 0.05
    ]
    columns = [
        "crop",
        "expected_kg",
        "low_kg",
        "high_kg",
        "before_kg",
        "eaten_kg",
        "put_up_kg",
        "held_kg",
        "spare_kg",
    ]
    return pd.DataFrame(rows, columns=columns)


def opening_table(planned: PlannedSeason, week: int) -> pd.DataFrame:
    """One row a preserve to open in a week, by the plan's pace, with why it is opened now.

    ``opened`` is in the column ``unit``. Raises IndexError for a week beyond the plan.

    >>> print(*model.opening_table(planned, 25))
    preserve food unit opened portions why
    """
    case, plan = planned.case, planned.plan
    opened = plan.opened[:, week] > 0.02
    why = _why_now(planned, week, opened)
    rows = [
        {
            "preserve": preserve.name,
            "food": preserve.food,
            "unit": preserve.unit,
            "opened": float(plan.opened[r, week]),
            "portions": float(plan.opened[r, week] * preserve.portions),
            "why": why[preserve.name],
        }
        for r, preserve in enumerate(case.season.preserves)
        if opened[r]
    ]
    return pd.DataFrame(rows, columns=["preserve", "food", "unit", "opened", "portions", "why"])


def _why_now(planned: PlannedSeason, week: int, opened: Bools) -> dict[str, str]:
    """Say of each preserve why it is opened: its keeping life, its age, or the plan's pace.

    What is put up this season is younger than anything counted, so it is never the oldest.
    """
    season, monday = planned.case.season, planned.case.weeks.monday(week)
    made: dict[str, date] = {}
    for count in planned.case.stock:
        made[count.preserve] = min(count.put_up, made.get(count.preserve, count.put_up))
    like_a_bad_one = {one.batch.preserve for one in to_look_at(season, planned.case.today)}
    why = {}
    for r in np.flatnonzero(opened):
        preserve = season.preserves[int(r)]
        of_food = [
            made[p.name] for p in season.preserves if p.food == preserve.food and p.name in made
        ]
        if preserve.name in like_a_bad_one:
            why[preserve.name] = f"not before each was looked at: {BEFORE_TAKING[LOOK]}"
            continue
        why[preserve.name] = _why(made.get(preserve.name), preserve, of_food, monday)
    return why


def _why(made: date | None, preserve: Preserve, of_food: list[date], monday: date) -> str:
    """Give the reason of one preserve, whose oldest on the shelf was ``made`` on a day."""
    if made is None:
        return "the plan's pace"
    left = made + timedelta(weeks=best_weeks(preserve)) - monday
    if left <= timedelta(weeks=SOON_WEEKS):
        return "past its best soon" if left > timedelta(0) else "past its best"
    if len(of_food) > 1 and made == min(of_food):
        return f"oldest of {preserve.food}"
    return "the plan's pace"


def week_table(planned: PlannedSeason) -> pd.DataFrame:
    """One row a week: kilograms picked, jars put up, loads, hours used and free, jars opened.

    >>> weeks = model.week_table(planned)
    >>> print(*weeks)
    week expected_kg jars loads hours free_hours opened
    >>> weeks["week"].iloc[0]
    datetime.date(2027, 3, 15)
    """
    plan, case, arrays = planned.plan, planned.case, planned.case.arrays
    minutes = kitchen_minutes(case, plan)
    counted = np.array([preserve.in_pieces for preserve in case.season.preserves])
    return pd.DataFrame(
        {
            "week": case.weeks.mondays,
            "expected_kg": plan.harvest_kg.sum(axis=0),
            "jars": plan.whole_batches[counted].sum(axis=0),
            "loads": plan.loads.sum(axis=0),
            "hours": minutes / 60,
            "free_hours": arrays.kitchen_minutes / 60,
            "opened": plan.opened[counted].sum(axis=0),
        }
    )
