"""The sentence above each chart names the week, the amount and the foods that its table holds."""

from datetime import date, timedelta

import pandas as pd
import pytest

from dashboard.chart_findings import (
    harvest_finding,
    hours_finding,
    lasts_finding,
    shelf_finding,
    supply_finding,
    supply_holes,
)

MONDAY = date(2027, 3, 1)


def supplied(*weeks: tuple[float, float, float]) -> pd.DataFrame:
    """Give weeks of fresh portions, jars and the want."""
    return pd.DataFrame(
        [
            {
                "week": MONDAY + timedelta(weeks=place),
                "source": source,
                "portions": portions,
                "wanted_portions": want,
            }
            for place, (fresh, jars, want) in enumerate(weeks)
            for source, portions in (("fresh", fresh), ("jars", jars))
        ]
    )


def finding(*weeks: tuple[float, float, float]) -> str:
    supply = supplied(*weeks)
    return supply_finding(supply, supply_holes(supply))


def test_the_hungry_gap_is_named_by_its_days_and_what_is_missing() -> None:
    told = finding((0, 10, 10), (0, 5, 10), (1, 4, 10), (0, 10, 10))

    assert (
        told
        == "The hungry gap in an ordinary year: 8 Mar to 21 Mar 2027, 50% of the portions missing"
    )


def test_where_nothing_was_counted_the_first_weeks_are_no_hungry_gap_but_unknown() -> None:
    supply = supplied((0, 0, 10), (0, 0, 10), (10, 0, 10), (0, 0, 10))
    told = supply_finding(supply, supply_holes(supply), counted=False)

    assert told == (
        "Nothing is counted yet: count your shelf, which may fill the weeks to 14 Mar 2027"
    )
    fed = supplied((10, 0, 10), (0, 0, 10))
    assert supply_finding(fed, supply_holes(fed), counted=False).startswith("The hungry gap")


def test_a_hole_amid_fresh_food_is_no_hungry_gap() -> None:
    told = finding((10, 0, 10), (7, 0, 10))

    short = "The plate is short in an ordinary year"
    assert told == f"{short}: 8 Mar to 14 Mar 2027, 30% of the portions missing"


def test_the_largest_hole_is_told_and_the_others_are_counted() -> None:
    told = finding((0, 7, 10), (0, 10, 10), (0, 1, 10), (0, 10, 10), (0, 6, 10))

    assert told.startswith("The hungry gap in an ordinary year: 15 Mar to 21 Mar 2027, 90%")
    assert told.endswith("; 2 smaller gaps")


def test_a_week_in_which_everyone_is_away_ends_no_hole() -> None:
    supply = supplied((0, 5, 10), (0, 0, 0), (0, 5, 10))
    holes = supply_holes(supply)

    assert list(holes["begins"]) == [MONDAY]
    assert list(holes["ends"]) == [MONDAY + timedelta(weeks=3)]
    assert list(holes["short_portions"]) == [10.0]


def test_without_a_hole_the_leanest_week_is_named() -> None:
    told = finding((0, 10, 10), (0, 8, 10))

    assert told.startswith("No gap")
    assert told.endswith("least in the week of 8 Mar 2027: 80% of the portions")
    assert finding((0, 10, 10)) == "No gap: every week all the portions wanted are there"
    assert finding((0, 0, 0)).startswith("No gap")


def test_a_hole_over_the_new_year_carries_both_years() -> None:
    weeks = [(0.0, 1.0, 10.0)] * 60
    assert "1 Mar 2027 to " in finding(*weeks)


def kitchen(*weeks: tuple[float, float, int]) -> pd.DataFrame:
    return pd.DataFrame(
        [
            {
                "week": MONDAY + timedelta(weeks=place),
                "hours": hours,
                "free_hours": free,
                "loads": loads,
            }
            for place, (hours, free, loads) in enumerate(weeks)
        ]
    )


