"""The preserving day on paper: in order, with the tested times, and none that is not looked up."""

import re
from dataclasses import replace
from datetime import date, datetime, time

import pytest

import model
from dashboard.day_findings import clock
from dashboard.paper.day_paper import PaperDay, day_paper
from dashboard.words import local
from model import Season, Wanted
from tests.dashboard.paper.reading import A4, NASTY, Read, read
from tests.small_season import TABLES, small_season

DAY = date(2027, 8, 16)
NINE = datetime.combine(DAY, time(9))
WANTED = (Wanted("whole tomatoes", 14), Wanted("dilled beans", 9), Wanted("frozen beans", 3))


def planned(season: Season, *wanted: Wanted, begins: datetime = NINE) -> PaperDay:
    made, refused = model.day_products(season, wanted)
    sheet = model.day_sheet(season, made, refused, begins)
    return PaperDay(DAY, sheet, made)


def printed(season: Season, *wanted: Wanted, begins: datetime = NINE) -> Read:
    return read(day_paper(season, planned(season, *wanted, begins=begins)))


def test_every_load_stands_there_with_its_clock_times_and_tested_process() -> None:
    season = small_season()
    paper, found = planned(season, *WANTED), printed(season, *WANTED)
    cards = [one.card for one in paper.made if one.card is not None]

    assert (found.size, found.blank_edges) == (A4, True)
    assert "Tiny, an invented household" in found.words
    assert len(paper.sheet.loads) == 4
    for load in paper.sheet.loads:
        for step in load.steps:
            assert clock(step.begins, NINE) in found.words
    assert len(cards) == 2
    for card in cards:
        assert f"process {card.figure}" in found.words
        for words in (card.where_it_holds[1:], card.source, *card.steps):
            assert " ".join(words.split()) in found.words


def test_cautions_set_out_and_checklist_are_whole() -> None:
    season = small_season()
    paper, found = planned(season, *WANTED), printed(season, *WANTED)
    tags = set().union(*(product.tags for product in paper.made))

    for caution in model.cautions_for(tags):
        assert " ".join(caution.split()) in found.words
    for point in model.checklist(season, paper.made, DAY):
        assert local(point.words) in found.words
    for thing in model.set_out(season, paper.made):
        assert local(thing.what) in found.words


def test_the_only_minutes_of_a_process_are_those_of_the_published_table() -> None:
    """USDA AIB 539 as tabled: quarts of tomatoes in water 50 min, dilled beans 10 min, both at
    1,001-3,000 ft."""
    found = printed(small_season(), *WANTED)
    told = {int(number) for number in re.findall(r"process (\d+) minutes", found.words)}

    assert told == {50, 10}


@pytest.mark.parametrize("what", ["pumpkin butter", "pesto in oil"])
def test_what_has_no_tested_process_is_refused_and_gets_no_time(what: str) -> None:
    found = printed(small_season(), Wanted(what, 6, "boiling water", "hot", "pint"))

    assert f"Refused: {what}" in found.words
    assert "Ways that remain" in found.words
    assert not re.search(r"\d+ minutes|\d\d:\d\d", found.words)


def test_without_an_altitude_there_is_no_time() -> None:
    household = TABLES["household.csv"].replace("altitude_m,", "").replace("640,", "")
    season = small_season(
        household=household,
        preserves=TABLES["preserves.csv"].split("whole tomatoes")[0]
        + "frozen beans,beans,bush bean,freeze,,,pack,80\n",
        stock=None,
    )
    tomatoes = Wanted("Tomatoes, whole or halved, in water", 7, "boiling water", "hot", "quart")
    found = printed(season, tomatoes)

    assert "Refused" in found.words
    assert not re.search(r"\d+ minutes|\d\d:\d\d", found.words)


def test_a_day_past_bedtime_says_so_and_long_names_stay_inside_the_margins() -> None:
    late = datetime.combine(DAY, time(20))
    season = replace(small_season(), household=NASTY)
    found = printed(season, *WANTED, begins=late)

    assert "past bedtime" in found.words
    assert found.blank_edges
    assert found.words.count("an invented household") == 1 + len(found.pages)
