"""The cupboard-door list, rendered and read again."""

from dataclasses import replace

import pytest

import model
from dashboard.paper.cupboard_list import cupboard_list
from model.planning import PlannedSeason
from model.season.record import SUSPECT, Taken
from tests.conftest import GLUT
from tests.dashboard.paper.reading import A4, LETTER, NASTY, read


@pytest.mark.parametrize("household", ["as it is", NASTY])
def test_every_making_stands_on_the_list_inside_the_margins(
    southern_plan: PlannedSeason, household: str
) -> None:
    season, today = southern_plan.case.season, southern_plan.case.today
    first = model.eat_first_table(southern_plan)
    assert not first.empty

    found = read(cupboard_list(replace(season, household=household), first, today))

    assert found.blank_edges
    assert found.size == LETTER
    assert household[:8] in found.words
    for name in first["preserve"]:
        assert name[:12] in found.words


def test_nothing_is_told_to_be_taken_before_its_seals_were_looked_at(
    alder_lane: model.Season,
) -> None:
    """Common practice, no source: what is on top of the list is what a hand takes."""
    first = model.eat_first_table(model.plan_season(alder_lane, GLUT, years=2))
    page = read(cupboard_list(alder_lane, first, GLUT)).pages[0]
    unseen = first[first["condition"].eq("seals not looked at")]
    assert list(unseen["preserve"]) == ["corn relish"]

    block = page.index("Do not take yet: look at the seals first")
    assert page.index("corn relish") > block
    others = first[~first["preserve"].isin(unseen["preserve"])]["preserve"]
    assert all(page.index(name) < block for name in others)


def test_jars_like_one_that_was_bad_are_not_to_be_taken_before_each_was_looked_at(
    midwinter_plan: PlannedSeason,
) -> None:
    season, today = midwinter_plan.case.season, midwinter_plan.case.today
    batch = [b for b in season.record.batches if b.preserve == "ketchup"][-1]
    bad = Taken(today, batch.preserve, 1, "lost", SUSPECT, batch.code)
    record = replace(season.record, taken=(*season.record.taken, bad))
    case = replace(midwinter_plan.case, season=replace(season, record=record))
    first = model.eat_first_table(replace(midwinter_plan, case=case))
    words = read(cupboard_list(season, first, today)).words

    assert words.index("ketchup") > words.index("Do not take yet: a jar like it was bad")


def test_the_caution_stands_at_the_head_of_one_page_in_midwinter(
    midwinter_plan: PlannedSeason,
) -> None:
    season, today = midwinter_plan.case.season, midwinter_plan.case.today
    first = model.eat_first_table(midwinter_plan)
    found = read(cupboard_list(season, first, today))

    assert len(first) > 30
    assert (len(found.pages), found.size, found.blank_edges) == (1, A4, True)
    caution = found.words.index("look, tilt and smell")
    assert caution < min(found.words.index(name) for name in first["preserve"])
