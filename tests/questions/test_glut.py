from dataclasses import replace
from datetime import date, datetime, time, timedelta

import numpy as np
import pytest

import model
from model.outlook.headings import HEADINGS
from tests.piles import split_glut
from tests.small_season import TABLES, small_season

AUGUST, OCTOBER = date(2027, 8, 16), date(2027, 10, 11)


@pytest.fixture(scope="module")
def planned() -> model.PlannedSeason:
    return model.plan_season(small_season(stock=None), AUGUST, years=20)


def by_action(split: model.GlutSplit, crop: str) -> dict[str, float]:
    kg: dict[str, float] = {}
    for step in split.steps:
        if step.crop == crop:
            kg[step.action] = kg.get(step.action, 0.0) + step.kg
    return kg


@pytest.mark.parametrize("hours", [0.0, 2.0, 6.0, 20.0])
def test_every_kilogram_of_the_pile_is_told_what_becomes_of_it(
    planned: model.PlannedSeason, hours: float
) -> None:
    pile = {"tomato": 30.0, "bush bean": 6.0}
    split = split_glut(planned, pile, hours)

    for crop, kg in pile.items():
        assert sum(by_action(split, crop).values()) == pytest.approx(kg, abs=0.11)
    assert split.clock_minutes <= hours * 60 + 1e-6


def test_without_hours_nothing_is_put_up_and_hours_are_what_limits(
    planned: model.PlannedSeason,
) -> None:
    split = split_glut(planned, {"bush bean": 60.0}, 0.0)

    assert {step.action for step in split.steps} <= {"eat", "hold", "give away"}
    assert split.limit == "hours: all that there are for it"


def test_canning_goes_in_whole_loads_and_whole_jars(planned: model.PlannedSeason) -> None:
    split = split_glut(planned, {"tomato": 40.0}, 12.0)
    canned = [step for step in split.steps if step.action == "can"]

    assert canned
    for step in canned:
        r = planned.case.arrays.preserves.index(step.preserve)
        assert step.units == round(step.units)
        assert step.units <= step.loads * planned.case.arrays.units_per_load[r]


def test_what_spoils_first_is_worked_first(planned: model.PlannedSeason) -> None:
    split = split_glut(planned, {"tomato": 40.0, "bush bean": 8.0}, 14.0)
    work = [step for step in split.steps if step.minutes > 0]
    days = [planned.case.season.crop(step.crop).hold_days for step in work]

    assert days == sorted(days)


@pytest.mark.parametrize("hours", [3.0, 5.0, 8.0, 11.0])
def test_the_hours_are_filled_as_the_preserving_day_goes_and_not_overrun(
    planned: model.PlannedSeason, hours: float
) -> None:
    season, nine = planned.case.season, datetime.combine(AUGUST, time(9))
    split = split_glut(planned, {"tomato": 60.0, "bush bean": 10.0}, hours)
    made, refused = model.day_products(season, split.wanted)
    sheet = model.day_sheet(season, made, refused, nine, past_bedtime=True)
    one_by_one = sum(step.minutes for step in split.steps)

    assert not sheet.waiting
    assert sheet.finish - nine == timedelta(minutes=split.clock_minutes)
    assert split.clock_minutes <= hours * 60
    # A canner works beside the hands: there is time for more than one by one.
    assert one_by_one >= split.clock_minutes
    assert hours < 8 or one_by_one > hours * 60


def test_a_freezer_freezes_no_more_than_it_can_in_a_week() -> None:
    """About 2 to 3 lb of fresh food a cubic foot in 24 hours: extension services' rule."""
    places = TABLES["places.csv"].replace("150", "30")
    season = small_season(places=places, stock=None)
    planned = model.plan_season(season, AUGUST, years=20)
    split = split_glut(planned, {"bush bean": 60.0}, 40.0)
    most = 30 * season.settings.freezer_load_g_per_l_day * 7 / 1000
    trimmed = season.crop("bush bean").edible_share

    assert by_action(split, "bush bean")["freeze"] * trimmed == pytest.approx(most, abs=0.01)


ROOTS = {
    "places": TABLES["places.csv"] + "cellar,root store,,,,200\n",
    "plantings": TABLES["plantings.csv"] + "2027,sweet potato,only bed,,2027-05-28,4,\n",
    "foods": TABLES["foods.csv"] + "sweet potatoes,vegetable,4,8,3,sweet potato\n",
    "preserves": TABLES["preserves.csv"]
    + "stored roots,sweet potatoes,sweet potato,root store,,,,60\n"
    + "frozen roots,sweet potatoes,sweet potato,freeze,,,pack,40\n",
}


@pytest.fixture(scope="module")
def with_roots() -> model.PlannedSeason:
    """Give a plan in which roots go to the store at once: nothing waits into the next week."""
    planned = model.plan_season(small_season(stock=None, **ROOTS), OCTOBER, years=20)
    arrays = planned.case.arrays
    at_once = replace(arrays, hold_weeks=np.ones_like(arrays.hold_weeks))
    return replace(planned, case=replace(planned.case, arrays=at_once))