@pytest.mark.parametrize(
    ("weeks", "told"),
    [
        ([(5.0, 13.0, 1), (12.0, 20.0, 4)], "8 Mar 2027, 12 of 20 h, 4 canner loads: 8 h to spare"),
        ([(13.0, 13.0, 5), (12.0, 20.0, 4)], "1 Mar 2027, 13 of 13 h, 5 canner loads: all used"),
        ([(15.0, 13.0, 1), (12.0, 20.0, 4)], "1 Mar 2027, 15 of 13 h, 1 canner load: 2 h over"),
        ([(0.5, 0.0, 0), (12.0, 20.0, 4)], "1 Mar 2027, 0.5 of 0 h: 0.5 h over"),
    ],
)
def test_the_tightest_week_is_told_with_what_is_left_or_over(
    weeks: list[tuple[float, float, int]], told: str
) -> None:
    assert hours_finding(kitchen(*weeks)) == f"Tightest week: {told}"


def test_weeks_without_work_say_so() -> None:
    assert hours_finding(kitchen((0.0, 13.0, 0))) == "No kitchen work in these weeks"


def stood(*rows: tuple[str, str, str, date]) -> pd.DataFrame:
    names = ["food", "enough", "standing", "lasts_until"]
    foods = pd.DataFrame(rows, columns=names)
    return foods.assign(other=foods["food"] != "half the plate")


def test_foods_that_give_out_are_counted_and_the_first_is_named() -> None:
    foods = stood(
        ("half the plate", "no", "gives out", date(2028, 2, 7)),
        ("peas", "no", "gives out", date(2028, 3, 12)),
        ("roots", "no", "past keeping", date(2028, 2, 28)),
        ("courgettes", "no", "none left", date(2028, 1, 10)),
        ("jam", "yes", "enough", date(2028, 6, 1)),
    )

    told = lasts_finding(foods)
    assert told == (
        "3 of 4 foods do not reach the new crop, roots past keeping by 28 Feb, "
        "peas eaten up by 12 Mar"
    )
    assert lasts_finding(foods.tail(2)) == "1 of 2 foods does not reach the new crop"


def test_where_every_food_lasts_the_doubtful_ones_are_counted() -> None:
    lasting = stood(
        ("jam", "yes", "enough", date(2028, 6, 1)), ("peas", "likely", "just about", MONDAY)
    )

    assert lasts_finding(lasting) == "All foods (2) reach their new crop, 1 of them just about"
    assert lasts_finding(lasting.head(1)) == "All foods (1) reach their new crop"


def test_the_heaviest_week_of_picking_is_told_in_the_households_own_unit() -> None:
    names = ["crop", "week", "expected_kg"]
    rows = [("pea", MONDAY, 9.0), ("bean", MONDAY, 1.0), ("pea", MONDAY + timedelta(weeks=1), 4.0)]
    harvest = pd.DataFrame(rows, columns=names)

    told = harvest_finding(harvest, "metric")
    assert told == "Heaviest picking: week of 1 Mar 2027, 10 kg of 2 crops"
    assert "22 lb" in harvest_finding(harvest, "US")
    assert harvest_finding(harvest.assign(expected_kg=0.0), "metric").startswith("Nothing")


def test_the_fullest_day_of_a_food_is_told_by_portions_and_in_its_own_units() -> None:
    weeks = [MONDAY + timedelta(weeks=place) for place in range(3)]
    portions = pd.DataFrame({"food": "beans", "day": weeks, "plan_portions": [10.0, 50.0, 0.0]})
    stock = pd.DataFrame(
        [(weeks[1], "jar", 12.0), (weeks[1], "pack", 7.0), (weeks[0], "jar", 90.0)],
        columns=["day", "unit", "jars"],
    )

    told = shelf_finding(portions, stock, "metric")
    assert told == (
        "Beans: most about 8 Mar 2027 (12 jars and 7 packs), none left from 15 Mar 2027"
    )
    bare = portions.assign(plan_portions=0.0)
    assert shelf_finding(bare, stock, "metric") == "Beans: none on the shelf by the plan"
