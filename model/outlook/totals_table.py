"""The totals of a plan, each with its bad year: jars, packs and the hours in the kitchen."""

import numpy as np
import pandas as pd

from model.planning import PlannedSeason
from model.season.arrays import Floats

UNITS = ("jar", "pack")
# A jar that single precision leaves a hair short is a jar.
NEARLY = 0.5


def totals_table(planned: PlannedSeason) -> pd.DataFrame:
    """One row a total (``jar``, ``pack``, ``h`` of kitchen work): what is planned and may come.

    ``planned`` is of the ordinary year, ``mean`` of all simulated years, which hold bad ones as
    well, so that the means of the preserves add up to it; one year in ten has fewer jars than
    ``bad_year``, or takes more hours; ``chance`` is the share of years that reach it, or stay
    within it.

    >>> print(*model.totals_table(planned))
    unit planned mean bad_year chance
    >>> model.totals_table(planned)["unit"].tolist()
    ['jar', 'pack', 'h']
    """
    plan, preserves = planned.plan, planned.case.season.preserves
    rows = []
    for unit in UNITS:
        own = np.array([preserve.unit == unit for preserve in preserves], dtype=bool)
        reached: Floats = planned.filled[:, own].sum(axis=1).astype(float)
        whole = float(plan.to_fill[own].sum())
        enough = float((reached >= plan.put_up[own].sum() - NEARLY).mean())
        bad, mean = (min(whole, float(n)) for n in (np.percentile(reached, 10), reached.mean()))
        rows.append((unit, whole, mean, bad, enough))
    arrays = planned.case.arrays
    minutes = arrays.minutes_per_load @ plan.loads + arrays.minutes_per_unit @ plan.put_up
    hours = float(minutes.sum()) / 60
    taken = planned.minutes.astype(float) / 60
    within = float((taken <= hours + NEARLY).mean())
    mean, bad = float(taken.mean()), max(hours, float(np.percentile(taken, 90)))
    rows.append(("h", hours, mean, bad, within))
    return pd.DataFrame(rows, columns=["unit", "planned", "mean", "bad_year", "chance"])
