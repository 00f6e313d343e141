"""What was picked this week, up to today, lies in the kitchen and is used before it spoils."""

from dataclasses import replace
from datetime import date, timedelta

import pytest

import model
from model.case import make_case
from model.reference.lookup import holding
from model.season.garden import Picking
from model.season.record import Record
from model.season.season import Season
from tests.piles import split_glut
from tests.plan_check import broken_rules

WEDNESDAY = date(2027, 8, 18)


def planned(season: Season, *pickings: Picking, today: date = WEDNESDAY) -> model.PlannedSeason:
    """Plan on a Wednesday with these pickings besides those of the log."""
    more = replace(season, pickings=(*season.pickings, *pickings))
    return model.plan_season(more, today, years=10)


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


def test_what_was_picked_on_saturday_is_there_on_monday_and_no_longer_than_it_holds(
    alder_lane: Season,
) -> None:
    saturday, monday, next_monday = date(2027, 8, 21), date(2027, 8, 23), date(2027, 8, 30)
    assert monday < saturday + timedelta(days=holding("tomato").days_low)
    assert saturday + timedelta(days=holding("tomato").days_high) < next_monday
    heap = Picking(saturday, "tomato", 30.0)
    plans = {day: planned(alder_lane, heap, today=day) for day in (monday, next_monday)}
    there = {
        day: model.fresh_table(plan, 0).set_index("crop").loc["tomato"]
        for day, plan in plans.items()
    }

    assert there[monday]["before_kg"] > 25
    assert there[monday]["put_up_kg"] > 20
    assert there[next_monday]["before_kg"] < 5
    assert broken_rules(plans[monday].case, plans[monday].plan) == []


def test_what_was_picked_at_the_weekend_is_held_for_next_week_and_not_given_away(
    alder_lane: Season,
) -> None:
    sunday = date(2027, 8, 22)
    plan = planned(alder_lane, Picking(sunday, "tomato", 30.0), today=sunday)
    row = model.fresh_table(plan, 0).set_index("crop").loc["tomato"]
    uses = row[["eaten_kg", "put_up_kg", "held_kg", "spare_kg"]].sum()

    assert row["spare_kg"] < 5
    assert row["held_kg"] > 15
    assert uses == pytest.approx(row["expected_kg"] + row["before_kg"])


def test_the_shelves_to_come_are_the_same_on_sunday_evening_as_on_monday(
    alder_lane: Season,
) -> None:
    sunday, monday = date(2027, 8, 22), date(2027, 8, 23)
    heap = Picking(sunday, "tomato", 30.0)
    shelves = {}
    for day in (sunday, monday):
        plan = planned(alder_lane, heap, today=day)
        of_food = [preserve.food == "tomatoes" for preserve in plan.case.season.preserves]
        shelves[day] = plan.plan.shelf[of_food].sum(axis=0).max()
        assert broken_rules(plan.case, plan.plan) == []

    assert shelves[sunday] == pytest.approx(shelves[monday], rel=0.03)


def test_a_pile_of_sunday_waits_for_monday_and_one_of_a_week_before_does_not(
    alder_lane: Season,
) -> None:
    monday, sunday, held = date(2027, 8, 16), date(2027, 8, 22), {}
    assert monday + timedelta(days=alder_lane.crop("tomato").hold_days) <= sunday
    for day in (monday, sunday):
        split = split_glut(planned(alder_lane, today=day), {"tomato": 30.0}, 0.0)
        held[day] = sum(step.kg for step in split.steps if step.action == "hold")

    assert held == {monday: 0.0, sunday: pytest.approx(30.0, abs=6.0)}


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


def test_what_is_put_up_is_of_what_still_holds_and_not_of_what_was_eaten_weeks_ago(
    alder_lane: Season,
) -> None:
    """A picking of five weeks ago is eaten or gone: the jars of today are of today's picking."""
    crop, fresh = "tomato", Picking(WEDNESDAY, "tomato", 10.0)
    long_ago = Picking(WEDNESDAY - timedelta(weeks=5), crop, 10.0)
    (preserve,) = (p for p in alder_lane.preserves if p.name == "tomatoes in water")
    kg = sum(part.kg for part in preserve.ingredients if part.crop == crop)
    done = model.Batch("T", WEDNESDAY, None, preserve.name, 5.0, "", "")
    bare = replace(alder_lane, record=Record(), pickings=(long_ago, fresh))

    def there(*batches: model.Batch) -> float:
        case = make_case(replace(bare, record=Record(batches=batches)), WEDNESDAY)
        return float(case.forecast.before_kg[case.arrays.crops.index(crop)].sum())

    assert there() - there(done) == pytest.approx(5 * kg)


def test_what_was_picked_early_in_the_week_and_holds_a_day_is_not_there_at_its_end(
    alder_lane: Season,
) -> None:
    """NDSU FN189: what is to be pickled is used within 24 hours of picking."""
    sunday, crop = WEDNESDAY + timedelta(days=4), "pickling cucumber"
    assert alder_lane.crop(crop).hold_days == 1
    unwritten = replace(alder_lane, record=Record())

    def there(*days: int) -> float:
        picked = (Picking(sunday - timedelta(days=back), crop, 4.0) for back in days)
        case = make_case(replace(unwritten, pickings=tuple(picked)), sunday)
        return float(case.before_kg[case.arrays.crops.index(crop)].sum())

    assert there(4) == 0.0
    # some is eaten fresh meanwhile
    assert 3.0 < there(1) == there(4, 1) <= 4.0
    assert 6.0 < there(1, 0) <= 8.0
