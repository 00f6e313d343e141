"""The year's review balances; next year's draft is a sum that a person can redo."""

from dataclasses import replace
from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

import model
from model.case import make_case
from model.outlook.headings import HEADINGS
from model.outlook.next_year_table import largest_changes, next_year_table
from model.outlook.review_table import review_table
from model.season.garden import GardenSeason
from model.season.next_year import next_garden_year
from model.season.record import (
    EATEN,
    GIVEN,
    LOST,
    NOT_AGAIN,
    RAN_OUT,
    RIGHT,
    TOO_MUCH,
    WHYS,
    Meant,
    SealCheck,
    Verdict,
)
from model.season.season import Season
from tests.recorded import JARS, PACKS, batch, count, recorded, took

YEAR, END = "2027", date(2027, 12, 31)
AUGUST, SEPTEMBER = date(2027, 8, 16), date(2027, 9, 20)


def one(season: Season, preserve: str) -> dict[str, object]:
    table = review_table(make_case(season, END), YEAR).set_index("preserve")
    return dict(table.loc[preserve])


def draft(season: Season, verdict: str) -> dict[str, object]:
    said = (Verdict(YEAR, PACKS, verdict),)
    told = replace(season, record=replace(season.record, verdicts=said))
    planned = model.plan_season(told, END, years=2)
    return dict(next_year_table(planned, YEAR).set_index("preserve").loc[PACKS])


def packs(
    made: float, eaten: float, *, on: date = date(2027, 12, 27), put_up: date = date(2027, 11, 1)
) -> Season:
    """Give packs put up on a day, some of them eaten on another."""
    return recorded(
        batches=(batch("F", put_up, made, preserve=PACKS),),
        taken=(took(on, eaten, EATEN, preserve=PACKS),),
    )


def test_a_year_of_jars_from_meant_to_left() -> None:
    season = recorded(
        batches=(batch("A", AUGUST, 14), batch("A2", AUGUST, 1, again_of="A"), batch("B", END, 7)),
        checks=(SealCheck("A", AUGUST, 12, "reprocessed"), SealCheck("A2", AUGUST, 1, "")),
        counts=(count(date(2027, 3, 1), 3), count(date(2027, 12, 1), 5)),
        taken=(
            took(SEPTEMBER, 4, EATEN),
            took(SEPTEMBER, 1, GIVEN),
            took(SEPTEMBER, 2, LOST),
        ),
    )
    kept = (Meant(date(2027, 4, 1), JARS, 20), Meant(date(2027, 7, 1), JARS, 16))
    row = one(replace(season, record=replace(season.record, meant=kept)), JARS)

    assert row["meant_units"] == 16
    assert row["filled_units"] == 21
    assert row["unconfirmed_units"] == 7
    assert row["sealed_units"] == 13
    assert [row[f"{why}_units"] for why in ("eaten", "given", "lost")] == [4, 1, 2]
    # found 3 on 1 March; 9 by the book and 5 counted on 1 December
    assert row["unknown_units"] == 3 - 4
    assert row["left_units"] == 5
    assert row["ran_out"] is None


def test_a_year_is_reviewed_the_same_when_more_has_been_written_since() -> None:
    years = (GardenSeason("2026", date(2026, 1, 1), date(2026, 12, 31), normal=True),)
    season = recorded(
        batches=(batch("A", date(2026, 8, 16), 7), batch("open", date(2026, 12, 30), 7)),
        checks=(
            SealCheck("A", date(2026, 8, 17), 6, ""),
            SealCheck("open", date(2027, 1, 1), 7, ""),
        ),
        taken=(took(date(2026, 10, 1), 2, EATEN), took(date(2027, 2, 1), 1, EATEN)),
        counts=(count(date(2027, 3, 1), 5),),
    )
    season = replace(season, garden_seasons=years + season.garden_seasons)
    later = review_table(make_case(season, date(2027, 4, 1)), "2026")
    before = [event for event in season.counts if event.day.year == 2026]
    then = replace(season, counts=tuple(before))

    row = later.set_index("preserve").loc[JARS]
    assert (row["sealed_units"], row["left_units"], row["unconfirmed_units"]) == (6, 4, 7)
    assert later.equals(review_table(make_case(then, date(2026, 12, 31)), "2026"))


