import pytest

from dashboard.words import about, amount, chance, count, listed, part_units, units_of, weight


@pytest.mark.parametrize(
    ("number", "words"),
    [(0, "0"), (0.058, "0.06"), (0.5, "0.5"), (5.05, "5"), (12.6, "13"), (1234, "1,200")],
)
def test_a_forecast_has_at_most_two_significant_figures(number: float, words: str) -> None:
    assert about(number) == words


def test_weights_are_told_in_the_household_s_unit() -> None:
    assert weight(4.5359237, "US") == "10 lb"
    assert weight(4.5, "metric") == "4.5 kg"


def test_plants_are_whole_and_areas_keep_their_unit() -> None:
    assert amount(2.2, "plant", "metric") == "3 plants"
    assert amount(9.290304, "m2", "US") == "100 ft²"
    assert amount(3.048, "m of row", "US") == "10 ft of row"


@pytest.mark.parametrize(
    ("share", "words"),
    [
        (0.0, "hardly ever"),
        (0.03, "under 1 year in 10"),
        (0.52, "5 years in 10"),
        (0.97, "over 9 years in 10"),
        (1.0, "nearly always"),
    ],
)
def test_a_chance_is_told_in_tenths_of_years(share: float, words: str) -> None:
    assert chance(share) == words


def test_parts_of_jars_are_told_as_people_say_them() -> None:
    assert part_units(0.5, "jar") == "half a jar"
    assert part_units(1.0, "pack") == "1 pack"
    assert part_units(2.4, "jar") == "2½ jars"
    assert part_units(0.2, "jar") == "one jar in 5 weeks"
    assert units_of(3.2, "kg") == "3.2 kg"


def test_long_lists_are_counted_and_short_ones_told() -> None:
    assert listed(["a"]) == "a"
    assert listed(["a", "b", "c"]) == "a, b and c"
    assert listed(["a", "b", "c", "d", "e"]) == "a, b, c and 2 more"
    assert count(1, "jar") == "1 jar"
