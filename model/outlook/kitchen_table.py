"""Tables of the kitchen: jars to fill, batches by week, and what is used of every limit."""

import numpy as np
import pandas as pd

from model.outlook.curing_table import cured_from, curing_table
from model.outlook.limits import limit_uses
from model.outlook.reasons import reasons
from model.planning import PlannedSeason
from model.season.arrays import Bools

ALMOST = 0.9
PRESERVE_COLUMNS = (
    *("preserve", "food", "product", "method", "jar", "unit"),
    *(
        "to_fill",
        "bad_year_fill",
        "mean_fill",
        "chance_filled",
        "sealed_needed",
        "by_hand",
        "by_hand_fill",
        "on_shelf",
        "carried_over",
    ),
    *("fresh_kg", "loads", "minutes", "reason"),
)
BATCHES = (
    *("week", "preserve", "unit", "jars", "units", "loads", "minutes", "fresh_kg"),
    "cure_until_low",
)


def preserve_table(planned: PlannedSeason) -> pd.DataFrame:
    """One row a preserve: jars to fill by the plan and by hand, and why they differ.

    ``to_fill`` (before seals fail) and ``sealed_needed`` are whole units; ``by_hand`` are sealed
    ones too. One year in ten fills fewer than ``bad_year_fill``, all of them on average
    ``mean_fill``; ``chance_filled`` is the share of simulated years in which all are filled.

    >>> print(*model.preserve_table(planned))
    preserve food product method jar unit to_fill bad_year_fill mean_fill chance_filled
    sealed_needed by_hand by_hand_fill on_shelf carried_over fresh_kg loads minutes reason
    """
    case, plan = planned.case, planned.plan
    why = reasons(planned, limit_uses(case, plan))
    fresh, seen = case.arrays.fresh_kg.sum(axis=1), case.seen_units
    rows = []
    for r, preserve in enumerate(case.season.preserves):
        rule, window = planned.by_hand[r], planned.windows[r]
        to_fill = float(plan.to_fill[r])
        rows.append(
            {
                "preserve": preserve.name,
                "food": preserve.food,
                "product": preserve.product or preserve.crops[0],
                "method": preserve.method,
                "jar": preserve.jar or preserve.unit,
                "unit": preserve.unit,
                "to_fill": int(to_fill),
                "bad_year_fill": int(
                    min(to_fill, float(np.percentile(planned.filled[:, r], 10)) + 1e-3)
                ),
                "mean_fill": min(to_fill, float(planned.filled[:, r].mean())),
                "chance_filled": float(filled_all(planned, r).mean()),
                "sealed_needed": int(np.floor(to_fill * case.arrays.sealed_share[r] + 1e-9)),
                "by_hand": rule.sealed_needed,
                "by_hand_fill": rule.to_fill,
                "on_shelf": float(seen[r]),
                "carried_over": int(np.floor(window.carried_over + 1e-9)),
                "fresh_kg": float(plan.put_up[r].sum() * fresh[r]),
                "loads": int(plan.loads[r].sum()),
                "minutes": float(
                    plan.put_up[r].sum() * preserve.minutes_per_unit
                    + plan.loads[r].sum() * preserve.minutes_per_load
                ),
                "reason": why[r],
            }
        )
    return pd.DataFrame(rows, columns=list(PRESERVE_COLUMNS))


def filled_all(planned: PlannedSeason, r: int) -> Bools:
    """Say in which simulated years all is filled of the preserve at a place.

    Gives shape (Y,); half a jar is none.
    """
    all_filled: Bools = planned.filled[:, r] >= planned.plan.put_up[r].sum() - 0.5
    return all_filled


def batch_table(planned: PlannedSeason) -> pd.DataFrame:
    """One row a week and preserve in which something is put up, in whole units.

    ``jars`` are whole units of the column ``unit``, of which a part is filled up in a later week;
    ``units`` what this week's harvest makes. ``cure_until_low`` is the first day on which what is
    lifted that week may go to the store; None for what is not cured.

    >>> print(*model.batch_table(planned))
    week preserve unit jars units loads minutes fresh_kg cure_until_low
    """
    cures = curing_table(planned)
    case, plan, arrays = planned.case, planned.plan, planned.case.arrays
    whole = plan.whole_batches
    rows = []
    for r, week in zip(*np.nonzero((whole > 0) | (plan.put_up > 1e-6)), strict=True):
        hand = plan.put_up[r, week] * arrays.minutes_per_unit[r]
        rows.append(
            {
                "week": case.weeks.monday(int(week)),
                "preserve": arrays.preserves[r],
                "unit": case.season.preserves[r].unit,
                "jars": int(whole[r, week]),
                "units": float(plan.put_up[r, week]),
                "loads": int(plan.loads[r, week]),
                "minutes": float(hand + plan.loads[r, week] * arrays.minutes_per_load[r]),
                "fresh_kg": float(plan.put_up[r, week] * arrays.fresh_kg[r].sum()),
                "cure_until_low": cured_from(
                    cures, case.season.preserves[r], case.weeks.monday(int(week))
                ),
            }
        )
    frame = pd.DataFrame(rows, columns=list(BATCHES))
    return frame.sort_values(["week", "preserve"], ignore_index=True)


def limit_table(planned: PlannedSeason) -> pd.DataFrame:
    """One row a limit and week, with the used share.

    ``used`` and ``available`` are in the column ``unit``.

    >>> limits = model.limit_table(planned)
    >>> print(*limits)
    limit kind unit week used available share
    >>> sorted(set(limits["kind"]))
    ['bed', 'crock', 'dryer', 'freezer', 'freezing', 'jars', 'kitchen hours', 'lids', 'root store',
    'shelf']
    """
    case = planned.case
    frames = [
        pd.DataFrame(
            {
                "limit": use.limit,
                "kind": use.kind,
                "unit": use.unit,
                "week": case.weeks.mondays,
                "used": use.used,
                "available": use.available,
                "share": use.share,
            }
        )
        for use in limit_uses(case, planned.plan)
    ]
    return pd.concat(frames, ignore_index=True)


def tight_limits(limits: pd.DataFrame) -> pd.DataFrame:
    """Keep each limit's tightest week, and every week in which nine tenths of it are used.

    In the columns of ``limit_table``.

    >>> tight = model.tight_limits(model.limit_table(planned))
    >>> bool((tight["share"] >= model.TIGHT).any())
    True
    """
    peaks = limits.loc[limits.groupby("limit", sort=False)["share"].idxmax()]
    almost = limits[limits["share"] >= ALMOST]
    return pd.concat([peaks, almost]).drop_duplicates(["limit", "week"]).sort_index()
