"""Losses by place and the other jars of a bad one."""

from dataclasses import replace
from datetime import date, timedelta

import pytest

from model.case import make_case
from model.planning import plan_season
from model.season.counting import makings_counted
from model.season.ledger import COUNTED, ledgers
from model.season.mates import NOT_KNOWN, SAME_BATCH, SAME_BOX, SAME_DAY, batch_mates, to_look_at
from model.season.record import LOST, SUSPECT, SealCheck, Taken
from model.season.season import Season
from model.season.unseen_seals import unconfirmed
from model.season.write_off import out_of_use, write_off
from tests.recorded import JARS, PACKS, batch, count, recorded, took
from tests.small_season import small_season

MADE = date(2026, 9, 1)
DAY, LATER, NEXT = date(2027, 8, 16), date(2027, 9, 20), date(2027, 9, 21)


def test_a_freezer_that_died_takes_all_in_it_and_nothing_else() -> None:
    season = recorded(
        counts=(count(DAY, 5), count(DAY, 3, preserve=PACKS)),
        batches=(batch("F", date(2027, 8, 20), 4, preserve=PACKS),),
    )
    lost = write_off(season, ledgers(season, LATER), "freezer", "freezer died", LATER)
    after = replace(season, record=replace(season.record, taken=lost))

    assert [(row.preserve, row.units, row.why, row.cause) for row in lost] == [
        (PACKS, 7, "lost", "freezer died")
    ]
    books = ledgers(after, LATER)
    assert books[PACKS].units == 0
    assert books[JARS].units == 5
    assert write_off(after, books, "freezer", "freezer died", LATER) == ()


def test_a_shelf_that_fell_takes_jars_nobody_had_looked_at_and_no_others() -> None:
    season = recorded(
        counts=(count(DAY, 5),),
        batches=(
            batch("fell", LATER, 7),
            batch("looked", date(2027, 9, 18), 6),
            batch("F", LATER, 4, preserve=PACKS),
        ),
        checks=(SealCheck("looked", date(2027, 9, 19), 5, ""),),
    )
    assert [b.code for b in unconfirmed(season, LATER)] == ["fell"]
    lost = write_off(season, ledgers(season, LATER), "shelf", "shelf fell", LATER)
    after = replace(season, record=replace(season.record, taken=lost))

    assert [(row.preserve, row.units, row.batch) for row in lost] == [
        (JARS, 10, ""),
        (JARS, 7, "fell"),
    ]
    assert unconfirmed(after, LATER) == ()
    books = ledgers(after, LATER)
    assert (books[JARS].units, books[PACKS].units) == (0, 4)
    moved = books[JARS].between(LATER, LATER)
    # the batch never came onto the shelf, so nothing of it is lost from there
    assert (moved.came, moved.lost, moved.unknown) == (0, 10, 0)


def test_a_bad_jar_of_a_batch_nobody_had_looked_at_leaves_the_shelf_alone() -> None:
    bad = Taken(LATER, JARS, 1, LOST, SUSPECT, "A")
    season = recorded(batches=(batch("old", DAY, 5), batch("A", LATER, 7)))
    season = replace(
        season,
        record=replace(
            season.record,
            taken=(bad,),
            seal_checks=(SealCheck("old", DAY, 5, ""), SealCheck("A", NEXT, 6, "thrown away")),
        ),
    )

    assert ledgers(season, LATER)[JARS].units == 5
    assert [b.code for b in unconfirmed(season, LATER)] == ["A"]
    assert ledgers(season, NEXT)[JARS].units == 5 + 6
    later = replace(season, record=replace(season.record, taken=(replace(bad, day=NEXT),)))
    assert ledgers(later, NEXT)[JARS].units == 5 + 6 - 1


def lost_on_the_day_of_its_count() -> Season:
    season = recorded(counts=(count(DAY, 5, put_up=MADE),))
    lost = write_off(season, ledgers(season, DAY), "shelf", "shelf fell", DAY)
    return replace(season, record=replace(season.record, taken=lost))


def test_what_was_counted_on_the_day_it_was_lost_is_gone_at_once_under_that_day() -> None:
    season = lost_on_the_day_of_its_count()
    book = ledgers(season, DAY)[JARS]

    assert [(row.day, row.units) for row in season.record.taken] == [(DAY, 5)]
    assert (book.units, book.between(DAY, DAY).lost) == (0, 5)
    assert ledgers(season, LATER)[JARS].between(DAY, LATER).lost == 5
    assert write_off(season, ledgers(season, DAY), "shelf", "shelf fell", DAY) == ()


