"""Jars that were opened and not finished, and the smaller jar that may serve better."""

import pandas as pd

from model.case import Case
from model.outlook.review_table import reviewed
from model.safety.smaller_jar import smaller_jar
from model.season.record import EATEN

# Judgement: one jar left standing is chance; a quarter of them is a jar too large.
FEWEST, LEAST_SHARE = 2, 0.25
COLUMNS = ("preserve", "jar", "opened_units", "unfinished_units", "smaller_jar", "smaller_process")


def smaller_jar_table(case: Case, year: str) -> pd.DataFrame:
    """One row a canned preserve of which many a jar was not finished in a garden year.

    ``opened_units`` are those written down as eaten. Only where a tested process covers a
    smaller jar is there a row; ``smaller_process`` names it. Raises KeyError for a year that
    is not in the notes.

    >>> print(*model.smaller_jar_table(planned.case, "2026"))
    preserve jar opened_units unfinished_units smaller_jar smaller_process
    """
    season = case.season
    begins, ends = reviewed(season, year, case.today)
    rows = []
    for own in season.preserves:
        eaten = [
            taken
            for taken in season.record.taken
            if taken.preserve == own.name and taken.why == EATEN and begins <= taken.day <= ends
        ]
        opened = sum(taken.units for taken in eaten)
        unfinished = sum(taken.units for taken in eaten if taken.unfinished)
        if unfinished < max(FEWEST, LEAST_SHARE * opened):
            continue
        smaller = smaller_jar(season, own)
        if smaller is not None:
            process = smaller.process
            rows.append(
                {
                    "preserve": own.name,
                    "jar": own.jar,
                    "opened_units": opened,
                    "unfinished_units": unfinished,
                    "smaller_jar": smaller.name,
                    "smaller_process": f"{process.method}, {process.pack} pack, {process.jar}",
                }
            )
    return pd.DataFrame(rows, columns=list(COLUMNS))
