"""What is made on a preserving day: looked up, or refused with the ways that remain."""

from collections import Counter
from dataclasses import replace
from datetime import date, timedelta

import pytest

from model.outlook.day_product import Wanted, wanted_today
from model.outlook.day_sheet import PROCESS
from model.outlook.day_table import day_table
from model.outlook.kitchen_table import batch_table
from model.planning import plan_season
from model.season.garden import Picking
from model.season.season import Season
from tests.day_kitchen import DAY, KITCHEN, PRESSURE, SNAP_BEANS, sheet
from tests.recorded import batch, recorded
from tests.small_season import small_season


def test_without_the_altitude_there_is_no_time_at_all() -> None:
    nowhere = replace(KITCHEN, altitude_ft=None)
    found = sheet(nowhere, Wanted("whole tomatoes", 7), Wanted("frozen beans", 4))

    assert [load.product.name for load in found.loads] == ["frozen beans"]
    assert [one.name for one in found.refused] == ["whole tomatoes"]
    assert "altitude" in found.refused[0].reason
    assert PROCESS not in set(day_table(found)["phase"])


@pytest.mark.parametrize(
    ("wanted", "reason", "way"),
    [
        (Wanted("pesto", 4, "boiling water", "hot", "pint"), "oil", "freeze"),
        (Wanted("pumpkin puree", 4, PRESSURE[0], "hot", "pint"), "no tested process", "freeze"),
        (Wanted(SNAP_BEANS, 7, "boiling water", "raw", "pint"), "low in acid", "freeze"),
        (
            Wanted("Corn, cream style", 4, PRESSURE[0], "hot", "quart"),
            "946 ml is larger",
            "use a pint or smaller",
        ),
    ],
)
def test_what_has_no_tested_process_is_refused_with_the_way_that_remains(
    wanted: Wanted, reason: str, way: str
) -> None:
    """USDA AIB 539, guide 1 for the methods; guide 4 for cream-style corn in pints only."""
    found = sheet(KITCHEN, wanted)

    assert found.loads == ()
    assert reason in found.refused[0].reason
    assert way in found.refused[0].ways


def test_a_product_whose_jars_no_canner_takes_is_refused() -> None:
    found = sheet(small_season(), Wanted(SNAP_BEANS, 7, PRESSURE[0], "raw", "pint"))

    assert found.refused[0].reason == "the notes have no canner for pressure, dial gauge"


def test_what_is_wanted_today_is_the_week_s_plan_and_what_was_put_up_already() -> None:
    season = replace(
        recorded(batches=(batch("A", DAY, 2), batch("B", DAY, 2, preserve="sauce"))),
        pickings=(Picking(DAY - timedelta(days=1), "tomato", 15.0),),
    )
    planned = plan_season(season, DAY, years=2)
    units = Counter({"whole tomatoes": 2, "sauce": 2})
    rows = batch_table(planned)
    for row in rows[rows["week"] == DAY].itertuples():
        units[row.preserve] += row.jars

    assert units["whole tomatoes"] > 2
    assert {one.name: one.units for one in wanted_today(planned)} == units


def test_of_what_is_weighed_no_more_is_wanted_than_the_week_has(alder_lane: Season) -> None:
    planned = plan_season(alder_lane, date(2027, 8, 16), years=2)
    kg = planned.plan.put_up[planned.case.arrays.preserves.index("onions on strings"), 0]
    wanted = {one.name: one.units for one in wanted_today(planned)}

    assert kg - 1 < wanted["onions on strings"] <= kg
    assert 0.1 < kg % 1 < 0.9  # so that rounding up would tell of more