def test_what_was_saved_and_counted_after_the_loss_is_not_lost_twice() -> None:
    season = replace(lost_on_the_day_of_its_count(), counts=(count(DAY, 2, put_up=MADE),))
    book = ledgers(season, DAY)[JARS]

    assert book.units == 2
    assert book.entries[-1].kind == COUNTED
    # and the count knows when it was made, though by the book nothing stood there any more
    before = ledgers(lost_on_the_day_of_its_count(), DAY)[JARS]
    assert makings_counted(before, 2, DAY) == ((MADE, 2),)


def test_what_was_eaten_after_the_count_of_the_day_leaves_it_once() -> None:
    eaten = replace(took(DAY, 2, "eaten"), of_counted=5.0)
    season = recorded(counts=(count(DAY, 5),), taken=(eaten,))
    book = ledgers(season, DAY)[JARS]

    assert (book.units, book.between(DAY, DAY).eaten) == (3, 2)
    assert [entry.units for entry in book.since_count] == [-2]
    assert ledgers(season, NEXT)[JARS].units == 3


def test_a_bad_jar_of_a_batch_that_the_count_of_the_day_had_seen_leaves_the_shelf() -> None:
    bad = Taken(LATER, JARS, 1, LOST, SUSPECT, "A", of_counted=7)
    season = recorded(
        batches=(batch("A", LATER, 7),), counts=(count(LATER, 7, put_up=LATER),), taken=(bad,)
    )

    assert ledgers(season, LATER)[JARS].units == 6


def test_no_plan_counts_on_what_was_lost_after_the_count_of_the_day() -> None:
    season = recorded(counts=(count(DAY, 5), count(DAY, 3, preserve=PACKS)))
    lost = write_off(season, ledgers(season, DAY), "shelf", "shelf fell", DAY)
    after = replace(season, record=replace(season.record, taken=lost))

    assert [(one.preserve, one.units) for one in make_case(after, DAY).stock] == [(PACKS, 3)]
    # a loss that is still to come, on a day looked back to, is nothing that day knows of
    before = DAY - timedelta(days=1)
    early = recorded(counts=(count(before, 5),))
    early = replace(early, record=after.record)
    assert [one.units for one in make_case(early, before).stock] == [5]
    assert ledgers(early, before)[JARS].units == 5


def test_a_place_or_cause_that_is_not_known_is_refused() -> None:
    with pytest.raises(ValueError, match="no place 'attic'"):
        write_off(recorded(), {}, "attic", "mice", DAY)
    with pytest.raises(ValueError, match="'fire' is none of"):
        write_off(recorded(), {}, "shelf", "fire", DAY)


def test_mates_are_the_batch_its_day_and_its_lids_in_that_order() -> None:
    season = recorded(
        batches=(
            batch("far", date(2027, 8, 1), 7),
            batch("box", date(2027, 8, 10), 9, preserve="sauce", lid_box="red"),
            batch("day", DAY, 7),
            batch("bad", DAY, 7, lid_box="red"),
            batch("again", date(2027, 8, 17), 1, again_of="bad"),
            batch("packs", DAY, 5, preserve=PACKS, lid_box="red"),
        ),
        checks=(SealCheck("bad", date(2027, 8, 17), 6, "reprocessed"),),
    )
    mates = [(mate.batch.code, mate.why) for mate in batch_mates(season, JARS, "bad", LATER)]

    assert mates == [
        ("bad", SAME_BATCH),
        ("again", SAME_BATCH),
        ("day", SAME_DAY),
        ("box", SAME_BOX),
    ]


def test_of_a_jar_without_a_batch_every_batch_of_its_preserve_is_looked_at() -> None:
    season = recorded(
        batches=(batch("A", DAY, 7), batch("B", LATER, 7), batch("S", DAY, 9, preserve="sauce"))
    )

    mates = batch_mates(season, JARS, "", DAY)
    assert [(mate.batch.code, mate.why) for mate in mates] == [("A", NOT_KNOWN)]
    with pytest.raises(KeyError, match="nowhere"):
        batch_mates(season, JARS, "nowhere", DAY)


