"""Next year's first draft is a sum that a person can redo."""

from dataclasses import replace
from datetime import date

import pytest

import model
from model.case import make_case
from model.outlook.headings import HEADINGS
from model.outlook.next_year_table import largest_changes, next_year_table
from model.outlook.review_table import review_table
from model.season.next_year import next_garden_year
from model.season.record import (
    EATEN,
    NOT_AGAIN,
    RAN_OUT,
    RIGHT,
    TOO_MUCH,
    SealCheck,
    Verdict,
)
from model.season.season import Season
from tests.recorded import JARS, PACKS, batch, count, packs, recorded, took

YEAR, END = "2027", date(2027, 12, 31)


def draft(season: Season, verdict: str) -> dict[str, object]:
    said = (Verdict(YEAR, PACKS, verdict),)
    told = replace(season, record=replace(season.record, verdicts=said))
    planned = model.plan_season(told, END, years=2)
    return dict(next_year_table(planned, YEAR).set_index("preserve").loc[PACKS])


def test_what_was_right_is_made_again_as_it_was_used() -> None:
    row = draft(packs(10, 6, put_up=date(2027, 1, 1)), RIGHT)

    assert row["next_units"] == 6
    assert row["working"] == "6 eaten, rounded up = 6 packs to aim at"


def test_what_stood_there_for_part_of_a_year_is_aimed_at_for_all_of_it() -> None:
    # 61 days of November and December; 209 to the new crop (28 May 2028 and 60 days):
    # 6 x (61 + 209) / 61 = 26.6
    row = draft(packs(10, 6), RIGHT)

    assert row["next_units"] == 27
    assert "6 eaten + 0.098 a day x 209 days still to come" in row["working"]


def test_where_nobody_wrote_or_counted_what_was_eaten_as_many_are_aimed_at_as_before() -> None:
    made = recorded(batches=(batch("F", date(2027, 11, 1), 10, preserve=PACKS),))
    row = draft(made, RIGHT)

    assert row["next_units"] == 10
    assert row["working"].startswith("10 filled, rounded up = 10 packs to aim at, as before")
    assert row["working"].endswith("Count it first")
    # a count that finds all of them there knows that none was eaten
    seen = replace(made, counts=(count(END, 10, preserve=PACKS, put_up=date(2027, 11, 1)),))
    assert draft(seen, RIGHT)["next_units"] == 0
    assert draft(made, NOT_AGAIN)["next_units"] == 0


def test_what_keeps_no_year_is_aimed_at_for_as_long_as_it_keeps() -> None:
    """The winter after the year reviewed counts as far as it is over."""
    day = date(2028, 1, 29)
    season = packs(20, 9)
    (beans,) = (p for p in season.preserves if p.name == PACKS)
    kept = tuple(replace(p, keeps_weeks=20) if p is beans else p for p in season.preserves)
    following, plantings = next_garden_year(season, YEAR)
    both = replace(
        season,
        preserves=kept,
        garden_seasons=(*season.garden_seasons, following),
        plantings=(*season.plantings, *plantings),
    )
    table = next_year_table(model.plan_season(both, day, years=2), YEAR)
    row = table.set_index("preserve").loc[PACKS]

    # 1 November to 29 January are 90 days, 20 weeks are 140: 9 x 140 / 90 = 14
    assert row["used_units"] == 9
    assert row["next_units"] == 14
    assert row["carry_units"] == 0


def test_what_ran_out_is_stretched_over_the_weeks_it_was_missing() -> None:
    # to 29 November it stood there (333 days), from the 30th to the end (32 days) not:
    # 10 x 365 / 333 = 10.96
    row = draft(packs(10, 10, on=date(2027, 11, 30), put_up=date(2027, 1, 1)), RAN_OUT)

    assert row["missing_weeks"] == pytest.approx(32 / 7)
    assert row["next_units"] == 11


def test_where_nobody_said_that_it_ran_out_the_draft_says_what_is_left_out() -> None:
    row = draft(packs(10, 10, on=date(2027, 11, 30), put_up=date(2027, 1, 1)), "")

    assert row["next_units"] == 10
    assert (
        "not for the 4 weeks it was missing (say ran out where that was too few)" in row["working"]
    )
    said = draft(packs(10, 10, on=date(2027, 11, 30), put_up=date(2027, 1, 1)), RIGHT)
    assert "missing" not in said["working"]


