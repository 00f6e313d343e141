"""What is to be cured before it goes to the store: since when, until when, in what air."""

from collections.abc import Iterator
from datetime import date, timedelta

import pandas as pd

from model.outlook.garden_table import harvest_table
from model.planning import PlannedSeason
from model.reference.curing import Curing, curing
from model.season.kitchen import Preserve
from model.season.season import Season

LEAST_KG = 0.5
COLUMNS = (
    *("crop", "lifted_kg", "cure_from", "cure_until_low", "cure_until_high"),
    *("cure_c_low", "cure_c_high", "cure_percent_low", "cure_percent_high", "cure_how"),
)


def curing_table(planned: PlannedSeason) -> pd.DataFrame:
    """One row a lifting of a crop that is cured and stored, by the day curing begins.

    Liftings are those written down whose curing is not over, and those expected: on the Monday
    of their week, this week on today. Temperatures are degrees C, humidities per cent; None
    where none is published. A crop of which a batch went to the store since is cured.

    >>> print(*model.curing_table(planned))
    crop lifted_kg cure_from cure_until_low cure_until_high cure_c_low cure_c_high cure_percent_low
    cure_percent_high cure_how
    """
    season, today = planned.case.season, planned.case.today
    harvest = harvest_table(planned)
    jobs = []
    for crop in dict.fromkeys(own.crops[0] for own in season.preserves if _stored(own.method)):
        cure = curing(crop)
        if cure is not None:
            logged = [*_logged(season, crop, cure, today)]
            to_come = _to_come(harvest, today, crop, logged)
            jobs += [_row(crop, *lifting, cure) for lifting in (*logged, *to_come)]
    jobs.sort(key=lambda job: (job["cure_from"], job["crop"]))
    return pd.DataFrame(jobs, columns=list(COLUMNS))


def cured_from(cures: pd.DataFrame, own: Preserve, monday: date) -> date | None:
    """Give the first day on which what is curing within a week may be stored as a preserve.

    ``cures`` is the ``curing_table``. None where nothing of it is, or it is no store.
    """
    if not _stored(own.method):
        return None
    after = monday + timedelta(weeks=1)
    over = (
        ends
        for crop, begins, ends in zip(
            cures["crop"], cures["cure_from"], cures["cure_until_low"], strict=True
        )
        if crop == own.crops[0] and begins < after and ends > monday
    )
    return max(over, default=None)


def _stored(method: str) -> bool:
    return method == "root store"


def _logged(season: Season, crop: str, cure: Curing, today: date) -> Iterator[tuple[date, float]]:
    """Give the liftings written down that are curing today."""
    stored = [
        batch.put_up
        for batch in season.record.batches
        if crop in season.preserve(batch.preserve).crops
        and _stored(season.preserve(batch.preserve).method)
    ]
    last = max((day for day in stored if day <= today), default=date.min)
    for picking in season.pickings:
        under_way = timedelta() <= today - picking.day <= timedelta(days=cure.days_high)
        if picking.crop == crop and under_way and picking.day > last and picking.kg >= LEAST_KG:
            yield picking.day, picking.kg


def _to_come(
    harvest: pd.DataFrame, today: date, crop: str, logged: list[tuple[date, float]]
) -> Iterator[tuple[date, float]]:
    """Give the liftings to be expected, without a week in which one was written down."""
    for row in harvest[harvest["crop"] == crop].to_dict("records"):
        begins = max(row["week"], today)
        written = any(row["week"] <= day < row["week"] + timedelta(weeks=1) for day, _ in logged)
        if row["expected_kg"] >= LEAST_KG and not written:
            yield begins, row["expected_kg"]


def _row(crop: str, begins: date, kg: float, cure: Curing) -> dict[str, object]:
    return {
        "crop": crop,
        "lifted_kg": kg,
        "cure_from": begins,
        "cure_until_low": begins + timedelta(days=cure.days_low),
        "cure_until_high": begins + timedelta(days=cure.days_high),
        "cure_c_low": cure.temp_c_low,
        "cure_c_high": cure.temp_c_high,
        "cure_percent_low": cure.humidity_percent_low,
        "cure_percent_high": cure.humidity_percent_high,
        "cure_how": cure.how,
    }