@pytest.mark.parametrize(("bruised", "hours"), [(6.0, 3.0), (18.0, 3.0), (20.0, 0.0), (20.0, 9.0)])
def test_what_is_bruised_neither_waits_nor_is_stored_and_no_kilogram_is_lost(
    with_roots: model.PlannedSeason, bruised: float, hours: float
) -> None:
    split = split_glut(with_roots, {"sweet potato": 20.0}, hours, {"sweet potato": bruised})
    kg = by_action(split, "sweet potato")

    assert sum(kg.values()) == pytest.approx(20.0, abs=0.11)
    assert kg.get("store", 0.0) + kg.get("hold", 0.0) <= 20.0 - bruised + 1e-6
    assert sum(step.bruised_kg for step in split.steps) == pytest.approx(bruised, abs=0.11)
    assert all(step.bruised_kg <= step.kg + 1e-9 for step in split.steps)
    assert not any(step.bruised_kg for step in split.steps if step.action in ("store", "hold"))


def test_what_keeps_for_weeks_is_held_and_what_is_bruised_of_it_goes(
    with_roots: model.PlannedSeason,
) -> None:
    season, pile = with_roots.case.season, {"sweet potato": 200.0}
    keeping = tuple(replace(crop, hold_days=90.0) for crop in season.crops)
    long = replace(with_roots, case=replace(with_roots.case, season=replace(season, crops=keeping)))
    short, kg = (
        by_action(split_glut(own, pile, 0.0, {"sweet potato": 50.0}), "sweet potato")
        for own in (with_roots, long)
    )

    assert "hold" not in short
    assert kg["hold"] == pytest.approx(150.0)
    assert kg["eat"] + kg["give away"] == pytest.approx(50.0)


def test_sound_roots_would_have_been_stored(with_roots: model.PlannedSeason) -> None:
    sound, bruised = (
        by_action(split_glut(with_roots, {"sweet potato": 20.0}, 2.0, of_it), "sweet potato")
        for of_it in ({}, {"sweet potato": 20.0})
    )

    assert sound["store"] > 1.0
    assert "store" not in bruised


def test_bruised_beans_are_worked_before_what_would_spoil_sooner(
    planned: model.PlannedSeason,
) -> None:
    pile = {"tomato": 40.0, "bush bean": 8.0}
    usual = split_glut(planned, pile, 14.0)
    split = split_glut(planned, pile, 14.0, {"bush bean": 8.0})
    work = [[step.crop for step in s.steps if step.minutes > 0] for s in (usual, split)]

    assert work[0][0] == "tomato"
    assert work[1][0] == "bush bean"


def test_more_bruised_than_there_is_is_a_fault(planned: model.PlannedSeason) -> None:
    for wrong in ({"tomato": 5.0}, {"tomato": -1.0}, {"bush bean": 1.0}, {"tomato": float("nan")}):
        with pytest.raises(model.SeasonProblems, match="bruised"):
            split_glut(planned, {"tomato": 4.0}, 3.0, wrong)


def test_enough_is_said_when_more_than_is_wanted_lies_there(planned: model.PlannedSeason) -> None:
    split = split_glut(planned, {"bush bean": 400.0}, 100.0)

    assert by_action(split, "bush bean")["give away"] > 100
    assert split.limit.split(":")[0] != "nothing"


def test_hours_too_few_for_the_next_load_are_named_as_the_limit(
    planned: model.PlannedSeason,
) -> None:
    few, many = (split_glut(planned, {"tomato": 20.0}, hours) for hours in (3.0, 12.0))

    assert by_action(few, "tomato")["give away"] > by_action(many, "tomato").get("give away", 0.0)
    assert few.limit.startswith("hours: ")


def test_an_unknown_crop_and_impossible_numbers_are_listed_together(
    planned: model.PlannedSeason,
) -> None:
    with pytest.raises(model.SeasonProblems) as caught:
        split_glut(planned, {"tomatoe": 3.0, "tomato": -1.0}, 4.0, {"tomato": 3.0})
    assert len(caught.value.problems) == 3

    for hours in (-1.0, 400.0, float("nan")):
        with pytest.raises(model.SeasonProblems, match="hours of this week, 0 to 168"):
            split_glut(planned, {"tomato": 4.0}, hours)


def test_a_split_does_not_hang_on_what_was_asked_of_the_pile_before(
    planned: model.PlannedSeason,
) -> None:
    pile = {"tomato": 40.0, "bush bean": 8.0}
    glut = model.Glut(planned, pile)
    for hours in (12.0, 0.0, 3.0):
        glut.split(hours)

    assert glut.split(6.0) == split_glut(planned, pile, 6.0)


def test_the_table_has_a_row_a_step_with_known_headings(planned: model.PlannedSeason) -> None:
    split = split_glut(planned, {"tomato": 20.0}, 6.0)
    table = model.glut_table(split)

    assert len(table) == len(split.steps)
    assert set(table.columns) <= set(HEADINGS)
    assert model.glut_table(split_glut(planned, {}, 3.0)).empty