def test_what_was_too_much_is_made_less_by_what_is_carried_over() -> None:
    # half a pack a day is eaten; at that pace nothing is left at the new crop in July:
    # 31 x (61 + 209) / 61 = 137.2
    assert draft(packs(40, 31), TOO_MUCH)["next_units"] == 138
    # 20 in 61 days; 209 days to the new crop (28 May 2028 and 60 days): 77 - 68.5 are left then,
    # and 20 x (61 + 209) / 61 = 88.5 are used in all
    row = draft(packs(97, 20), TOO_MUCH)
    assert row["carry_units"] == pytest.approx(77 - 20 / 61 * 209)
    assert row["next_units"] == 81


def test_not_again_and_a_carry_over_of_a_year_s_use_are_none() -> None:
    assert draft(packs(10, 6), NOT_AGAIN)["next_units"] == 0
    season = packs(90, 5)
    long = tuple(replace(own, keeps_weeks=104) for own in season.preserves)
    for verdict in (RIGHT, TOO_MUCH, RAN_OUT):
        row = draft(replace(season, preserves=long), verdict)
        assert row["carry_units"] >= row["used_units"]
        assert row["next_units"] == 0
        assert "a year's use and more is still there" in row["working"]


def test_what_is_past_keeping_before_the_next_winter_is_no_carry_over_for_it() -> None:
    """Frozen beans keep a year: those of August are no beans for the winter after the next."""
    row = draft(packs(90, 5, put_up=date(2027, 8, 1)), RIGHT)
    assert row["carry_units"] >= row["used_units"]
    assert row["next_units"] > 0

    older = draft(packs(97, 20, put_up=date(2027, 8, 1)), TOO_MUCH)
    assert "days that it keeps after the new crop" in older["working"]


def test_not_again_holds_until_the_household_says_otherwise(
    midwinter_plan: model.PlannedSeason,
) -> None:
    # demo_data/alder_lane/verdicts.csv: piccalilli was not wanted again after 2026
    row = next_year_table(midwinter_plan, "2027").set_index("preserve").loc["piccalilli"]

    assert (row["verdict"], row["next_units"]) == (NOT_AGAIN, 0)


def test_the_largest_changes_go_first_and_there_are_at_most_three() -> None:
    season = recorded(
        batches=tuple(
            batch(name, date(2027, 1, 1), made, preserve=name)
            for name, made in ((PACKS, 9), (JARS, 30), ("sauce", 9), ("dilled beans", 5))
        ),
        checks=tuple(
            SealCheck(name, date(2027, 1, 2), made, "")
            for name, made in ((JARS, 30), ("sauce", 9), ("dilled beans", 5))
        ),
        taken=tuple(
            took(date(2027, 12, 27), eaten, EATEN, preserve=name)
            for name, eaten in ((PACKS, 9), (JARS, 4), ("sauce", 7), ("dilled beans", 1))
        ),
    )
    table = next_year_table(model.plan_season(season, END, years=2), YEAR)
    changes = largest_changes(table)

    assert set(table.columns) <= set(HEADINGS)
    assert set(review_table(make_case(season, END), YEAR).columns) <= set(HEADINGS)
    assert next(iter(changes["preserve"])) == JARS
    assert PACKS not in set(changes["preserve"])
    assert len(changes) == 3
    sizes = list(changes["difference_portions"].abs())
    assert sizes == sorted(sizes, reverse=True)


def test_next_year_s_plantings_are_this_year_s_a_year_later(tiny: Season) -> None:
    following, plantings = next_garden_year(tiny, YEAR)

    assert (following.name, following.begins, following.ends) == (
        "2028",
        date(2028, 1, 1),
        date(2028, 12, 31),
    )
    assert [p.sown for p in plantings] == [date(2028, 5, 28), date(2028, 3, 20)]
    assert {p.season for p in plantings} == {"2028"}
    both = replace(
        tiny,
        garden_seasons=(*tiny.garden_seasons, following),
        plantings=(*tiny.plantings, *plantings),
    )
    assert model.plan_season(both, date(2028, 3, 1), years=2).case.forecast.year == following
    with pytest.raises(ValueError, match="a season after 2027 already"):
        next_garden_year(both, YEAR)
