import pytest

from model.reference.lookup import crop
from model.reference.read import table
from model.reference.tongues import in_tongue

TONGUES = ("US", "UK")


@pytest.mark.parametrize(
    ("us", "uk"),
    [
        ("frozen zucchini", "frozen courgettes"),
        ("eggplant", "aubergine"),
        ("Rutabaga", "Swede"),
        ("black currant jam", "blackcurrant jam"),
        ("Pantry: eat first", "Larder: eat first"),
        ("Sweet corn is short, and pickled beets", "Sweetcorn is short, and pickled beetroot"),
    ],
)
def test_a_name_is_said_in_us_and_in_uk_words(us: str, uk: str) -> None:
    assert in_tongue(uk, "US") == us
    assert in_tongue(uk, "UK") == uk


def test_only_whole_words_are_changed() -> None:
    for text in ("acorn squash", "fall short of the plan", "pressure canner", "corn relish"):
        for tongue in TONGUES:
            assert in_tongue(text, tongue) == text


@pytest.mark.parametrize("tongue", TONGUES)
def test_a_word_said_twice_is_said_the_same(tongue: str) -> None:
    for row in table("words_us_uk"):
        once = in_tongue(row["word"], tongue)
        assert once == row[tongue.lower()]
        assert in_tongue(once, tongue) == once


def test_the_words_of_one_crop_stay_that_crop() -> None:
    crops = {row["crop"] for row in table("crops")}
    for name in crops:
        for tongue in TONGUES:
            assert crop(in_tongue(name, tongue)).name == name
