import pytest

from model.reference.lookup import product, products
from model.reference.words import words


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ("Pumpkin purée", "puree, PUMPKIN"),
        ("peaches", "Peach"),
        ("tomatoes and cherries", "cherry and tomato"),
        ("zucchinis", "zucchini"),
        ("squashes", "squash"),
        ("bread-and-butter pickles", "Bread and Butter Pickle"),
    ],
)
def test_capitals_accents_plurals_and_order_make_no_other_name(one: str, other: str) -> None:
    assert words(one) == words(other)


@pytest.mark.parametrize(
    ("inside", "name"),
    [("oil", "boiled eggs"), ("egg", "eggplant"), ("rice", "licorice"), ("pea", "peaches")],
)
def test_a_word_inside_another_is_not_that_word(inside: str, name: str) -> None:
    assert not words(inside) <= words(name)


def test_every_tested_product_is_found_by_its_words_and_by_no_others() -> None:
    assert len({words(name) for name in products()}) == len(products())
    assert product("dilled beans")["product"] == "Beans, dilled"
    for name in products():
        assert product(name.upper())["product"] == name
