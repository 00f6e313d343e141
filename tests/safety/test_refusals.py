"""Refusals. Sources: USDA AIB 539 guides 1-6; Michigan State University Extension 01600948."""

from fractions import Fraction

import pytest

from model.errors import NoTestedProcess
from model.reference.lookup import products
from model.safety.process_times import process_time
from model.safety.refusals import why_not

OFFER = "tested recipe: "


def offers(name: str) -> set[str]:
    _, ways = why_not(name)
    found = {way.removeprefix(OFFER) for way in ways if way.startswith(OFFER)}
    return {name.removesuffix(" (hot pack only)") for name in found}


@pytest.mark.parametrize(
    ("food", "reason"),
    [
        ("garlic in oil", "in oil"),
        ("Pesto", "in oil"),
        ("pumpkin puree", "dense pack"),
        ("pumpkin purée", "dense pack"),
        ("pureed pumpkin", "dense pack"),
        ("butternut puree", "dense pack"),
        ("carrot puree", "dense pack"),
        ("refried beans", "dense pack"),
        ("mashed squash", "dense pack"),
        ("pumpkin butter", "dense pack"),
        ("cream of tomato soup", "milk"),
        ("lemon curd", "milk"),
        ("boiled eggs", "milk"),
        ("moon cheese", "milk"),
        ("chicken noodle soup", "starch"),
        ("tomato sauce with meat", "meat"),
        ("smoked salmon", "fish"),
        ("squash soup", "soup"),
        ("vegetable stock", "soup"),
        ("broccoli", "no tested"),
        ("eggplant", "aubergine"),
        ("spaghetti squash", "spaghetti squash"),
        ("Summer squash", "summer squash"),
        ("Asian pears", "less acid"),
        ("white peaches", "white"),
        ("white nectarine jam", "white"),
        ("Elderberries", "doubted"),
        ("my own sauce", "untested"),
        ("dragon fruit", "in the tables"),
    ],
)
def test_what_has_no_tested_process_is_refused_with_a_way_out(food: str, reason: str) -> None:
    with pytest.raises(NoTestedProcess, match=reason) as refusal:
        process_time(food, "boiling water", "hot", "pint", Fraction(0))

    assert any("freeze" in way for way in refusal.value.ways)


@pytest.mark.parametrize("food", ["boiled beans", "licorice", "price", "crab apples"])
def test_a_word_inside_a_word_gives_no_reason(food: str) -> None:
    reason, _ = why_not(food)

    assert repr(food) in reason


@pytest.mark.parametrize(
    "food",
    [
        *("Elderberries", "white nectarine jam", "pumpkin butter", "carrot puree", "pumpkin soup"),
        *("tomato sauce with meat", "spaghetti squash", "Asian pears", "garlic in oil"),
        *("dragon fruit", "peers", "roast unicorn", ""),
    ],
)
def test_no_process_of_another_food_is_offered(food: str) -> None:
    assert not offers(food)


def test_plain_summer_squash_is_offered_its_own_pickle_only() -> None:
    assert offers("Summer squash") == {"Zucchini, bread-and-butter"}


@pytest.mark.parametrize(
    ("food", "crop", "product"),
    [
        ("pears", "pear", "Pears, halved or sliced"),
        ("Peaches", "peach", "Peaches, halved or sliced"),
        ("plums", "plum", "Plums, halved or whole"),
        ("carrots", "carrot", "Carrots, sliced or diced"),
        ("kale", "kale", "Spinach and other greens"),
        ("potatoes", "potato", "Potatoes, white, cubed or whole"),
        ("butternut squash", "winter squash", "Pumpkin and winter squash, cubed"),
        ("green beans", "bush bean", "Beans, snap (green, wax, Italian), pieces"),
    ],
)
def test_a_plain_crop_is_answered_with_its_tested_products(
    food: str, crop: str, product: str
) -> None:
    reason, ways = why_not(food)

    assert "no tested process" not in reason
    assert product in offers(food)
    assert all(crop in products()[name]["crops"].split(";") for name in offers(food))
    assert "freeze" in ways


def test_a_crop_that_is_not_grown_here_is_answered_by_the_name_of_the_product() -> None:
    assert "Apricots, halved or sliced" in offers("apricots")
    assert offers("grape juice please") == set()


def test_berries_that_are_only_packed_hot_are_offered_so() -> None:
    _, ways = why_not("gooseberries")

    assert "tested recipe: Berries, whole (hot pack only)" in ways
    assert "tested recipe: Berries, whole" in why_not("raspberries")[1]


def test_sauerkraut_is_kept_cold_frozen_or_put_up_by_a_current_recipe() -> None:
    _, ways = why_not("sauerkraut")

    assert ways == [
        "keep it cold, under its brine",
        "freeze",
        "follow a current tested recipe",
    ]


def test_every_offer_in_the_table_of_refusals_is_a_tested_product() -> None:
    for name in ("cauliflower", "courgettes"):
        assert offers(name)
        assert offers(name) <= set(products())
