"""The cupboard-door list, rendered and read again."""

from dataclasses import replace

import numpy as np
import pypdfium2
import pytest

import model
from dashboard.paper.cupboard_list import cupboard_list
from model.planning import PlannedSeason

NASTY = "=1+1 <b>'\"&</b> \u0645\u0631\u0628\u0649 \U0001f345 " + "long " * 60


def words_and_edges(pdf: bytes) -> tuple[str, bool]:
    """Give the text of all pages, and whether the outer 8 mm of each are blank."""
    document = pypdfium2.PdfDocument(pdf)
    text, blank = "", True
    for page in document:
        text += page.get_textpage().get_text_range()
        ink = np.asarray(page.render(scale=1, grayscale=True).to_numpy()).squeeze() < 250
        edge = round(8 / 25.4 * 72)
        ink[edge:-edge, edge:-edge] = False
        blank = blank and not ink.any()
    document.close()
    return text, blank


@pytest.mark.parametrize("household", ["as it is", NASTY])
def test_every_making_stands_on_the_list_inside_the_margins(
    southern_plan: PlannedSeason, household: str
) -> None:
    season, today = southern_plan.case.season, southern_plan.case.today
    first = model.eat_first_table(southern_plan)
    assert not first.empty

    text, blank = words_and_edges(cupboard_list(replace(season, household=household), first, today))

    assert blank
    assert household[:8] in text
    for name in first["preserve"]:
        assert name[:12] in text
