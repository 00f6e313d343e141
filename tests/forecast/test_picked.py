"""What was picked this week, up to today, lies in the kitchen and is used before it spoils."""

from dataclasses import replace
from datetime import date

import pytest

import model
from model.reference.lookup import holding
from model.season.garden import Picking
from model.season.season import Season
from tests.plan_check import broken_rules

WEDNESDAY = date(2027, 8, 18)


def planned(season: Season, *pickings: Picking) -> model.PlannedSeason:
    """Plan on a Wednesday with these pickings besides those of the log."""
    return model.plan_season(
        replace(season, pickings=(*season.pickings, *pickings)), WEDNESDAY, years=10
    )


@pytest.mark.parametrize("day", [date(2027, 8, 16), WEDNESDAY])
def test_thirty_kilograms_of_tomatoes_of_this_week_are_planned_for_this_week(
    alder_lane: Season, day: date
) -> None:
    assert holding("tomato").days_high < 14  # so that next week is too late
    usual, glut = planned(alder_lane), planned(alder_lane, Picking(day, "tomato", 30.0))
    before, after = (
        model.fresh_table(plan, 0).set_index("crop").loc["tomato"] for plan in (usual, glut)
    )

    assert before["before_kg"] + before["expected_kg"] < 15
    assert after["before_kg"] > 25
    # it is this week's harvest: what the week was still expected to give comes off
    assert after["expected_kg"] < before["expected_kg"]
    assert after["put_up_kg"] > before["put_up_kg"] + 10
    assert broken_rules(glut.case, glut.plan) == []


def test_what_was_put_up_of_it_lies_there_no_more(alder_lane: Season) -> None:
    heap = Picking(WEDNESDAY, "tomato", 30.0)
    bare = planned(alder_lane, heap)
    c = bare.case.arrays.crops.index("tomato")
    (preserve,) = (p for p in alder_lane.preserves if p.name == "tomatoes in water")
    kg = sum(part.kg for part in preserve.ingredients if part.crop == "tomato")
    done = model.Batch("T", WEDNESDAY, None, preserve.name, 14.0, "", "")
    record = replace(alder_lane.record, batches=(*alder_lane.record.batches, done))
    stored = planned(replace(alder_lane, record=record), heap)

    gone = bare.case.before_kg[c].sum() - stored.case.before_kg[c].sum()
    assert gone == pytest.approx(14 * kg, rel=0.2)
