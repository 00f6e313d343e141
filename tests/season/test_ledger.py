"""The book of the shelf: counts overrule, unknown is never eating, nothing falls below none."""

from dataclasses import replace
from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from model.season.kitchen import Counted, Gift
from model.season.ledger import COUNTED, Ledger, ledgers, stock
from model.season.record import EATEN, GIVEN, LOST, WHYS, SealCheck, Taken
from model.season.season import Season
from model.season.unseen_seals import unconfirmed
from tests.recorded import JARS, PACKS, batch, count, recorded, took

DAY = date(2027, 8, 16)
NEXT, WEEK, MONTH = (DAY + timedelta(days=n) for n in (1, 7, 30))
LAST = date(2027, 12, 31)


def jars(season: Season, today: date = LAST) -> Ledger:
    return ledgers(season, today)[JARS]


def packs(season: Season, today: date = LAST) -> Ledger:
    return ledgers(season, today)[PACKS]


def test_jars_come_onto_the_shelf_by_the_number_sealed_when_it_is_looked_at() -> None:
    season = recorded(
        batches=(batch("A", DAY, 7),), checks=(SealCheck("A", NEXT, 6, "refrigerated"),)
    )

    assert jars(season, DAY).units == 0
    assert jars(season, NEXT).units == 6
    (standing,) = jars(season, NEXT).standing
    assert (standing.put_up, standing.since) == (DAY, NEXT)


def test_jars_that_nobody_looked_at_are_not_counted_as_sure() -> None:
    season = recorded(batches=(batch("A", DAY, 7), batch("F", DAY, 5, preserve=PACKS)))

    assert jars(season).units == 0
    assert [b.code for b in unconfirmed(season, LAST)] == ["A"]
    assert unconfirmed(season, DAY - timedelta(days=1)) == ()
    assert packs(season, DAY).units == 5


@pytest.mark.parametrize(("days", "settles"), [(0, False), (1, False), (2, True), (30, True)])
def test_a_count_after_the_time_for_seals_settles_a_batch(days: int, *, settles: bool) -> None:
    counted = DAY + timedelta(days=days)
    before = DAY - timedelta(days=40)
    season = recorded(batches=(batch("A", DAY, 7),), counts=(count(counted, 6, put_up=before),))

    assert (unconfirmed(season, LAST) == ()) == settles
    assert jars(season).units == 6


def test_a_count_that_names_the_day_a_batch_was_made_has_seen_it_at_once() -> None:
    season = recorded(
        batches=(batch("A", DAY, 7),),
        checks=(SealCheck("A", NEXT, 7, ""),),
        counts=(count(DAY, 6, put_up=DAY),),
    )

    assert unconfirmed(season, DAY) == ()
    assert jars(season).units == 6


def test_a_look_after_a_count_that_saw_the_jars_adds_none_of_them_twice() -> None:
    season = recorded(
        batches=(batch("A", DAY, 7),),
        counts=(count(WEEK, 6, put_up=DAY),),
        checks=(SealCheck("A", MONTH, 6, ""),),
    )

    assert jars(season).units == 6


def test_a_seal_that_lets_go_later_is_a_loss_and_not_eaten() -> None:
    season = recorded(
        batches=(batch("A", DAY, 7),),
        checks=(SealCheck("A", NEXT, 7, ""), SealCheck("A", MONTH, 5, "thrown away")),
    )
    moved = jars(season).between(DAY, LAST)

    assert (moved.came, moved.lost, moved.eaten, moved.left) == (7, 2, 0, 5)


def test_of_jars_that_are_lost_the_old_ones_go_first_and_only_the_rest_were_new() -> None:
    season = recorded(
        counts=(count(DAY, 3, put_up=DAY - timedelta(days=300)),),
        batches=(batch("A", NEXT, 7),),
        checks=(SealCheck("A", WEEK, 7, ""),),
        taken=(took(WEEK + timedelta(days=1), 1, EATEN), took(MONTH, 4, LOST)),
    )
    book = jars(season)

    assert book.between(NEXT, LAST).lost == 4
    assert book.lost_of_new(NEXT, LAST) == 2
    assert book.lost_of_new(NEXT, WEEK) == 0


def test_a_jar_that_seals_after_all_comes_later() -> None:
    season = recorded(
        batches=(batch("A", DAY, 7),),
        checks=(SealCheck("A", NEXT, 5, ""), SealCheck("A", WEEK, 6, "")),
    )

    assert jars(season).between(DAY, LAST).came == 6


def test_of_two_looks_on_one_day_the_last_written_counts_everywhere() -> None:
    season = recorded(
        batches=(batch("A", DAY, 7),),
        checks=(SealCheck("A", NEXT, 7, ""), SealCheck("A", NEXT, 6, "refrigerated")),
    )
    look = season.record.newest_checks(LAST)["A"]

    assert jars(season).units == look.sealed == 6


def test_a_batch_of_which_none_sealed_leaves_nothing_standing() -> None:
    season = recorded(batches=(batch("A", DAY, 7),), checks=(SealCheck("A", NEXT, 0, ""),))

    assert jars(season).standing == ()
    assert unconfirmed(season, LAST) == ()


def test_jars_processed_again_come_with_their_own_batch_and_only_once() -> None:
    season = recorded(
        batches=(batch("A", DAY, 7), batch("A2", NEXT, 2, again_of="A")),
        checks=(SealCheck("A", NEXT, 5, "reprocessed"), SealCheck("A2", WEEK, 2, "")),
    )

    assert jars(season, NEXT).units == 5
    assert jars(season).units == 7


