"""The cupboard-door list, rendered and read again."""

from dataclasses import replace

import pytest

import model
from dashboard.paper.cupboard_list import cupboard_list
from model.planning import PlannedSeason
from tests.dashboard.paper.reading import LETTER, NASTY, read


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
