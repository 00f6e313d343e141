"""Store lives against published tables and against each other."""

from dataclasses import replace

import pytest

from model.reference.lookup import keeping, settings
from model.reference.read import table
from model.reference.store_life import MISFITS, harm, store_conditions, store_life
from model.season.kitchen import Place

CELLAR = Place("cellar", "root store", 100.0, 0.0)
STORED = [row["crop"] for row in table("keeping") if row["method"] == "root store"]


def cellar(temp_c: float | None, humidity_percent: float | None = None) -> Place:
    return replace(CELLAR, temp_c=temp_c, humidity_percent=humidity_percent)


def test_every_crop_with_a_store_life_says_what_air_it_wants() -> None:
    assert sorted(row["crop"] for row in table("store_conditions")) == sorted(STORED)
    for crop in STORED:
        wanted = store_conditions(crop)
        assert wanted is not None
        assert wanted.temp_c_low <= wanted.temp_c_high
        assert 40 <= wanted.humidity_percent_low <= wanted.humidity_percent_high <= 100


@pytest.mark.parametrize(
    ("crop", "temps_f", "humidity"),
    [
        # University of Massachusetts Extension, Optimal storage conditions of fall storage crops:
        # carrots and beets 32 F, 98-100 % and 95 %; garlic 32 F, 65-70 %
        ("carrot", (32, 32), (98, 100)),
        ("beetroot", (32, 32), (95, 95)),
        ("garlic", (32, 32), (65, 70)),
        # USDA Agriculture Handbook 66 (1954): potatoes 38-40 F, 85-90 %; winter squash
        # 50-55 F, 70-75 %
        ("potato", (38, 40), (85, 90)),
        ("winter squash", (50, 55), (70, 75)),
    ],
)
def test_the_published_air_lies_in_the_band(
    crop: str, temps_f: tuple[float, float], humidity: tuple[float, float]
) -> None:
    wanted = store_conditions(crop)
    assert wanted is not None

    low_c, high_c = ((f - 32) * 5 / 9 for f in temps_f)
    assert wanted.temp_c_low - 0.3 <= low_c <= high_c <= wanted.temp_c_high + 0.3
    assert wanted.humidity_percent_low <= humidity[0] <= humidity[1]
    assert humidity[1] <= wanted.humidity_percent_high


@pytest.mark.parametrize("crop", STORED)
def test_the_worse_the_air_the_shorter_the_life_and_the_larger_the_loss(crop: str) -> None:
    wanted, published = store_conditions(crop), keeping("root store", crop)
    assert wanted is not None
    assert published is not None
    best = cellar(wanted.temp_c_high, wanted.humidity_percent_low)
    lives = [
        store_life(crop, place, settings())
        for place in (None, best, cellar(wanted.temp_c_high + 3.0), cellar(25.0))
    ]
    unknown, suits, warm, room = (life for life in lives if life is not None)

    assert unknown == suits
    assert (suits.weeks_low, suits.weeks_high) == (published.weeks_low, published.weeks_high)
    assert published.weeks_low <= suits.planned_weeks <= published.weeks_high + 0.5
    assert warm.weeks_low <= suits.weeks_low
    assert room.planned_weeks <= warm.planned_weeks <= suits.planned_weeks
    assert room.loss_per_week == warm.loss_per_week > suits.loss_per_week > 0


def test_each_way_of_being_wrong_has_its_name() -> None:
    told = [
        store_life("potato", place, settings())
        for place in (cellar(0.0), cellar(9.0), cellar(4.0, 60.0), cellar(4.0, 100.1))
    ]

    assert [life.misfits for life in told if life] == [(word,) for word in MISFITS]


def test_roots_in_a_warm_room_keep_days_and_not_months() -> None:
    """Common practice, no source: carrots hold four to seven days in a room of 15 C."""
    life = store_life("carrot", cellar(18.0), settings())

    assert life is not None
    assert life.planned_weeks == 1


def test_apples_harm_potatoes_carrots_and_cabbage_and_damp_harms_onions() -> None:
    """Massachusetts Extension: apples turn carrots bitter; the rest common practice, no source."""
    assert "bitter" in harm("carrot", "apple")
    assert harm("potato", "apple")
    assert harm("cabbage", "apple")
    assert "damp" in harm("onion", "too damp")
    assert harm("apple", "carrot") == ""


def test_a_crop_that_is_not_stored_has_no_store_life() -> None:
    assert store_life("tomato", CELLAR, settings()) is None
