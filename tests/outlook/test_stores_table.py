"""The root stores: days of keeping, losses, days to sort, and what stands against it."""

from datetime import date, timedelta

import pandas as pd
import pytest

import model
from model.outlook.headings import HEADINGS
from tests.small_season import TABLES, small_season

TODAY = date(2027, 3, 1)
PUT_UP = date(2026, 12, 10)
STOCK = (
    "counted_on,preserve,jars,put_up_on\n"
    "2027-02-27,stored carrots,9,2026-12-10\n2027-02-27,stored onions,5,2026-12-10\n"
)
PLACES = "place,kind,shelf_area_m2,volume_l,holds_kg,temp_c,humidity_percent\nshelf,shelf,1,,,,\n"


def cellar(
    air: str, *, apples: bool = False, keeps: str = "", held: bool = True
) -> model.PlannedSeason:
    """Plan a cellar with carrots, onions and perhaps apples, ``held`` there; ``air``: C,percent."""
    apple = "stored apples,apples,apple,root store,100,\n" if apples else ""
    apple_food = "apples,fruit,2,5,3,apple\n" if apples else ""
    preserves = (
        "preserve,food,crop,method,product,pack,jar,share_percent,keeps_weeks\n"
        f"stored carrots,carrots,carrot,root store,,,,100,{keeps}\n"
        "stored onions,onions,onion,root store,,,,100,\n"
    ) + apple.replace("root store,", "root store,,,,")
    season = small_season(
        places=f"{PLACES}freezer,freezer,,150,,,\ncellar,root store,,,100,{air}\n",
        foods=TABLES["foods.csv"]
        + f"carrots,vegetable,2,5,3,carrot\nonions,vegetable,2,5,3,onion\n{apple_food}",
        preserves=preserves,
        stock=STOCK + (f"{TODAY},stored apples,9,{TODAY}\n" if apples and held else ""),
    )
    return model.plan_season(season, TODAY, years=2)


def stores(air: str, *, apples: bool = False, keeps: str = "", held: bool = True) -> pd.DataFrame:
    """Give the table of that cellar."""
    return model.stores_table(cellar(air, apples=apples, keeps=keeps, held=held)).set_index(
        "preserve"
    )


def test_in_good_air_carrots_keep_between_the_published_ends() -> None:
    """Massachusetts Extension 5-9 months, Western Australia 16-20 weeks, Handbook 66 7-9 months."""
    row = stores("1,95").loc["stored carrots"]

    least, most = ((row[f"keep_until_{end}"] - PUT_UP).days / 7 for end in ("low", "high"))
    assert least == pytest.approx((16 + 30.4 + 21.7) / 3, abs=0.2)
    assert most == pytest.approx((20 + 39.1 + 39.1) / 3, abs=0.2)
    assert row["store_warning"] == ""


def test_too_warm_a_store_keeps_no_longer_than_the_low_end_and_loses_more() -> None:
    good, warm = (stores(air).loc["stored carrots"] for air in ("1,95", "9,95"))

    assert warm["keep_until_high"] == good["keep_until_low"]
    assert warm["loss_share"] > good["loss_share"]
    assert warm["store_warning"] == "too warm"


def test_apples_beside_carrots_and_onions_in_damp_are_warned_of() -> None:
    table = stores("1,95", apples=True)

    assert "bitter" in table.loc["stored carrots", "store_warning"]
    assert "too damp" in table.loc["stored onions", "store_warning"]
    assert table.loc["stored apples", "store_warning"] == ""


def test_apples_that_are_not_there_turn_nothing_bitter() -> None:
    assert stores("1,95", apples=True, held=False).loc["stored carrots", "store_warning"] == ""


def test_where_nobody_measured_neighbours_that_want_other_air_are_named() -> None:
    table = stores(",")

    assert (
        table.loc["stored onions", "store_warning"] == "wants drier air than the carrot beside it"
    )
    assert table.loc["stored carrots", "store_warning"].startswith("wants damper air")


def test_the_household_s_own_weeks_stand_but_are_held_against_what_is_published() -> None:
    assert (
        "the notes count on 50 weeks"
        in stores("1,95", keeps="50").loc["stored carrots", "store_warning"]
    )
    assert stores("1,95", keeps="20").loc["stored carrots", "store_warning"] == ""


@pytest.mark.parametrize("keeps", ["20", "50"])
@pytest.mark.parametrize("air", ["1,95", "9,95"])
def test_the_household_s_own_weeks_are_the_same_in_every_part_of_the_larder(
    air: str, keeps: str
) -> None:
    planned = cellar(air, keeps=keeps)
    ends = PUT_UP + timedelta(weeks=int(keeps))
    row = model.stores_table(planned).set_index("preserve").loc["stored carrots"]
    first = model.eat_first_table(planned).set_index("preserve").loc["stored carrots"]
    r = planned.case.arrays.preserves.index("stored carrots")
    good = [
        monday
        for monday, left in zip(
            planned.case.weeks.mondays, planned.case.arrays.opening_left[r], strict=True
        )
        if left > 0
    ]

    assert (row["keep_until_low"], row["keep_until_high"]) == (ends, ends)
    assert first["weeks_left"] == (ends - TODAY).days // 7
    # the arrays of plan and winter count whole weeks
    assert abs((max(good) + timedelta(weeks=1) - ends).days) < 7


def test_a_store_is_sorted_each_four_weeks_from_the_day_it_was_filled() -> None:
    sort_on = stores("1,95").loc["stored carrots", "sort_on"]

    assert TODAY <= sort_on < TODAY + timedelta(weeks=4)
    assert (sort_on - PUT_UP).days % 28 == 0


@pytest.mark.parametrize("demo", ["spring_plan", "southern_plan"])
def test_every_row_is_told_in_known_columns(demo: str, request: pytest.FixtureRequest) -> None:
    planned: model.PlannedSeason = request.getfixturevalue(demo)
    table = model.stores_table(planned)

    assert len(table) >= sum(p.method == "root store" for p in planned.case.season.preserves)
    assert set(table.columns) <= set(HEADINGS)
    assert (table["keeps_weeks_low"] <= table["keeps_weeks_high"]).all()
    assert table["loss_share"].between(0.001, 0.03).all()
