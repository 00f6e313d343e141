"""What ripens while nobody is there, and when to sow instead so that it is not lost."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import date, timedelta

import numpy as np
import pandas as pd

from model.forecast.beds import bed_occupancy
from model.forecast.growth import PickingDates, expected_week_shares, picked_by, picking_dates
from model.forecast.harvest import occupied_weeks
from model.forecast.sowing import can_be_dated, chance_of_picking
from model.planning import PlannedSeason
from model.season.garden import Planting
from model.season.household import Away

EVERYONE = "everyone"
LIKELY = 0.9
MOST_DAYS = 42
# A day of moving costs so much of the crop: of two dates as good the nearer is proposed.
A_DAY_SHARE = 0.002
LEAST_KG, LEAST_SHARE = 0.5, 0.2
COLUMNS = (
    *("away_from", "away_until", "crop", "bed", "start_by", "start_now", "start_then"),
    *("ripens_away_kg", "saved_kg", "chance_then"),
)


@dataclass(frozen=True, slots=True)
class _Dated:
    """A planting on some days: what it gives, and what of that ripens while nobody is there."""

    planting: Planting
    dates: PickingDates
    moved_days: int
    kg: float
    lost_kg: float

    @property
    def worth_kg(self) -> float:
        return self.kg * (1.0 - A_DAY_SHARE * abs(self.moved_days)) - self.lost_kg


def away_table(planned: PlannedSeason) -> pd.DataFrame:
    """One row a planting, not started yet, that another day would keep from ripening unpicked.

    For each time when everyone is away: the nearest day up to six weeks earlier or later on
    which most is picked by the household itself, in an ordinary year. It is picked before frost
    with a chance of at least 0.9, and its bed has room. What is lifted at once is left out: it
    waits in the ground.

    >>> print(*model.away_table(planned))
    away_from away_until crop bed start_by start_now start_then ripens_away_kg saved_kg chance_then
    """
    rows = [
        row
        for away in planned.case.season.away
        if away.who == EVERYONE and away.ends >= planned.case.today
        for b in range(len(planned.case.forecast.plantings))
        for row in _row(planned, b, away)
    ]
    table = pd.DataFrame(rows, columns=list(COLUMNS))
    return table.sort_values(
        ["away_from", "saved_kg"], ascending=[True, False], ignore_index=True, kind="stable"
    )


def _row(planned: PlannedSeason, b: int, away: Away) -> Iterator[dict[str, object]]:
    case = planned.case
    planting, crop = case.forecast.plantings[b], case.season.crops[case.forecast.crop_of[b]]
    begins = planting.sown or planting.planted_out
    if begins is None or begins < case.today or planned.plan.amounts[b] <= 0:
        return
    if crop.shape == "single lift" or not can_be_dated(crop):
        return
    now = _dated(planned, b, away, 0)
    if now.lost_kg < LEAST_KG:
        return
    earliest = max(-MOST_DAYS, (case.today - begins).days)
    moves = (_dated(planned, b, away, days) for days in range(earliest, MOST_DAYS + 1) if days)
    better = sorted(moves, key=lambda then: -then.worth_kg)
    for then in better:
        saved_kg = now.lost_kg - then.lost_kg
        if then.worth_kg <= now.worth_kg or saved_kg < max(LEAST_KG, LEAST_SHARE * now.lost_kg):
            return
        day = _start(then.planting)
        chance = chance_of_picking(case.season, crop, day)
        if chance >= LIKELY and _has_room(planned, b, then):
            yield {
                "away_from": away.begins,
                "away_until": away.ends,
                "crop": planting.crop,
                "bed": planting.bed,
                "start_by": "sow" if then.planting.sown else "plant out",
                "start_now": begins,
                "start_then": then.planting.sown or day,
                "ripens_away_kg": now.lost_kg,
                "saved_kg": saved_kg,
                "chance_then": chance,
            }
            return


def _start(planting: Planting) -> date:
    day = planting.started
    if day is None:
        raise ValueError(f"{planting.label} has no day to move")
    return day


def _dated(planned: PlannedSeason, b: int, away: Away, days: int) -> _Dated:
    case, forecast = planned.case, planned.case.forecast
    was, move = forecast.plantings[b], timedelta(days=days)
    planting = replace(
        was,
        sown=was.sown and was.sown + move,
        planted_out=was.planted_out and was.planted_out + move,
        first_picking=was.first_picking and was.first_picking + move,
    )
    dates = picking_dates(case.season, planting, case.today) if days else forecast.dates[b]
    usual = float(expected_week_shares(forecast.dates[b], case.weeks).sum())
    whole_kg = float(forecast.kg_per_unit[b].sum() * planned.plan.amounts[b]) / max(usual, 1e-9)
    kg = whole_kg * float(expected_week_shares(dates, case.weeks).sum())
    ripe = picked_by(
        dates.shape,
        np.array([(away.begins - dates.first).days, (away.ends - dates.first).days + 1])
        / dates.length_days,
    )
    return _Dated(planting, dates, days, kg, min(kg, whole_kg * float(ripe[1] - ripe[0])))


def _has_room(planned: PlannedSeason, b: int, then: _Dated) -> bool:
    """Say whether the bed holds the planting on its other days, beside all the plan grows."""
    case, forecast = planned.case, planned.case.forecast
    plantings, dates = list(forecast.plantings), list(forecast.dates)
    plantings[b], dates[b] = then.planting, then.dates
    occupies = occupied_weeks(case.season, tuple(plantings), tuple(dates), case.weeks)
    moved = replace(forecast, plantings=tuple(plantings), dates=tuple(dates), occupies=occupies)
    taken = bed_occupancy(case.season, moved) @ planned.plan.amounts
    area_m2 = np.array([bed.area_m2 for bed in case.season.beds])
    return bool((taken <= area_m2[:, None] * 1.001).all())
