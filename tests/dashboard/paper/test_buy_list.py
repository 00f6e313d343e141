"""The buy list, rendered and read again."""

from dataclasses import replace

import pytest

import model
from dashboard.ahead_tables import bought_words, buy_list_rows, in_house_rows
from dashboard.paper.buy_list import buy_list
from dashboard.words import day, local, write_as
from model.planning import PlannedSeason
from model.season.household import DAY_FIRST, YEAR_FIRST
from tests.dashboard.paper.reading import A4, LETTER, NASTY, Read, read


def printed(plan: PlannedSeason, household: str = "") -> Read:
    season = plan.case.season
    rows = buy_list_rows(model.buy_list_table(plan), season.units)
    named = replace(season, household=household or season.household)
    return read(buy_list(named, rows, plan.case.today))


def test_everything_to_be_bought_stands_on_the_list_with_its_day(
    spring_plan: PlannedSeason,
) -> None:
    rows = buy_list_rows(model.buy_list_table(spring_plan), "metric")
    found = printed(spring_plan)

    assert len(rows) > 20
    for row in rows.itertuples():
        for told in (row.in_house_by, row.what, row.to_buy, row.used_for):
            assert local(told) in found.words
    assert "Alder Lane, an invented household" in found.pages[0]
    assert f"page {len(found.pages)} of {len(found.pages)}" in found.pages[-1]
    assert (found.blank_edges, found.size) == (True, A4)


def test_a_us_household_reads_its_own_units_and_dates_on_letter_paper(
    southern_plan: PlannedSeason,
) -> None:
    write_as(YEAR_FIRST, "US")
    found = printed(southern_plan)
    write_as(DAY_FIRST, "UK")

    assert (found.blank_edges, found.size) == (True, LETTER)
    assert "fl oz" in found.words
    assert " ml " not in found.words
    assert "2026-10-15" in found.words


def test_a_hostile_name_stays_inside_the_margins(spring_plan: PlannedSeason) -> None:
    found = printed(spring_plan, NASTY)

    assert found.blank_edges
    assert NASTY[:8] in found.words


@pytest.mark.parametrize(
    ("number", "unit", "units", "told"),
    [
        (157.2, "pack", "metric", "158 packs"),
        (1.0, "100 g bag", "metric", "1 bag"),
        # Exact: a US fluid ounce is 29.5735295625 ml, so 1200 ml are 40.6 of them.
        (1200.0, "ml", "US", "41 fl oz"),
        (1185.0, "ml", "metric", "1,185 ml"),
        (2.75, "level tsp", "metric", "2.75 level tsp"),
        (2.8, "level tsp", "metric", "3 level tsp"),
        (23.2, "plant", "US", "24 plants"),
        (None, "", "metric", "as the recipe says"),
    ],
)
def test_what_is_bought_is_never_rounded_down(
    number: float | None, unit: str, units: str, told: str
) -> None:
    assert bought_words(number, unit, units) == told


def test_what_is_there_in_plenty_is_not_on_the_list(spring_plan: PlannedSeason) -> None:
    buying = model.buy_list_table(spring_plan)
    bought = set(buy_list_rows(buying, "metric")["what"])
    there = in_house_rows(buying, "metric")

    assert "850 ml jar" in set(there["what"])
    assert not bought & set(there["what"])
    assert day(spring_plan.case.today) in printed(spring_plan).words
