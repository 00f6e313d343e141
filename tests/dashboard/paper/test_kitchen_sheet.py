"""The week's sheet: one page, what there is to do, and what does not fit told by its number."""

import re
from dataclasses import replace
from datetime import UTC, date, datetime

import numpy as np
import pytest

import model
from dashboard.paper.kitchen_sheet import kitchen_sheet
from dashboard.units import weight
from dashboard.words import local
from model.planning import PlannedSeason
from model.season.record import Batch, Record
from tests.conftest import GLUT
from tests.dashboard.paper.reading import A4, LETTER, NASTY, read

MORNING = datetime(2027, 8, 16, 10, tzinfo=UTC)


@pytest.fixture(scope="module")
def glut_plan(alder_lane: model.Season) -> PlannedSeason:
    return model.plan_season(alder_lane, GLUT, years=50)


def crowded(plan: PlannedSeason, batches: int) -> PlannedSeason:
    """Give a plan whose present week picks every crop and puts up every preserve.

    So many batches were put up on its first day, and nobody has looked at their seals.
    """
    harvest, put_up = plan.plan.harvest_kg.copy(), plan.plan.put_up.copy()
    harvest[:, 0], put_up[:, 0] = 40.0, 31.0
    season = plan.case.season
    canned = next(p.name for p in season.preserves if p.canned)
    record = Record(
        batches=tuple(
            Batch(f"{n} {NASTY[:70]}", plan.case.today, None, canned, 7.0, "", "")
            for n in range(batches)
        )
    )
    case = replace(plan.case, season=replace(season, household=NASTY, record=record))
    changed = replace(plan.plan, harvest_kg=harvest, put_up=put_up)
    high = np.maximum(plan.harvest_high, harvest)
    return replace(plan, case=case, plan=changed, harvest_high=high)


def test_the_glut_week_stands_on_one_page_with_its_limits_and_loads(
    glut_plan: PlannedSeason,
) -> None:
    found = read(kitchen_sheet(glut_plan, MORNING))
    batches = model.batch_table(glut_plan)
    this = batches[(batches["week"] == date(2027, 8, 16)) & (batches["jars"] > 0)]
    limits = model.week_limit_table(glut_plan)

    assert (len(found.pages), found.size, found.blank_edges) == (1, A4, True)
    assert "Week of 16 Aug 2027 Alder Lane, an invented household" in found.words
    assert len(this) > 3
    for name in this["preserve"]:
        assert local(name) in found.words
    for name in limits[limits["taken_by_plan"] > 0]["limit"]:
        assert local(name) in found.words
    assert "20 h free" in found.words
    assert "2027-08-15 corn relish ____ of 6 from 09:10 on 16 Aug" in found.words
    fresh = model.fresh_table(glut_plan, 0)
    picked = fresh[fresh["expected_kg"] > 0].sort_values("expected_kg", ascending=False)["crop"]
    (left,) = re.findall(r"and (\d+) more on the page This week Put up", found.words)
    assert len(picked) - int(left) >= 7
    for crop in picked.head(len(picked) - int(left)):
        assert local(crop) in found.words


def test_a_week_of_thirty_five_products_is_cut_to_one_page_and_says_so(
    glut_plan: PlannedSeason,
) -> None:
    full = crowded(glut_plan, 12)
    rows = len(full.case.season.preserves)
    assert rows >= 30
    found = read(kitchen_sheet(full, MORNING))

    assert (len(found.pages), found.blank_edges) == (1, True)
    left = [
        int(number) for number in re.findall(r"and (\d+) more on the page This week", found.words)
    ]
    assert len(left) == 3
    told = len(re.findall(r"box: \d+ (?:jar|pack|kg|bag|litre)", found.words))
    crops = len(full.case.arrays.crops)
    assert told + left[1] + left[2] == rows + crops
    assert told >= 6
    assert found.words.count("an invented household") == 2
    assert len(re.findall("____ of 7", found.words)) + left[0] == 12
    assert left[0] < 12


def test_no_word_of_the_glut_week_is_cut_and_unsealed_jars_have_their_limit_and_their_end(
    glut_plan: PlannedSeason,
) -> None:
    """Iowa State University Extension: unsealed after 24 hours, a jar is thrown away untasted."""
    long = "2027-08-15 the second load of the corn relish with the red peppers"
    named = Batch(long, date(2027, 8, 15), None, "corn relish", 6.0, "", "")
    case = replace(
        glut_plan.case, season=replace(glut_plan.case.season, record=Record(batches=(named,)))
    )
    plan = replace(glut_plan, case=case)
    words = read(kitchen_sheet(plan, datetime(2027, 8, 15, 20, tzinfo=UTC))).words
    late = read(kitchen_sheet(plan, datetime(2027, 8, 17, 20, tzinfo=UTC))).words
    little = glut_plan.plan.harvest_kg.copy()
    little[[crop != "chard" for crop in glut_plan.case.arrays.crops], 0] = 0.0
    few = replace(glut_plan, plan=replace(glut_plan.plan, harvest_kg=little))
    chard = model.fresh_table(few, 0).set_index("crop").loc["chard"]

    assert "\N{HORIZONTAL ELLIPSIS}" not in words
    there = f"there before: {weight(chard['before_kg'], 'metric')}"
    assert there in read(kitchen_sheet(few, MORNING)).words
    assert re.search(r"once cured: \d+ \w+", words)
    assert "After that: throw them away, untasted." in words
    assert "unsealed ones by 00:00 on 16 Aug" in words
    assert "unsealed ones: throw away, untasted" in late


def test_a_us_household_has_letter_paper_and_pounds(southern_plan: PlannedSeason) -> None:
    found = read(kitchen_sheet(southern_plan, MORNING))

    assert (len(found.pages), found.size, found.blank_edges) == (1, LETTER, True)
    assert " kg" not in found.words
    assert "cu ft free" in found.words
