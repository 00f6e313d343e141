"""The label of a batch: what it says, and that its code is the one of the record."""

from datetime import date
from itertools import islice

from model.outlook.label_text import LONGEST_CODE, free_codes, label_of
from model.season.season import Season
from tests.recorded import JARS, PACKS, batch, recorded

DAY = date(2027, 8, 16)


def test_a_label_says_product_size_date_code_method_and_place() -> None:
    """USDA AIB 539, guide 1, has stored jars labelled and dated; the rest is common practice."""
    season = recorded(batches=(batch("2027-08-16 whole tomatoes 2", DAY, 7),))
    label = label_of(season, season.record.batches[0])

    assert label.lines() == (
        "whole tomatoes",
        "quart, 2027-08-16",
        "boiling water; shelf",
        "2027-08-16 whole tomatoes 2",
    )
    assert label.lines(lambda day: f"{day.day}/{day.month}")[1] == "quart, 16/8"


def test_what_is_frozen_names_its_pack_and_freezer() -> None:
    season = recorded(batches=(batch("A", DAY, 4, preserve=PACKS),))

    assert label_of(season, season.record.batches[0]).lines()[1:3] == (
        "pack, 2027-08-16",
        "freeze; freezer",
    )


def codes(season: Season, preserve: str = JARS) -> list[str]:
    return list(islice(free_codes(season, DAY, preserve), 3))


def test_each_load_of_a_day_gets_a_code_of_its_own_and_none_twice() -> None:
    used = recorded(batches=(batch("2027-08-16 whole tomatoes 2", DAY, 7),))

    assert codes(used) == [
        "2027-08-16 whole tomatoes",
        "2027-08-16 whole tomatoes 3",
        "2027-08-16 whole tomatoes 4",
    ]
    assert codes(recorded())[1] == "2027-08-16 whole tomatoes 2"


def test_a_code_stays_a_name_however_long_the_preserve_is_called() -> None:
    assert {len(code) for code in codes(recorded(), "x" * 80)} == {LONGEST_CODE, LONGEST_CODE + 2}