def test_a_freezer_that_died_is_out_of_use_until_something_is_put_or_found_in_it() -> None:
    dead = recorded(taken=(Taken(LATER, PACKS, 7, LOST, "freezer died", ""),))
    spoiled = recorded(taken=(Taken(LATER, PACKS, 7, LOST, "went bad", ""),))
    again = NEXT + timedelta(days=5)
    filled = replace(
        dead, record=replace(dead.record, batches=(batch("F", again, 4, preserve=PACKS),))
    )

    assert out_of_use(dead, LATER) == out_of_use(filled, NEXT) == {"freezer"}
    assert out_of_use(dead, LATER - timedelta(days=5)) == out_of_use(spoiled, LATER) == set()
    assert out_of_use(filled, again) == set()
    assert out_of_use(replace(dead, counts=(count(NEXT, 2, preserve=PACKS),)), NEXT) == set()
    assert out_of_use(replace(dead, counts=(count(NEXT, 0, preserve=PACKS),)), NEXT) == {"freezer"}
    assert out_of_use(replace(dead, counts=(count(DAY, 9, preserve=PACKS),)), NEXT) == {"freezer"}
    counted = replace(dead, counts=(count(LATER, 7, preserve=PACKS),))
    after = replace(dead.record.taken[0], of_counted=7.0)
    full = replace(counted, record=replace(counted.record, taken=(after,)))
    assert out_of_use(full, LATER) == {"freezer"}
    assert out_of_use(counted, LATER) == set()


def mended_on(season: Season, day: date | None) -> Season:
    places = tuple(
        replace(place, works_from=day) if place.kind == "freezer" else place
        for place in season.places
    )
    return replace(season, places=places)


def test_a_freezer_is_in_use_again_from_the_day_it_works_but_not_when_it_dies_anew() -> None:
    dead = recorded(taken=(Taken(LATER, PACKS, 7, LOST, "freezer died", ""),))

    assert out_of_use(mended_on(dead, NEXT), LATER) == {"freezer"}
    assert out_of_use(mended_on(dead, NEXT), NEXT) == set()
    assert out_of_use(mended_on(dead, DAY), NEXT) == {"freezer"}


def test_nothing_is_frozen_in_the_plan_or_in_any_year_before_the_freezer_works() -> None:
    # beans are picked from late July on: the tiny season freezes them
    season, today, works = small_season(), date(2027, 7, 12), date(2027, 8, 4)
    whole = plan_season(season, today, years=20)
    late = plan_season(mended_on(season, works), today, years=20)
    packs, weeks = late.case.arrays.preserves.index(PACKS), late.case.weeks
    before = weeks.index(works)

    assert whole.plan.put_up[packs, :before].sum() > 1
    assert late.plan.put_up[packs, :before].sum() == 0
    assert late.plan.put_up[packs, before:].sum() > 0
    assert (late.years.shelf[:, late.case.arrays.foods.index("beans")] >= 0).all()
    rate = whole.case.arrays.freezer_kg_a_week[1, 1]
    assert late.case.arrays.freezer_kg_a_week[1, before] == pytest.approx(rate * 5 / 7)


def test_what_a_count_finds_beyond_the_book_is_as_old_as_was_said() -> None:
    made = recorded(batches=(batch("A", MADE, 5),), checks=(SealCheck("A", MADE, 5, ""),))
    book = ledgers(made, DAY)[JARS]
    older = MADE - timedelta(days=300)

    assert makings_counted(book, 9, older) == ((older, 4), (MADE, 5))
    assert makings_counted(book, 9, MADE) == ((MADE, 9),)
    assert makings_counted(book, 3, older) == ((MADE, 3),)


def test_jars_that_are_all_gone_are_not_to_be_looked_at_any_more() -> None:
    bad = Taken(DAY, JARS, 1, LOST, SUSPECT, "A")
    there = recorded(
        batches=(batch("A", MADE, 5),), checks=(SealCheck("A", MADE, 5, ""),), taken=(bad,)
    )
    assert [one.batch.code for one in to_look_at(there, DAY)] == ["A"]

    rest = Taken(DAY, JARS, 4, LOST, "shelf fell", "")
    gone = replace(there, record=replace(there.record, taken=(bad, rest)))
    assert to_look_at(gone, DAY) == ()
    # jars whose seals nobody has looked at are in no book yet, and stand there all the same
    fresh = batch("B", DAY, 7, lid_box="old")
    bad_box = (batch("A", MADE, 5, lid_box="old"), fresh)
    waits = replace(gone, record=replace(gone.record, batches=bad_box))
    assert "B" in [one.batch.code for one in to_look_at(waits, DAY)]
