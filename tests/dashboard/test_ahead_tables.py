"""Tables of what lies ahead, in words that a household reads."""

from datetime import date

import pandas as pd
import pytest

from dashboard.ahead_tables import learned_rows, sowing_rows, sowing_size_rows

SOWING = {
    "crop": ["beetroot", "cabbage"],
    "start_by": ["sow", "plant out"],
    "latest_nine": [date(2027, 8, 1), None],
    "latest_five": [date(2027, 8, 20), date(2027, 7, 2)],
    "latest_two": [date(2027, 9, 1), date(2027, 8, 1)],
    "chance_today": [1.0, 0.02],
    "beds_free": [2, 0],
    "free_bed": ["south", ""],
    "free_m2": [9.5, 0.0],
}
SIZES = {
    "crop": ["pepper", "pea", "kale"],
    "bed": "north",
    "amount": [14.0, 24.0, 6.0],
    "per": ["plant", "m2 of bed", "m2 of bed"],
    "preserve": ["pickled peppers", "frozen peas", ""],
    "at_once_kg": [2.3, 34.0, 2.5],
    "load_kg": [2.0, None, None],
    "load_amount": [12.2, None, None],
    "heaviest_kg": [2.3, 34.0, 1.5],
    "used_week_kg": [None, 9.0, 2.0],
    "sowings": [1, 2, 1],
    "days_apart": [None, 14.0, None],
}
LEARNED = {
    "learned": "eaten",
    "what": ["beans", "peas"],
    "unit": "portions a week",
    "usual": 10.0,
    "own": [7.0, 10.0],
    "own_low": 6.0,
    "own_high": 12.0,
    "rests_on": [3, 0],
    "evidence": "stretches between counts",
    "left_out": [0, 2],
}


def test_the_last_days_to_sow_fit_a_phone_and_name_one_bed() -> None:
    rows = sowing_rows(pd.DataFrame(SOWING), "metric")

    assert list(rows["crop"]) == ["beetroot", "cabbage (plant out)"]
    assert list(rows["latest_nine"]) == ["1 Aug", ""]
    assert list(rows["free_bed"]) == ["south 9.5 m², and 1 other", ""]
    two_years = pd.DataFrame(SOWING | {"latest_two": [date(2027, 9, 1), date(2028, 1, 2)]})
    assert list(sowing_rows(two_years, "metric")["latest_two"]) == ["1 Sep 2027", "2 Jan 2028"]


def test_a_sowing_for_the_canner_says_how_much_fills_a_load_and_others_in_how_many_parts() -> None:
    rows = sowing_size_rows(pd.DataFrame(SIZES), "metric")

    assert list(rows["crop"]) == ["pepper (north)", "pea (north)"]
    assert rows["sow_as"].iloc[0] == (
        "all together: 2.3 kg ripen at once, a full load of pickled peppers takes 2 kg; "
        "13 plants fill one"
    )
    assert rows["sow_as"].iloc[1] == (
        "in 2 parts, 14 days apart: its heaviest week gives 34 kg, of which 9 kg are used; "
        "even so 17 kg come"
    )


@pytest.mark.parametrize(
    ("place", "own", "rests_on"),
    [(0, "7", "3 stretches between counts"), (1, "as usual", "nothing: 2 left out")],
)
def test_what_rests_on_nothing_is_as_usual(place: int, own: str, rests_on: str) -> None:
    row = learned_rows(pd.DataFrame(LEARNED), "metric").iloc[place]

    assert (row["own"], row["rests_on"]) == (own, rests_on)


@pytest.mark.parametrize(
    ("units", "unit", "usual"), [("metric", "a m²", "3 kg"), ("US", "a ft²", "0.61 lb")]
)
def test_a_learned_yield_is_of_the_household_s_own_ground(
    units: str, unit: str, usual: str
) -> None:
    """3 kg/m2 x 2.20462 lb/kg x 0.092903 m2/ft2 = 0.614 lb/ft2."""
    learned = LEARNED | {"learned": "yield", "unit": "kg a m2 of bed", "usual": 3.0}
    row = learned_rows(pd.DataFrame(learned), units).iloc[0]

    assert (row["unit"], row["usual"]) == (unit, usual)
