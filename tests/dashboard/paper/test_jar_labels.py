"""Labels: as many as are chosen, whole, and none for a jar whose seal nobody looked at."""

from datetime import date, timedelta

import model
from dashboard.paper.jar_labels import jar_labels
from model.season.record import SealCheck
from tests.dashboard.paper.reading import A4, NASTY, read
from tests.recorded import PACKS, batch, recorded

DAY = date(2027, 8, 16)
NEXT = DAY + timedelta(days=1)
JARS_CODE, PACKS_CODE, WAITING = "2027-08-16 whole tomatoes", "packs of Monday", "not looked at"
SEASON = recorded(
    batches=(
        batch(JARS_CODE, DAY, 7),
        batch(PACKS_CODE, DAY, 4, preserve=PACKS),
        batch(WAITING, DAY, 9),
    ),
    checks=(SealCheck(JARS_CODE, NEXT, 5.0, "refrigerated"),),
)


def due(today: date) -> dict[str, int]:
    return {label.code: number for label, number in model.labels_due(SEASON, today)}


def test_only_sealed_jars_and_filled_packs_are_labelled() -> None:
    assert due(DAY) == {PACKS_CODE: 4}
    assert due(NEXT) == {JARS_CODE: 5, PACKS_CODE: 4}


def test_a_jar_that_no_longer_seals_gets_no_label() -> None:
    none = recorded(batches=(batch("a", DAY, 7),), checks=(SealCheck("a", NEXT, 0.0, ""),))

    assert model.labels_due(none, NEXT) == ()


def test_every_label_stands_whole_on_the_page_as_often_as_was_chosen() -> None:
    found = read(jar_labels(SEASON, model.labels_due(SEASON, NEXT), NEXT))

    assert (len(found.pages), found.size, found.blank_edges) == (1, A4, True)
    assert found.words.count(JARS_CODE) == 5
    assert found.words.count(PACKS_CODE) == 4
    assert WAITING not in found.words
    assert "quart, 16 Aug 2027" in found.words
    assert "boiling water; shelf" in found.words
    assert "Tiny, an invented household" in found.words


def test_many_labels_with_long_names_go_on_over_pages_inside_the_margins() -> None:
    code = NASTY[:76]
    season = recorded(batches=(batch(code, DAY, 60, preserve=PACKS),))
    found = read(jar_labels(season, model.labels_due(season, DAY), DAY))

    assert len(found.pages) > 1
    assert found.blank_edges
    assert found.words.count("page") == len(found.pages)
    assert found.words.count("frozen beans") == 60
