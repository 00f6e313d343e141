"""Harvest expected against picked: which crop is told, by how much, and how it is drawn."""

from datetime import date

import pandas as pd
import pytest

from dashboard.picked import (
    EARLY,
    crop_days,
    crop_finding,
    day_figures,
    picked_finding,
    picked_now,
    picked_rows,
    standing_words,
    worst_first,
)

TODAY, LATER = date(2027, 8, 18), date(2027, 9, 6)
DAYS = [date(2027, 8, 9), date(2027, 8, 16), TODAY, date(2027, 8, 23)]


def season(crop: str, expected: list[float], picked: list[float | None]) -> pd.DataFrame:
    return pd.DataFrame(
        {
            "crop": crop,
            "day": DAYS,
            "expected_kg": expected,
            "low_kg": [0.5 * kg for kg in expected],
            "high_kg": [2.0 * kg for kg in expected],
            "picked_kg": picked,
        }
    )


def standing(*rows: tuple[str, float, float, str]) -> pd.DataFrame:
    progress = pd.DataFrame(rows, columns=["crop", "picked_kg", "expected_kg", "status"])
    progress["judged_from"] = [LATER if row[3] == EARLY else None for row in rows]
    table = pd.concat(
        [
            season(crop, [0.0, expected / 2, expected, 2 * expected], [0.0, 0.0, picked, None])
            for crop, picked, expected, _ in rows
        ]
    )
    return picked_now(table, progress, TODAY)


def test_what_can_be_said_of_a_crop_now_is_told_and_else_from_when() -> None:
    now = standing(("leek", 3.0, 1.0, EARLY), ("tomato", 14.0, 20.0, "behind"))
    told = {row["crop"]: standing_words(row) for _, row in now.iterrows()}

    assert told["leek"] == (
        "Too early to say: 50% of an ordinary season was due by now. It can be said from about "
        "6 Sep 2027, when a sixth of it is."
    )
    assert told["tomato"].startswith("Behind: a quarter or more is missing")


@pytest.mark.parametrize(
    ("picked", "expected", "told"),
    [
        (14.0, 17.5, "Tomato: 14 kg picked, 20% less than the 18 kg expected by now"),
        (22.0, 20.0, "Tomato: 22 kg picked, 10% more than the 20 kg expected by now"),
        (19.5, 20.0, "Tomato: 20 kg picked, as expected by now"),
        (3.0, 0.0, "Tomato: 3 kg picked, before any was expected"),
        (0.0, 0.0, "Tomato: 0 kg picked, none expected yet"),
    ],
)
def test_a_crop_is_told_by_what_it_is_off(picked: float, expected: float, told: str) -> None:
    assert crop_finding("tomato", picked, expected, "metric") == told


def test_the_crop_furthest_behind_in_kilograms_is_told_and_its_like_are_counted() -> None:
    now = standing(
        ("tomato", 14.0, 17.5, "on track"),
        ("plum", 2.0, 4.0, "behind"),
        ("onion", 30.0, 60.0, "behind"),
    )

    told = picked_finding(now, "metric")
    assert told == "Onion: 30 kg picked, 50% less than the 60 kg expected by now; 1 more behind"
    assert worst_first(now)[0] == "onion"
    assert "66 lb" in picked_finding(now, "US")


def test_without_a_crop_behind_the_one_that_is_off_most_is_told() -> None:
    now = standing(("pea", 10.0, 10.0, "on track"), ("bean", 30.0, 20.0, "ahead"))

    assert picked_finding(now, "metric").startswith("Bean: 30 kg picked, 50% more than")


def test_what_cannot_be_judged_yet_is_not() -> None:
    early = standing(("pea", 0.1, 1.0, "too early to say"), ("bean", 0.0, 1.0, "too early to say"))
    bare = standing(("pea", 0.0, 4.0, "nothing logged"))

    assert picked_finding(early, "metric") == "Too early to say: 2 crops have only begun"
    assert picked_finding(bare, "metric").endswith("an ordinary year gives 4 kg by now")


def test_shares_are_of_the_whole_crop_of_an_ordinary_year_and_are_bounded() -> None:
    now = standing(("pea", 5.0, 10.0, "behind"), ("bean", 90.0, 10.0, "ahead"))
    pea = now[now["crop"] == "pea"].iloc[0]

    assert (pea["picked_share"], pea["expected_share"]) == (0.25, 0.5)
    assert (pea["low_share"], pea["high_share"]) == (0.25, 1.0)
    assert now["picked_share"].max() == 2.0
    rows = picked_rows(now, "metric")
    assert list(rows["behind"]) == ["no", "yes"]
    assert list(rows["label"]) == ["90 kg, 10 due", "5 kg, 10 due"]
    table = season("leek", [0.0, 0.0, 0.0, 8.0], [0.0, 0.0, 26.0, None])
    progress = pd.DataFrame([{"crop": "leek", "picked_kg": 26.0, "status": EARLY}])
    early = picked_now(table, progress.assign(judged_from=LATER), TODAY)
    assert list(picked_rows(early, "metric")["label"]) == ["26 kg, none due"]


def test_before_anything_is_due_nothing_is_drawn() -> None:
    empty = pd.DataFrame(columns=["crop", "picked_kg", "status"])

    assert picked_now(season("pea", [0.0] * 4, [0.0] * 4), empty, TODAY).empty
    assert picked_now(pd.DataFrame(columns=["crop", "day"]), empty, TODAY).empty


def test_one_crops_season_is_drawn_and_told_in_the_households_own_unit() -> None:
    table = season("pea", [0.0, 10.0, 12.0, 20.0], [0.0, 4.0, 5.0, None])
    days, unit = crop_days(table, "pea", "US")
    figures = day_figures(table, "pea", "US")

    assert unit == "lb"
    assert days["expected"].iloc[1] == pytest.approx(22.0462, abs=1e-3)  # 10 kg; NIST SP 811
    assert list(figures["picked_kg"].iloc[-2:]) == ["11 lb", ""]
