"""The ways of choosing what to plant side by side, over the same fresh years."""

import numpy as np
import pandas as pd

from model.planning import PlannedSeason
from model.planting.ways import (
    TUNED,
    Progress,
    bad_year_difference,
    mean_difference,
    score_ways,
)

WAYS_YEARS = 2000


def ways_table(
    planned: PlannedSeason,
    seed: int,
    *,
    years: int = WAYS_YEARS,
    progress: Progress = lambda _, __: None,
) -> pd.DataFrame:
    """One row a way of choosing amounts: what came of it in ``years`` simulated years.

    ``more_portions`` and ``more_in_bad_year`` compare with the way that plans use, each with
    the range that holds it in 95 of 100 such samples; blank for that way itself.

    ``progress`` is told the way and the part done. Portions are a year's.

    >>> ways = model.ways_table(small, seed=1, years=10)
    >>> print(*ways)
    way mean_portions bad_year_portions weeks_short left_portions hours more_portions more_low
    more_high bad_more_portions bad_more_low bad_more_high
    >>> ways["way"].head(2).tolist()
    ['as written down', 'by hand']
    """
    scores = score_ways(planned.case, planned.windows, years, seed, progress)
    used = next(score for score in scores if score.way == TUNED)
    rows = []
    for score in scores:
        row = {
            "way": score.way,
            "mean_portions": float(score.met.mean()),
            "bad_year_portions": score.bad_year,
            "weeks_short": float(score.weeks_short.mean()),
            "left_portions": float(score.left.mean()),
            "hours": float(score.hours.mean()),
        }
        if score is not used:
            mean = mean_difference(score.met, used.met)
            bad = bad_year_difference(score.met, used.met, np.random.default_rng(seed))
            row |= {"more_portions": mean.value, "more_low": mean.low, "more_high": mean.high}
            row |= {"bad_more_portions": bad.value, "bad_more_low": bad.low}
            row |= {"bad_more_high": bad.high}
        rows.append(row)
    return pd.DataFrame(rows)
