from contextvars import copy_context
from datetime import date

import pytest

from dashboard.words import about, capital, chance, count, day, listed, local, short_day, write_as


@pytest.mark.parametrize(
    ("number", "words"),
    [(0, "0"), (0.058, "0.06"), (0.5, "0.5"), (5.05, "5"), (12.6, "13"), (1234, "1,200")],
)
def test_a_forecast_has_at_most_two_significant_figures(number: float, words: str) -> None:
    assert about(number) == words


@pytest.mark.parametrize(
    ("share", "words"),
    [
        (0.0, "hardly ever"),
        (0.03, "under 1 year in 10"),
        (0.12, "1 year in 10"),
        (0.52, "5 years in 10"),
        (0.97, "over 9 years in 10"),
        (1.0, "nearly always"),
    ],
)
def test_a_chance_is_told_in_tenths_of_years(share: float, words: str) -> None:
    assert chance(share) == words


def test_long_lists_are_counted_and_short_ones_told() -> None:
    assert listed(["a"]) == "a"
    assert listed(["a", "b", "c"]) == "a, b and c"
    assert listed(["a", "b", "c", "d", "e"]) == "a, b, c and 2 more"
    assert listed(["peas", "onions and garlic"]) == "peas, and onions and garlic"
    assert count(1, "jar") == "1 jar"


@pytest.mark.parametrize(
    ("form", "whole", "short"),
    [
        ("28 Nov 2027", "3 Apr 2027", "3 Apr"),
        ("Nov 28, 2027", "Apr 3, 2027", "Apr 3"),
        ("2027-11-28", "2027-04-03", "Apr 3"),
    ],
)
def test_a_day_is_written_as_the_household_writes_it(form: str, whole: str, short: str) -> None:
    here = copy_context()
    here.run(write_as, form, "UK")

    assert here.run(day, date(2027, 4, 3)) == whole
    assert here.run(short_day, date(2027, 4, 3)) == short
    assert day(date(2027, 4, 3)) == "3 Apr 2027"


def test_a_text_that_begins_with_a_capital_keeps_its_names_and_months() -> None:
    assert capital("kitchen freezer written off, on 10 Jan") == (
        "Kitchen freezer written off, on 10 Jan"
    )
    assert capital("") == ""


def test_a_name_is_said_in_the_household_s_own_words() -> None:
    here = copy_context()
    here.run(write_as, "Nov 28, 2027", "US")

    assert here.run(local, "Frozen courgettes") == "Frozen zucchini"
    assert local("Frozen courgettes") == "Frozen courgettes"
