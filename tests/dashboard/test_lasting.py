"""One meaning of enough, and what none left means beside gone by a day."""

from datetime import date, timedelta

import pandas as pd
import pytest

from dashboard.findings import winter_headline
from dashboard.lasting import lasting_rows, lasting_words, pace_words, shortfall_rows, until_rows
from dashboard.words import PLATE

TODAY = date(2028, 1, 10)
CROP = date(2028, 8, 1)


def food(name: str, chance: float, until: date, in_hand: float = 1.0, begins: date = TODAY) -> dict:
    return {
        "food": name,
        "chance_lasts": chance,
        "begins": begins,
        "lasts_low": until,
        "lasts_until": until,
        "lasts_high": until,
        "new_crop": CROP,
        "keeps_until": None,
        "level_portions": 0.0,
        "use_up_portions": in_hand,
        "met_portions": 10.0,
        "fresh_portions": 10.0,
        "wanted_portions": 20.0,
        "on_plate": True,
    }


def shown(*rows: dict) -> pd.DataFrame:
    return lasting_rows(pd.DataFrame(rows), TODAY, 0.5)


@pytest.mark.parametrize(
    ("chance", "standing"),
    [
        (1.0, "enough"),
        (0.8, "enough"),
        (0.79, "just about"),
        (0.5, "just about"),
        (0.49, "gives out"),
    ],
)
def test_enough_means_eight_years_of_ten_everywhere(chance: float, standing: str) -> None:
    until = CROP if chance >= 0.5 else date(2028, 4, 3)
    rows = shown(food("beans", chance, until))

    assert rows["standing"].tolist() == [standing]
    assert rows["label"].tolist() == [standing if standing != "gives out" else "3 Apr"]
    assert lasting_words(rows)["standing"].tolist() == [standing]
    headline = winter_headline(rows)
    assert ("Enough until the new crop: beans" in headline) == (standing == "enough")
    assert ("Just about enough: beans" in headline) == (standing == "just about")
    assert ("First to give out: **beans**" in headline) == (standing == "gives out")


def test_none_left_is_told_apart_from_gone_by_a_day() -> None:
    later = TODAY + timedelta(weeks=8)
    rows = shown(
        food("peas", 0.0, TODAY, in_hand=0.0),
        food("corn", 0.0, later, in_hand=0.0, begins=later),
        food("beans", 0.0, date(2028, 3, 6)),
    ).set_index("food")

    assert rows["label"].to_dict() == {
        "peas": "none left",
        "corn": "none put up",
        "beans": "6 Mar",
    }
    headline = winter_headline(rows.reset_index())
    assert "First to give out: **beans**, about 6 Mar 2028" in headline
    assert "None left: peas." in headline
    assert "None put up: corn." in headline


def test_what_the_plan_puts_up_is_not_said_to_be_put_up_by_nobody() -> None:
    later = TODAY + timedelta(weeks=8)
    jam = food("jam", 0.1, later, in_hand=0.0, begins=later) | {"fresh_portions": 0.0}
    rows = shown(jam)

    assert rows["standing"].tolist() == ["seldom any"]
    assert "Seldom any: jam." in winter_headline(rows)


def test_of_what_is_not_there_no_day_is_told_by_which_it_is_gone() -> None:
    later = TODAY + timedelta(weeks=8)
    rows = shown(
        food("peas", 0.0, TODAY, in_hand=0.0),
        food("corn", 0.0, later, in_hand=0.0, begins=later),
    )

    assert lasting_words(rows)[["lasts_until", "lasts_low"]].to_numpy().tolist() == [["", ""]] * 2
    assert shortfall_rows(rows)["lasts_until"].tolist() == ["", ""]


def test_jars_that_stand_after_the_day_on_which_a_food_is_gone_say_at_whose_pace() -> None:
    rows = shown(food("beans", 0.0, date(2028, 3, 6)), food("corn", 1.0, CROP))
    gone, lasts = (pace_words(rows[rows["food"] == name]) for name in ("beans", "corn"))

    assert gone.endswith("Eaten as everyone wants, it is gone about 6 Mar 2028.")
    assert lasts == pace_words(rows[rows["food"] == "peas"])
    assert "plan's own pace" in lasts
    assert "gone" not in lasts


def test_the_plate_goes_by_the_same_name_in_every_place() -> None:
    rows = shown(food(PLATE, 0.1, date(2028, 5, 1)), food("beans", 0.9, CROP))

    assert rows["food"].tolist() == ["half the plate", "beans"]
    assert winter_headline(rows).startswith("No: half the plate can be filled until **1 May 2028**")
    assert lasting_words(rows)["food"].tolist()[0] == "half the plate"
    empty = shown(food(PLATE, 0.0, TODAY))
    never = "No: half the plate cannot be filled from 10 Jan 2028 on"
    assert winter_headline(empty).startswith(never)


def test_of_a_shelf_nobody_counted_only_the_new_crops_are_known() -> None:
    later = {**food("beans", 0.0, TODAY, in_hand=0.0), "new_crop": date(2028, 9, 1)}
    foods = shown(food(PLATE, 0.0, TODAY), later, food("tomatoes", 0.0, TODAY, in_hand=0.0))
    rows = until_rows(foods)

    assert list(rows.columns) == ["food", "new_crop"]
    assert rows.to_numpy().tolist() == [["tomatoes", "1 Aug 2028"], ["beans", "1 Sep 2028"]]
