"""A smaller jar is proposed only with a tested process. Source of the times: USDA AIB 539, 2015."""

from dataclasses import replace
from fractions import Fraction

from model.safety.smaller_jar import smaller_jar
from tests.recorded import JARS, PACKS
from tests.small_season import TABLES, small_season


def test_a_quart_of_tomatoes_goes_into_the_household_s_pint_with_the_pint_s_time() -> None:
    """AIB 539 guide 3, tomatoes in water, hot pack, 1,001-3,000 ft: pint 45 min, quart 50."""
    season = small_season()
    preserve = season.preserve(JARS)
    smaller = smaller_jar(season, preserve)

    assert preserve.process is not None
    assert preserve.process.minutes == 50
    assert smaller is not None
    assert (smaller.name, smaller.process.jar, smaller.process.minutes) == ("pint", "pint", 45)


def test_a_jar_below_every_tested_size_keeps_the_time_of_the_next_larger_one() -> None:
    season = small_season(
        jars=TABLES["jars.csv"] + "small,228,30,40\n",
        equipment=TABLES["equipment.csv"] + "pan,boiling-water canner,small,12\n",
    )
    smaller = smaller_jar(season, season.preserve("sauce"))

    assert smaller is not None
    assert (smaller.name, smaller.process.jar) == ("small", "pint")
    assert smaller.process == season.preserve("sauce").process


def test_without_a_smaller_jar_of_its_own_a_size_of_the_tables_is_named() -> None:
    smaller = smaller_jar(small_season(), small_season().preserve("sauce"))

    assert smaller is not None
    assert smaller.name == "half-pint"


def test_where_the_tables_end_or_nothing_is_canned_none_is_proposed() -> None:
    season = small_season()
    too_high = replace(season, altitude_ft=Fraction(9000))

    assert smaller_jar(too_high, season.preserve(JARS)) is None
    assert smaller_jar(season, season.preserve(PACKS)) is None
