"""Mid-season: each preserve ahead, on track, behind or enough, why, and when it is known."""

from collections.abc import Hashable, Mapping
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Any

import numpy as np
import pandas as pd

from model.forecast.growth import PickingDates
from model.forecast.harvest import this_season
from model.forecast.setbacks import setbacks_of
from model.outlook.garden_table import progress_table
from model.outlook.limits import limit_uses
from model.outlook.own_units import in_own
from model.outlook.reasons import reasons
from model.outlook.review_table import last_meant
from model.planning import PlannedSeason
from model.season.kitchen import Preserve
from model.season.ledger import Ledger
from model.season.unseen_seals import unconfirmed

BEHIND, ON_TRACK, AHEAD, ENOUGH = PRODUCT_STATUSES = ("behind", "on track", "ahead", "enough")
# Within a tenth of what was meant is on track: a difference that small is settled by a load.
NEAR = 0.1
COLUMNS = (
    *("preserve", "food", "unit", "meant_units", "filled_units", "sealed_units"),
    *(
        "lost_units",
        "unconfirmed_units",
        "still_units",
        "product_status",
        "product_reason",
        "known_on",
    ),
)


_Picked = Mapping[str, Mapping[Hashable, Any]]


@dataclass(frozen=True, slots=True)
class _Stands:
    """One preserve so far: sealed units meant, sealed, of these lost, not looked at, to come."""

    meant: float
    kept_on: date | None
    filled: float
    sealed: float
    lost: float
    unconfirmed: float
    still: float

    @property
    def kept(self) -> float:
        return self.sealed - self.lost


def product_table(planned: PlannedSeason) -> pd.DataFrame:
    """One row a preserve that is meant or made this season: how it stands today, and why.

    ``meant_units`` are those of the kept plan, else of the present one; ``still_units`` the
    sealed ones that the present plan and the seals not looked at should add; ``lost_units`` are
    those of this season's that fell, spoiled or were thrown away since, which count no more;
    ``known_on`` is the last day its crops are usually picked (blank where none is planted).

    >>> print(*model.product_table(planned))
    preserve food unit meant_units filled_units sealed_units lost_units unconfirmed_units
    still_units product_status product_reason known_on
    """
    season = planned.case.season
    why = reasons(planned, limit_uses(planned.case, planned.plan))
    picked = {str(row["crop"]): row for row in progress_table(planned).to_dict("records")}
    books = planned.case.books
    open_codes = {batch.code for batch in unconfirmed(season, planned.case.today)}
    rows = []
    for r, own in enumerate(season.preserves):
        stands = _stands(planned, r, books[own.name], open_codes)
        if not (stands.meant or stands.filled or stands.still):
            continue
        status = _status(stands)
        rows.append(
            {
                "preserve": own.name,
                "food": own.food,
                "unit": own.unit,
                "meant_units": stands.meant,
                "filled_units": stands.filled,
                "sealed_units": stands.sealed,
                "lost_units": stands.lost,
                "unconfirmed_units": stands.unconfirmed,
                "still_units": stands.still,
                "product_status": status,
                "product_reason": _reason(planned, own, stands, status, picked)
                or _by_plan(why[r], stands),
                "known_on": _known_on(planned, own),
            }
        )
    return pd.DataFrame(rows, columns=list(COLUMNS))


def _stands(planned: PlannedSeason, r: int, book: Ledger, open_codes: set[str]) -> _Stands:
    case = planned.case
    season, today = case.season, case.today
    year, name = this_season(season, today), season.preserves[r].name
    put_up = [
        batch
        for batch in season.record.batches
        if batch.preserve == name and year.begins <= batch.put_up <= today
    ]
    sealed = book.between(year.begins, today).came
    lost = book.lost_of_new(year.begins, today)
    unsure = sum(batch.filled for batch in put_up if batch.code in open_codes)
    share = float(case.arrays.sealed_share[r])
    still = float(np.floor((planned.plan.to_fill[r] + unsure) * share + 1e-9))
    kept = last_meant(season, name, year.begins, today)
    return _Stands(
        meant=kept.units if kept else sealed - lost + still,
        kept_on=kept.day if kept else None,
        filled=sum(batch.filled for batch in put_up if not batch.again_of),
        sealed=sealed,
        lost=lost,
        unconfirmed=unsure,
        still=still,
    )


def _status(stands: _Stands) -> str:
    if stands.kept >= stands.meant:
        return ENOUGH
    reached = stands.kept + stands.still
    if reached < (1 - NEAR) * stands.meant:
        return BEHIND
    return AHEAD if reached > (1 + NEAR) * stands.meant else ON_TRACK


def _reason(
    planned: PlannedSeason, own: Preserve, stands: _Stands, status: str, picked: _Picked
) -> str:
    """Give the reason that the garden or the record has; blank where the kitchen's is asked."""
    if status == ENOUGH and stands.kept_on:
        how = "are sealed" if own.canned else "were put up"
        return f"{stands.kept:g} {how}, {stands.meant:g} were aimed at: no more are needed"
    if stands.kept_on is None:
        return "compared with the plan of today: none was kept before"
    if status == BEHIND:
        if stands.lost >= 1.0:
            return f"{stands.lost:g} of the {stands.sealed:g} sealed were lost since"
        return _lost(planned, own, stands.kept_on) or _garden(
            own, picked, BEHIND, planned.case.season.units
        )
    if status == AHEAD:
        return (
            _garden(own, picked, AHEAD, planned.case.season.units)
            or f"the plan of today comes to {_reached(stands)}, {stands.meant:g} were aimed at"
        )
    return "as aimed at"


def _by_plan(why: str, stands: _Stands) -> str:
    """Say that the plan itself has changed, which is no fault of garden or kitchen."""
    comes = f"{_reached(stands)} of the {stands.meant:g} aimed at"
    return f"the plan of today comes to {comes}{f': {why}' if why else ''}"


def _reached(stands: _Stands) -> str:
    return f"{stands.kept + stands.still:g}"


def _lost(planned: PlannedSeason, own: Preserve, kept_on: date) -> str:
    """Name the newest loss of a crop that the kept plan did not know of yet."""
    case = planned.case
    for planting in case.forecast.plantings:
        fell = setbacks_of(case.season, planting, case.today)
        if planting.crop in own.crops and fell and fell[-1].noticed >= kept_on:
            newest = fell[-1]
            return f"{newest.share_lost:.0%} of the {newest.crop} went on {newest.noticed}"
    return ""


def _garden(own: Preserve, picked: _Picked, status: str, units: str) -> str:
    for crop in own.crops:
        row = picked.get(crop)
        if row and str(row["status"]).startswith(status):
            got, unit = in_own(float(row["picked_kg"]), "kg", units)
            due, _ = in_own(float(row["expected_so_far_kg"]), "kg", units)
            return f"{crop}: {got:.1f} {unit} picked, {due:.1f} {unit} expected by now"
    return ""


def _known_on(planned: PlannedSeason, own: Preserve) -> date | None:
    forecast = planned.case.forecast
    ends = [
        _usual_end(dates)
        for planting, dates, amount in zip(
            forecast.plantings, forecast.dates, planned.plan.amounts, strict=True
        )
        if planting.crop in own.crops and amount > 0
    ]
    return max(ends, default=None)


def _usual_end(dates: PickingDates) -> date:
    """Give the usual last day of picking: when the crop has given all, or the usual frost."""
    frost = dates.usual_kill
    if frost is None:
        return dates.ends
    return min(dates.ends, frost + timedelta(days=round(dates.kill_delay_days)))
