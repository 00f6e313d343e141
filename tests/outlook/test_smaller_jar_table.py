"""Jars that were not finished, and when a smaller one is proposed."""

from dataclasses import replace
from datetime import date, timedelta

import pandas as pd
import pytest

from model.case import make_case
from model.outlook.headings import HEADINGS
from model.outlook.smaller_jar_table import smaller_jar_table
from model.season.record import EATEN
from model.season.season import Season
from tests.recorded import JARS, PACKS, recorded, took

END = date(2027, 12, 31)


def opened(whole: int, unfinished: int, *, preserve: str = JARS) -> Season:
    days = (END - timedelta(days=n) for n in range(whole + unfinished))
    taken = [took(day, 1, EATEN, preserve=preserve) for day in days]
    left = tuple(replace(one, unfinished=n < unfinished) for n, one in enumerate(taken))
    return recorded(taken=left)


def proposed(season: Season, year: str = "2027") -> pd.DataFrame:
    return smaller_jar_table(make_case(season, END), year)


def test_three_of_eight_quarts_not_finished_propose_pints() -> None:
    (row,) = proposed(opened(5, 3)).to_dict("records")

    assert (row["preserve"], row["jar"], row["smaller_jar"]) == (JARS, "quart", "pint")
    assert (row["opened_units"], row["unfinished_units"]) == (8, 3)
    assert row["smaller_process"] == "boiling water, hot pack, pint"
    assert set(row) <= set(HEADINGS)


@pytest.mark.parametrize(("whole", "unfinished"), [(8, 0), (1, 1), (7, 2)])
def test_a_jar_now_and_then_proposes_nothing(whole: int, unfinished: int) -> None:
    assert proposed(opened(whole, unfinished)).empty


def test_what_has_no_process_at_all_is_left_alone() -> None:
    assert proposed(opened(1, 5, preserve=PACKS)).empty
    with pytest.raises(KeyError, match="1999"):
        proposed(opened(5, 3), "1999")
