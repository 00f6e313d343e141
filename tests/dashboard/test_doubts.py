"""What is asked about before it is written down: slips of the finger, and no good year."""

from datetime import date

import model
from dashboard.doubts import again_doubt, batch_doubt, picking_doubt, taken_doubt
from model.season.record import SealCheck
from tests.recorded import JARS, batch, recorded

SUMMER = date(2027, 8, 16)


def test_a_picking_larger_than_its_season_or_months_off_is_asked_about(tiny: model.Season) -> None:
    summer, whole = date(2027, 8, 16), model.usual_picking(tiny, "tomato", date(2027, 8, 16))
    assert whole is not None

    seven = picking_doubt(tiny, "tomato", 7 * whole.whole_kg, summer)
    assert seven.startswith("That is about 7 times what the whole season should give (")
    assert seven.endswith("kg): is it right?")
    assert "more than what" in picking_doubt(tiny, "tomato", 1.2 * whole.whole_kg, summer)
    winter = picking_doubt(tiny, "tomato", 500.0, date(2027, 1, 10))
    assert "should give" in winter
    assert f"and {(whole.first - date(2027, 1, 10)).days // 7} weeks before its usual" in winter
    assert "weeks after its usual last picking" in picking_doubt(
        tiny, "tomato", 1.0, date(2027, 12, 24)
    )
    assert picking_doubt(tiny, "tomato", 0.5 * whole.whole_kg, summer) == ""
    assert picking_doubt(tiny, "peach", 500.0, summer) == "", (
        "nothing is known of what is not grown"
    )


def test_what_a_household_picked_in_two_good_years_is_never_asked_about(
    alder_lane: model.Season, two_rivers: model.Season
) -> None:
    asked = {
        (picking.day, picking.crop): picking_doubt(season, picking.crop, picking.kg, picking.day)
        for season in (alder_lane, two_rivers)
        for picking in season.pickings
    }

    assert len(asked) > 100
    assert set(asked.values()) == {""}


def test_a_batch_of_more_jars_than_are_owned_is_asked_about(tiny: model.Season) -> None:
    asked = batch_doubt(tiny, tiny.preserve("whole tomatoes"), 250, SUMMER)

    assert "more than the 40 jars (quart) you own" in asked
    assert "36 canner loads in one day" in asked
    assert "of tomato, where the whole season should give" in asked
    assert asked.endswith("is it right?")
    assert batch_doubt(tiny, tiny.preserve("whole tomatoes"), 14, SUMMER) == ""
    packs = batch_doubt(tiny, tiny.preserve("frozen beans"), 250, SUMMER)
    assert packs.startswith("That is ")
    assert "loads" not in packs


def test_what_a_household_put_up_in_two_good_years_is_never_asked_about(
    alder_lane: model.Season, two_rivers: model.Season
) -> None:
    asked = {
        batch.code: batch_doubt(season, season.preserve(batch.preserve), batch.filled, batch.put_up)
        for season in (alder_lane, two_rivers)
        for batch in season.record.batches
    }

    assert len(asked) > 50
    assert set(asked.values()) == {""}


def test_more_jars_than_are_empty_than_did_not_seal_or_than_are_there_are_asked_about() -> None:
    """The tiny season owns 40 quarts."""
    made = recorded(
        batches=(batch("A", date(2027, 8, 1), 36),), checks=(SealCheck("A", SUMMER, 34.0, ""),)
    )
    own = made.preserve(JARS)

    assert batch_doubt(made, own, 6, SUMMER, new=True) == ""
    asked = batch_doubt(made, own, 7, SUMMER, new=True)
    assert "more than the 6 quarts that by the book are empty" in asked
    assert batch_doubt(made, own, 7, SUMMER) == ""
    assert again_doubt(made, "A", 2, SUMMER) == again_doubt(made, None, 9, SUMMER) == ""
    assert "the 2 of A that did not seal" in again_doubt(made, "A", 3, SUMMER)
    book = model.ledgers(made, SUMMER)[JARS]
    assert taken_doubt(book, 34) == ""
    assert "the 34 of" in taken_doubt(book, 35)
