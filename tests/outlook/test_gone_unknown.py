"""What counts found missing is taken as eaten in its own days, as far as it can have been."""

from datetime import date

import pytest

from model.season.record import RIGHT, TOO_MUCH
from tests.outlook.test_next_year import draft
from tests.recorded import PACKS, batch, count, recorded


def test_what_went_unknown_is_taken_as_eaten_and_says_so() -> None:
    season = recorded(
        batches=(batch("F", date(2027, 11, 1), 9, preserve=PACKS),),
        counts=(count(date(2027, 12, 27), 4, preserve=PACKS),),
    )
    row = draft(season, RIGHT)

    assert row["used_units"] == 5
    assert "5 gone unknown and taken as eaten" in row["working"]


def test_what_a_count_finds_missing_is_spread_over_the_days_since_it_was_seen() -> None:
    # 8 missing over the 202 days from 13 September to 2 April; 92 of them from January on,
    # where the year before the end of 2027 begins: 8 x 92 / 202 = 3.64
    made, counted = date(2026, 9, 12), date(2027, 4, 2)
    season = recorded(
        batches=(batch("F", made, 10, preserve=PACKS),),
        counts=(count(counted, 2, preserve=PACKS, put_up=made),),
    )
    row = draft(season, RIGHT)

    assert row["as_eaten_units"] == pytest.approx(8 * 92 / 202)
    assert row["used_units"] == row["as_eaten_units"]


def test_a_count_that_finds_far_too_little_is_not_taken_as_eating() -> None:
    # counted 40, and 3 two days later: nobody eats 37 packs in two days
    made, first, partial = date(2027, 11, 1), date(2027, 12, 27), date(2027, 12, 29)
    season = recorded(
        batches=(batch("F", made, 40, preserve=PACKS),),
        counts=(
            count(first, 40, preserve=PACKS, put_up=made),
            count(partial, 3, preserve=PACKS, put_up=made),
        ),
    )
    row = draft(season, RIGHT)

    assert row["as_eaten_units"] + row["doubtful_units"] == pytest.approx(37)
    assert row["as_eaten_units"] < 3
    assert row["next_units"] < 20
    assert "beyond twice what is wanted in that time: not taken as eaten" in row["working"]


def test_what_is_found_again_was_not_eaten() -> None:
    made, days = date(2027, 11, 1), (date(2027, 12, 20), date(2027, 12, 27))
    season = recorded(
        batches=(batch("F", made, 9, preserve=PACKS),),
        counts=tuple(
            count(day, units, preserve=PACKS, put_up=made)
            for day, units in zip(days, (4, 8), strict=True)
        ),
    )

    assert draft(season, RIGHT)["used_units"] == 1


def test_of_what_was_too_much_no_more_than_is_wanted_is_taken_as_eaten() -> None:
    made, counted = date(2027, 11, 1), date(2027, 12, 27)
    season = recorded(
        batches=(batch("F", made, 60, preserve=PACKS),),
        counts=(count(counted, 0, preserve=PACKS),),
    )
    right, too_much = draft(season, RIGHT), draft(season, TOO_MUCH)

    assert right["as_eaten_units"] == pytest.approx(2 * too_much["as_eaten_units"])
    assert "beyond what is wanted in that time" in too_much["working"]
