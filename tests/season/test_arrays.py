"""The numbers of a season."""

from datetime import date

import model
from tests.small_season import TABLES, small_season


def test_more_full_jars_than_were_owned_leave_none_free_and_still_a_plan() -> None:
    batches = "batch,put_up_on,preserve,filled\nmany,2027-02-28,whole tomatoes,38\n"
    seals = "batch,checked_on,sealed\nmany,2027-03-01,38\n"
    season = small_season(batches=batches, seals=seals, stock=TABLES["stock.csv"])
    planned = model.plan_season(season, date(2027, 3, 2), years=2)

    arrays = planned.case.arrays
    assert arrays.owned_jars[0] == arrays.opening_units[0] > season.jars[0].owned
    assert planned.plan.put_up[0, 0] == 0
