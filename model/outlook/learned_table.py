"""What the household's own record has taught, beside the usual figure, and what it rests on."""

from datetime import date

import numpy as np
import pandas as pd

from model.case import Case
from model.learning.shared_cause import shared_causes
from model.learning.use_intervals import YEAR_WEEKS, week_of_year
from model.learning.use_rate import UseRate
from model.planning import PlannedSeason
from model.season.arrays import Floats
from model.season.season import Season

# The standard normal's 90th percentile.
ONE_IN_TEN = 1.2816
COLUMNS = [
    "learned",
    "what",
    "unit",
    "usual",
    "own",
    "own_low",
    "own_high",
    "rests_on",
    "evidence",
    "left_out",
]


def learned_table(planned: PlannedSeason) -> pd.DataFrame:
    """One row for each yield, the seals, and the use of each food of which there is a record.

    ``usual`` and ``own`` are in the column ``unit``; ``own_low`` to ``own_high`` hold the truth
    eight times in ten.

    >>> print(*model.learned_table(planned))
    learned what unit usual own own_low own_high rests_on evidence left_out
    """
    case = planned.case
    rows = [*_yields(case), *_seals(case), *_uses(case)]
    return pd.DataFrame(rows, columns=COLUMNS)


def _yields(case: Case) -> list[dict[str, object]]:
    rows = {}
    for planting, own in zip(case.forecast.plantings, case.forecast.own, strict=True):
        if own.seasons:
            usual = planting.kg_per_unit
            rows[planting.crop, planting.form] = {
                "learned": "yield",
                "what": planting.crop,
                "unit": f"kg a {planting.per}",
                "usual": usual,
                "own": usual * own.factor,
                "own_low": usual * own.range[0],
                "own_high": usual * own.range[1],
                "rests_on": own.seasons,
                "evidence": "own seasons",
                "left_out": own.abnormal,
            }
    return list(rows.values())


def _seals(case: Case) -> list[dict[str, object]]:
    seals = case.seals
    if not seals.batches:
        return []
    return [
        {
            "learned": "jars that do not seal",
            "what": "all canning",
            "unit": "of 100 jars",
            "usual": 100 * seals.usual,
            "own": 100 * seals.share,
            "own_low": 100 * seals.low,
            "own_high": 100 * seals.high,
            "rests_on": seals.batches,
            "evidence": "own batches",
            "left_out": 0,
        }
    ]


def _uses(case: Case) -> list[dict[str, object]]:
    """Give the rows of foods that were counted, over the weeks in which kept food is wanted."""
    usual = case.demand.wanted / np.maximum(case.use.factors(case.weeks), 1e-9)
    kept = case.demand.wanted > case.fresh
    of_year = week_of_year(case.weeks)
    rows = []
    for f, rate in enumerate(case.use.foods):
        if rate.intervals + rate.left_out and kept[f].any():
            by_week = np.zeros(YEAR_WEEKS)
            np.add.at(by_week, of_year[kept[f]], usual[f, kept[f]])
            rows.append(_use(rate, by_week, float(usual[f, kept[f]].mean())))
    return rows


def _use(rate: UseRate, by_week: Floats, a_week: float) -> dict[str, object]:
    mean, spread = rate.over(by_week)
    return {
        "learned": "eaten",
        "what": rate.food,
        "unit": "portions a week",
        "usual": a_week,
        "own": a_week * max(0.0, mean),
        "own_low": a_week * max(0.0, mean - ONE_IN_TEN * spread),
        "own_high": a_week * (mean + ONE_IN_TEN * spread),
        "rests_on": rate.intervals,
        "evidence": "stretches between counts",
        "left_out": rate.left_out,
    }


def fill_table(planned: PlannedSeason) -> pd.DataFrame:
    """One row a canned preserve still to be put up: jars to fill for the sealed ones wanted.

    On average, and so many that enough seal nine times in ten: never fewer than on average,
    though of a few jars fewer may do.

    >>> print(*model.fill_table(planned))
    preserve sealed_needed fill_mean fill_sure
    """
    case, plan = planned.case, planned.plan
    rows = []
    for r, preserve in enumerate(case.season.preserves):
        if not preserve.canned:
            continue
        batches = plan.put_up[r][plan.put_up[r] > 0.5]
        sealed = int(np.floor(batches.sum() * case.arrays.sealed_share[r] + 1e-9))
        if sealed:
            fill = case.seals.to_fill(sealed, max(1, round(float(batches.mean()))))
            rows.append(
                {
                    "preserve": preserve.name,
                    "sealed_needed": sealed,
                    "fill_mean": fill.mean,
                    "fill_sure": max(fill.mean, fill.nine_in_ten),
                }
            )
    columns = ["preserve", "sealed_needed", "fill_mean", "fill_sure"]
    return pd.DataFrame(rows, columns=columns)


def cause_table(season: Season, today: date) -> pd.DataFrame:
    """One row for what bad batches have in common beyond chance: where to look, no proof.

    A bad batch is one in which a fifth or more of the jars did not seal. ``by_chance`` is how
    often chance alone does as much, a share.

    >>> print(*model.cause_table(season, date(2027, 3, 15)))
    in_common what bad_batches bad_jars other_batches by_chance
    """
    rows = [
        {
            "in_common": cause.kind,
            "what": cause.name,
            "bad_batches": f"{cause.bad} of {cause.batches}",
            "bad_jars": f"{cause.failed} of {cause.filled}",
            "other_batches": f"{cause.other_bad} of {cause.other_batches}",
            "by_chance": cause.by_chance,
        }
        for cause in shared_causes(season, today)
    ]
    columns = ["in_common", "what", "bad_batches", "bad_jars", "other_batches", "by_chance"]
    return pd.DataFrame(rows, columns=columns)
