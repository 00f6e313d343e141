"""The table of last sowing days, and what fits into a freed bed."""

import math
from datetime import date

import model
from model.outlook.headings import HEADINGS
from model.outlook.sowing_table import QUICK_DAYS, sowing_table
from model.planning import PlannedSeason
from model.reference.lookup import crop
from tests.small_season import small_season


def test_the_last_days_come_in_the_order_of_their_chances(spring_plan: PlannedSeason) -> None:
    table = sowing_table(spring_plan)
    own = table[~table["catch_crop"]]

    assert set(table.columns) <= set(HEADINGS)
    dated = table[table["latest_nine"].notna()]
    assert len(dated) > 15
    assert (dated["latest_nine"] < dated["latest_five"]).all()
    assert (table["latest_five"] < table["latest_two"]).all()
    early = table["chance_today"].isna()
    assert table.loc[~early, "chance_today"].between(0, 1).all()
    assert (table.loc[early, "start_from"] > spring_plan.case.today).all()
    assert "kale" in set(table.loc[early, "crop"])
    # apples and plums stand there (demo_data/alder_lane/plantings.csv)
    assert not table["free_bed"].eq("orchard corner").any()
    assert {"bush bean", "tomato", "kale"} <= set(own["crop"])
    assert not {"garlic", "raspberry"} & set(table["crop"])
    assert list(own.set_index("crop").loc[["tomato", "kale"], "start_by"]) == ["plant out", "sow"]


def test_a_tender_crop_is_not_started_before_its_frosts_are_past(tiny_plan: PlannedSeason) -> None:
    table = sowing_table(tiny_plan).set_index("crop")

    assert table.loc["tomato", "start_from"] == date(2027, 5, 26)
    assert math.isnan(table.loc["tomato", "chance_today"])  # too early, not past hope


def test_quick_crops_are_offered_only_where_a_bed_is_free_and_they_make_it() -> None:
    for today in (date(2027, 7, 20), date(2027, 11, 1)):
        planned = model.plan_season(small_season(), today, years=2)
        caught = sowing_table(planned).query("catch_crop")

        assert all((crop(name).days_high or 0) <= QUICK_DAYS for name in caught["crop"])
        assert (caught["chance_today"] >= 0.5).all()
        assert caught["free_beds"].str.startswith("only bed ").all()
        assert not {"bush bean", "tomato"} & set(caught["crop"])
        assert caught.empty == (today.month == 11)


def test_a_free_bed_is_told_in_the_own_measure() -> None:
    household = "household,invented,altitude_m,units\nTiny,yes,640,US\n"
    planned = model.plan_season(small_season(household=household), date(2027, 7, 20), years=2)
    caught = sowing_table(planned).query("catch_crop").iloc[0]

    # one square foot is 0.09290304 m2 (international foot of 1959)
    assert caught["free_beds"] == f"only bed {caught['free_m2'] / 0.09290304:.1f} ft²"


def test_a_full_bed_has_no_room_for_a_catch_crop() -> None:
    full = small_season(beds="bed,area_m2\nonly bed,13.5\n")
    planned = model.plan_season(full, date(2027, 7, 20), years=2)

    assert sowing_table(planned).query("catch_crop").empty
