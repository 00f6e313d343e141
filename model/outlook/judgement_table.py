"""The judgement values: what each is in these notes, what it usually is, and what it means."""

import pandas as pd

from model.reference.read import source_title, table
from model.season.season import Season

COLUMNS = (
    *("setting", "called", "in_use", "usual", "setting_unit"),
    *("least", "most", "means", "says"),
)


def judgement_table(season: Season) -> pd.DataFrame:
    """One row a judgement value: in use and usual, its bounds, its meaning, who says so.

    >>> judged = model.judgement_table(season)
    >>> print(*judged)
    setting called in_use usual setting_unit least most means says
    >>> judged.set_index("setting")["setting_unit"]["seal_failure_share"]
    'share of jars'
    """
    rows = [
        {
            "setting": row["setting"],
            "called": row["called"],
            "in_use": float(getattr(season.settings, row["setting"])),
            "usual": float(row["value"]),
            "setting_unit": row["unit"],
            "least": float(row["least"]),
            "most": float(row["most"]),
            "means": row["meaning"],
            "says": source_title(row["source"]),
        }
        for row in table("judgements")
    ]
    return pd.DataFrame(rows, columns=list(COLUMNS))