def test_a_count_overrules_the_book_and_the_difference_is_unknown_not_eaten() -> None:
    season = recorded(
        batches=(batch("F", DAY, 10, preserve=PACKS),),
        taken=(took(WEEK, 2, EATEN, preserve=PACKS),),
        counts=(count(MONTH, 5, preserve=PACKS, put_up=DAY),),
    )
    moved = packs(season).between(DAY, LAST)

    assert (moved.came, moved.eaten, moved.unknown, moved.left) == (10, 2, -3, 5)
    assert packs(season).counted == MONTH
    assert packs(season).between(MONTH + timedelta(days=1), LAST).opening == 5


def test_a_count_that_finds_more_is_unknown_as_well() -> None:
    season = recorded(counts=(count(DAY, 2), count(MONTH, 5)))

    assert jars(season).between(WEEK, MONTH).unknown == 3


def test_a_count_stands_for_the_end_of_its_day() -> None:
    season = recorded(counts=(count(DAY, 5),), taken=(took(DAY, 2, EATEN),))

    assert jars(season).units == 5


def test_a_count_of_several_makings_is_one_count() -> None:
    season = recorded(
        counts=(count(MONTH, 4, put_up=DAY), count(MONTH, 3, put_up=WEEK)),
        taken=(took(MONTH + timedelta(days=3), 5, EATEN),),
    )

    (left,) = jars(season).standing
    assert (left.units, left.put_up) == (2, WEEK)


def test_a_count_of_none_empties_the_shelf() -> None:
    season = recorded(counts=(count(DAY, 4), count(MONTH, 0)))

    assert jars(season).standing == ()
    assert jars(season).counted == MONTH


def test_the_oldest_goes_first() -> None:
    season = recorded(
        batches=(batch("new", WEEK, 3, preserve=PACKS), batch("old", DAY, 2, preserve=PACKS)),
        taken=(took(MONTH, 3, EATEN, preserve=PACKS),),
    )

    assert [(s.put_up, s.units) for s in packs(season).standing] == [(WEEK, 2)]


def test_what_is_taken_beyond_the_book_had_been_there_unknown() -> None:
    season = recorded(counts=(count(DAY, 2),), taken=(took(WEEK, 5, EATEN),))
    moved = jars(season).between(WEEK, LAST)

    assert (moved.opening, moved.eaten, moved.unknown, moved.left) == (2, 5, 3, 0)


def test_gifts_leave_the_shelf_on_their_day() -> None:
    season = replace(recorded(counts=(count(DAY, 6),)), gifts=(Gift(WEEK, JARS, 2),))

    assert jars(season, DAY).units == 6
    assert jars(season).between(WEEK, LAST).given == 2


def test_one_preserve_s_count_says_nothing_of_another() -> None:
    season = recorded(counts=(count(DAY, 6), count(MONTH, 4, preserve=PACKS)))

    assert {s.preserve: s.units for s in stock(season, LAST)} == {JARS: 6, PACKS: 4}


days = st.dates(date(2027, 1, 1), LAST)
amounts = st.integers(0, 12).map(float)
takings = st.builds(
    lambda day, units, why: Taken(day, PACKS, units, why, "", ""),
    days,
    amounts,
    st.sampled_from(WHYS),
)
counts = st.builds(lambda day, units: Counted(day, PACKS, units, day), days, amounts)
made = st.lists(st.tuples(days, amounts), max_size=6)


@given(made=made, taken=st.lists(takings, max_size=12), counted=st.lists(counts, max_size=4))
def test_the_book_balances_over_any_stretch_and_never_falls_below_none(
    made: list[tuple[date, float]], taken: list[Taken], counted: list[Counted]
) -> None:
    season = recorded(
        batches=tuple(
            batch(str(n), day, units, preserve=PACKS) for n, (day, units) in enumerate(made)
        ),
        taken=tuple(taken),
        counts=tuple(counted),
    )
    book = packs(season)

    assert all(entry.left >= 0 for entry in book.entries)
    assert all(standing.units > 0 for standing in book.standing)
    middle = date(2027, 6, 30)
    halves = (book.between(date.min, middle), book.between(middle + timedelta(days=1), LAST))
    for moved in (*halves, book.between(date.min, LAST)):
        leaves = moved.eaten + moved.given + moved.lost
        assert moved.left == moved.opening + moved.came - leaves + moved.unknown
    assert halves[1].opening == halves[0].left
    assert halves[1].left == book.units
    assert halves[0].eaten + halves[1].eaten == sum(t.units for t in taken if t.why == EATEN)
    assert halves[0].given + halves[1].given == sum(t.units for t in taken if t.why == GIVEN)
    assert halves[0].lost + halves[1].lost == sum(t.units for t in taken if t.why == LOST)


@given(made=made, taken=st.lists(takings, max_size=8), counted=st.lists(counts, min_size=1))
def test_after_a_count_stands_what_was_counted_with_what_came_and_left_since(
    made: list[tuple[date, float]], taken: list[Taken], counted: list[Counted]
) -> None:
    newest = max(row.day for row in counted)
    season = recorded(
        batches=tuple(
            batch(str(n), day, units, preserve=PACKS) for n, (day, units) in enumerate(made)
        ),
        taken=tuple(taken),
        counts=tuple(counted),
    )
    whole = sum(row.units for row in counted if row.day == newest)

    assert packs(season, newest).units == whole
    events = [(day, 0, units) for day, units in made if day > newest]
    events += [(row.day, 1, -row.units) for row in taken if row.day > newest]
    for _, _, units in sorted(events, key=lambda event: event[:2]):
        whole = max(0.0, whole + units)
    assert packs(season).units == whole
    assert packs(season).counted == newest
    assert COUNTED in {entry.kind for entry in packs(season).entries}
