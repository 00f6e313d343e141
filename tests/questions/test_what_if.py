from datetime import date

import numpy as np
import pytest

import model
from model import Change
from model.planning import PlannedSeason

TODAY, GLUT = date(2027, 3, 1), date(2027, 8, 16)


def replanned(before: PlannedSeason, change: Change) -> PlannedSeason:
    season = model.changed_season(before.case.season, change, TODAY)
    return model.plan_season(season, TODAY, years=50, before=before)


def test_a_target_is_met_as_far_as_it_goes_and_not_passed(tiny_plan: PlannedSeason) -> None:
    after = replanned(tiny_plan, Change(targets=(("dilled beans", 9),)))
    row = after.case.arrays.preserves.index("dilled beans")

    assert after.plan.to_fill[row] in (9, 10)
    nothing = replanned(tiny_plan, Change(targets=(("dilled beans", 0),)))
    assert nothing.plan.to_fill[row] == 0


def test_more_area_gives_more_harvest(tiny_plan: PlannedSeason) -> None:
    after = replanned(tiny_plan, Change(amounts=((1, 20.0),)))

    assert after.plan.amounts[1] == 20
    assert after.plan.harvest_kg[1].sum() == pytest.approx(
        tiny_plan.plan.harvest_kg[1].sum() * 20 / 12
    )


def test_a_loss_shows_fewer_jars_beside_the_old_ones(tiny_plan: PlannedSeason) -> None:
    after = replanned(tiny_plan, Change(losses=(("tomato", 0.7),)))
    jars = model.compare_jars(tiny_plan, after)
    foods = model.compare_foods(tiny_plan, after).set_index("food")

    assert (jars["after"] - jars["before"] == jars["difference"]).all()
    assert jars["difference"].sum() < 0
    assert foods.loc["tomatoes", "met_after"] < foods.loc["tomatoes", "met_before"]
    assert foods.loc["beans", "met_after"] == pytest.approx(
        foods.loc["beans", "met_before"], rel=0.15
    )


def test_a_change_that_does_not_fit_the_bed_is_a_fault(tiny_plan: PlannedSeason) -> None:
    with pytest.raises(model.SeasonProblems, match="only bed need"):
        replanned(tiny_plan, Change(amounts=((0, 40.0),)))


@pytest.mark.parametrize(
    "change",
    [
        Change(amounts=((0, -1.0),)),
        Change(losses=(("tomato", 1.2),)),
        Change(targets=(("sauce", -3),)),
    ],
)
def test_impossible_numbers_are_refused(tiny: model.Season, change: Change) -> None:
    with pytest.raises(ValueError, match=r"cannot be below 0|between nothing"):
        model.changed_season(tiny, change, TODAY)


def test_no_change_leaves_the_season_as_it_was(tiny: model.Season) -> None:
    assert Change().empty
    assert model.changed_season(tiny, Change(), TODAY) == tiny


def test_a_new_plan_changes_only_what_the_facts_touch(alder_lane: model.Season) -> None:
    before = model.plan_season(alder_lane, GLUT, years=5)
    for crop, share in (("tomato", 0.4), ("cabbage", 0.4), ("pickling cucumber", 0.1)):
        season = model.changed_season(alder_lane, Change(losses=((crop, share),)), GLUT)
        changed = model.compare_jars(
            before, model.plan_season(season, GLUT, years=5, before=before)
        )
        foods = {p.food for p in alder_lane.preserves if crop in p.crops}

        touched = [alder_lane.preserve(name).food in foods for name in changed["preserve"]]
        left = changed[~np.array(touched, bool)]
        # a jar or two elsewhere, of the kitchen hours that a stand-in takes or leaves
        assert set(left["reason"]) <= {"the hours or jars that others leave it"}
        assert left["difference"].abs().sum() <= 2


def test_without_new_facts_the_plan_stays_as_it_was(tiny_plan: PlannedSeason) -> None:
    again = replanned(tiny_plan, Change())

    assert again.plan.put_up == pytest.approx(tiny_plan.plan.put_up, abs=1e-6)
    assert model.compare_jars(tiny_plan, again).empty


def test_every_difference_has_its_reason(tiny_plan: PlannedSeason) -> None:
    gone = model.compare_jars(tiny_plan, replanned(tiny_plan, Change(losses=(("tomato", 0.7),))))
    asked = model.compare_jars(
        tiny_plan, replanned(tiny_plan, Change(targets=(("dilled beans", 9),)))
    )
    reasons = asked.set_index("preserve")["reason"]

    assert (gone["reason"] == "less tomato is to come (-70%)").all()
    assert reasons["dilled beans"] == "as you asked"
    assert (reasons.drop("dilled beans") != "").all()
