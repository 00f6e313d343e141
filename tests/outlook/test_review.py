"""The year's review balances: every jar of it is accounted for."""

from dataclasses import replace
from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from model.case import make_case
from model.outlook.review_table import review_table
from model.season.garden import GardenSeason, Picking
from model.season.record import (
    EATEN,
    GIVEN,
    LOST,
    WHYS,
    Meant,
    SealCheck,
)
from model.season.season import Season
from tests.recorded import JARS, PACKS, batch, count, packs, recorded, took

YEAR, END = "2027", date(2027, 12, 31)
AUGUST, SEPTEMBER = date(2027, 8, 16), date(2027, 9, 20)


def one(season: Season, preserve: str) -> dict[str, object]:
    table = review_table(make_case(season, END), YEAR).set_index("preserve")
    return dict(table.loc[preserve])


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


def test_what_lasts_until_its_crop_is_picked_again_did_not_run_out() -> None:
    """Opened last in July, when the new beans are on the table: enough was made."""
    gone = took(date(2027, 7, 20), 5, EATEN, preserve=PACKS)
    season = recorded(taken=(gone,), counts=(count(date(2027, 1, 5), 5, preserve=PACKS),))
    picked = replace(season, pickings=(Picking(date(2027, 7, 15), "bush bean", 2.0),))
    later = replace(season, pickings=(Picking(date(2027, 7, 25), "bush bean", 2.0),))

    assert one(season, PACKS)["ran_out"] == date(2027, 7, 20)
    assert one(later, PACKS)["ran_out"] == date(2027, 7, 20)
    assert one(picked, PACKS)["ran_out"] is None


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