def test_what_nobody_wrote_down_has_no_row() -> None:
    assert list(review_table(make_case(packs(5, 1), END), YEAR)["preserve"]) == [PACKS]
    assert review_table(make_case(recorded(), END), YEAR).empty


def test_the_day_it_ran_out_is_the_day_after_the_last() -> None:
    season = packs(5, 5, on=date(2027, 12, 3))

    assert one(season, PACKS)["ran_out"] == date(2027, 12, 3)


@pytest.mark.parametrize(
    ("last", "out", "lost"), [(EATEN, 3, None), (GIVEN, 3, None), (LOST, None, 3)]
)
def test_what_was_lost_to_the_last_did_not_run_out(
    last: str, out: int | None, lost: int | None
) -> None:
    """A freezer that died is no sign that more should have been made."""
    season = recorded(
        batches=(batch("F", date(2027, 11, 1), 5, preserve=PACKS),),
        taken=(
            took(date(2027, 11, 9), 1, LOST if last == EATEN else EATEN, preserve=PACKS),
            took(date(2027, 12, 3), 4, last, preserve=PACKS),
        ),
        counts=(count(date(2027, 12, 20), 0, preserve=PACKS),),
    )
    row = one(season, PACKS)

    assert row["ran_out"] == (out and date(2027, 12, out))
    assert row["lost_out"] == (lost and date(2027, 12, lost))


def test_what_was_made_again_after_a_loss_and_eaten_ran_out() -> None:
    made = (batch("F", date(2027, 10, 1), 5, preserve=PACKS),)
    again = (batch("G", date(2027, 11, 1), 2, preserve=PACKS),)
    taken = (
        took(date(2027, 10, 9), 5, LOST, preserve=PACKS),
        took(date(2027, 12, 3), 2, EATEN, preserve=PACKS),
    )
    row = one(recorded(batches=made + again, taken=taken), PACKS)

    assert (row["ran_out"], row["lost_out"]) == (date(2027, 12, 3), None)


takings = st.tuples(
    st.dates(date(2027, 1, 1), END), st.integers(0, 9), st.sampled_from(WHYS), st.booleans()
)
fills = st.tuples(st.dates(date(2027, 1, 1), END), st.integers(1, 14), st.floats(0, 1))


@given(
    made=st.lists(fills, max_size=5),
    taken=st.lists(takings, max_size=8),
    counted=st.lists(st.tuples(st.dates(date(2027, 1, 1), END), st.integers(0, 20)), max_size=3),
)
def test_every_jar_of_the_year_is_accounted_for(
    made: list[tuple[date, int, float]],
    taken: list[tuple[date, int, str, bool]],
    counted: list[tuple[date, int]],
) -> None:
    season = recorded(
        batches=tuple(batch(str(n), day, filled) for n, (day, filled, _) in enumerate(made)),
        checks=tuple(
            SealCheck(str(n), day, round(share * filled), "")
            for n, (day, filled, share) in enumerate(made)
        ),
        taken=tuple(took(day, units, why) for day, units, why, _ in taken),
        counts=tuple(count(day, units) for day, units in counted),
    )
    for row in review_table(make_case(season, END), YEAR).to_dict("records"):
        leaves = row["eaten_units"] + row["given_units"] + row["lost_units"]
        comes = row["opening_units"] + row["sealed_units"] + row["unknown_units"]
        assert row["left_units"] == pytest.approx(comes - leaves)
        assert row["sealed_units"] <= row["filled_units"]
        assert row["left_units"] >= 0


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
    for verdict in (RIGHT, TOO_MUCH, RAN_OUT):
        row = draft(packs(90, 5), verdict)
        assert row["carry_units"] >= row["used_units"]
        assert row["next_units"] == 0
        assert "a year's use and more is still there" in row["working"]


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
