"""What is planted in autumn for the year after is told in time, as long as nobody planned it."""

from datetime import date

from dashboard.autumn import autumn_words
from model import Season

# demo_data/alder_lane/plantings.csv: garlic of season 2027 was planted on 12 October 2026
GARLIC = date(2027, 10, 5)


def test_garlic_is_told_of_before_its_day_and_not_long_after_it(alder_lane: Season) -> None:
    told = autumn_words(alder_lane, GARLIC)

    assert told.startswith("**Garlic for next year: into the ground about 12 Oct.**")
    assert autumn_words(alder_lane, date(2027, 9, 20)) == ""
    assert autumn_words(alder_lane, date(2027, 11, 20)) == ""


def test_a_household_that_plants_nothing_in_autumn_is_told_nothing(tiny: Season) -> None:
    assert autumn_words(tiny, GARLIC) == ""
