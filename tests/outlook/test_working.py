"""Every figure opens to at most five lines, and whoever redoes them comes to the figure."""

from collections.abc import Callable, Iterator, Sequence
from datetime import date

import pytest

import model
from model import PlannedSeason
from model.outlook.working import FROM_SETTING, MOST_LINES, Source, Working
from model.reference.read import source_title
from tests.conftest import GLUT
from tests.redone import comes_to, results, told

Family = Callable[[PlannedSeason], Iterator[Sequence[Working]]]


def plantings(plan: PlannedSeason) -> Iterator[Sequence[Working]]:
    yield from (
        model.workings.planting_workings(plan, b) for b in range(len(plan.case.forecast.plantings))
    )


def weeks(plan: PlannedSeason) -> Iterator[Sequence[Working]]:
    yield from (model.workings.week_workings(plan, monday) for monday in plan.case.weeks.mondays)


def places(plan: PlannedSeason) -> Iterator[Sequence[Working]]:
    yield from (model.workings.fullest_workings(plan, name) for name in plan.case.arrays.places)


def foods(plan: PlannedSeason) -> Iterator[Sequence[Working]]:
    for food in (*plan.case.arrays.foods, "whole plate"):
        yield from (model.workings.lasting_workings(plan, food, now=now) for now in (True, False))


def remedies(plan: PlannedSeason) -> Iterator[Sequence[Working]]:
    for row in model.ration_table(plan, 1, years=40).to_dict("records"):
        yield (model.workings.ration_working(plan, row, 40),)
    for row in model.buy_in_table(plan).to_dict("records"):
        yield (model.workings.buy_in_working(plan, row),)


def learned(plan: PlannedSeason) -> Iterator[Sequence[Working]]:
    yield (model.workings.seals_working(plan),) if plan.case.seals.batches else ()
    for row in model.learned_table(plan).to_dict("records"):
        yield (model.workings.learned_working(plan, row),)


def years(plan: PlannedSeason) -> Iterator[Sequence[Working]]:
    for year in plan.case.season.garden_seasons:
        if year.begins <= plan.case.today:
            yield tuple(model.workings.next_year_workings(plan.case, year.name).values())
            yield tuple(model.workings.book_workings(plan.case, year.name).values())


def preserves(plan: PlannedSeason) -> Iterator[Sequence[Working]]:
    yield from (
        model.workings.stock_workings(plan, r) for r in range(len(plan.case.season.preserves))
    )


def sizes(plan: PlannedSeason) -> Iterator[Sequence[Working]]:
    for row in model.sowing_size_table(plan).to_dict("records"):
        yield (model.workings.sowing_size_working(plan, row),)


FAMILIES: dict[str, Family] = {
    "plantings": plantings,
    "weeks": weeks,
    "places": places,
    "foods": foods,
    "remedies": remedies,
    "learned": learned,
    "years": years,
    "preserves": preserves,
    "sizes": sizes,
}


@pytest.fixture(scope="module")
def plans(
    spring_plan: PlannedSeason, southern_plan: PlannedSeason, alder_lane: model.Season
) -> tuple[PlannedSeason, ...]:
    return spring_plan, southern_plan, model.plan_season(alder_lane, GLUT, years=100)


@pytest.mark.parametrize("family", FAMILIES)
def test_every_figure_can_be_redone_in_five_lines(
    plans: tuple[PlannedSeason, ...], family: str
) -> None:
    seen = 0
    for plan in plans:
        for workings in FAMILIES[family](plan):
            for working in workings:
                assert comes_to(working), (working.what, working.shown, told(working))
                assert len(working.lines) <= MOST_LINES
                seen += 1
    assert seen


def judged(workings: Sequence[Working]) -> set[str]:
    """Give the settings that the lines of some workings lead to."""
    sources = {s for working in workings for one in working.lines for s in one.sources}
    return {s.key for s in sources if s.kind == FROM_SETTING and s.judgement}


def test_judgements_behind_a_figure_are_marked(spring_plan: PlannedSeason) -> None:
    freezer = next(p.name for p in spring_plan.case.season.places if p.kind == "freezer")
    own = [b for b, one in enumerate(spring_plan.case.forecast.own) if one.seasons]
    lasts = model.workings.lasting_workings(spring_plan, "tomatoes", now=False)

    assert "freezer_fill_share" in judged(model.workings.fullest_workings(spring_plan, freezer))
    assert "lean_share" in judged(lasts)
    assert {"near_total_loss_left", "garden_spread_factor"} <= judged(
        model.workings.planting_workings(spring_plan, own[0])
    )
    assert "seal_failure_share" in judged((model.workings.seals_working(spring_plan),))


def test_what_a_figure_comes_to_is_what_the_tables_show(spring_plan: PlannedSeason) -> None:
    week = model.week_table(spring_plan)
    busiest = week.loc[week["hours"].idxmax()]
    hours = list(results(model.workings.week_workings(spring_plan, busiest["week"])[0]))[-1]
    limits = model.limit_table(spring_plan)
    freezer = limits[limits["kind"] == "freezer"]["used"].max()
    name = limits[limits["kind"] == "freezer"].iloc[0]["limit"]
    litres = list(results(model.workings.fullest_workings(spring_plan, name)[0]))[-2]

    assert hours == pytest.approx(busiest["hours"], rel=0.05)
    assert litres == pytest.approx(freezer, rel=0.05)


def test_what_is_put_up_on_average_is_the_mean_of_the_simulated_years(
    spring_plan: PlannedSeason,
) -> None:
    for r, row in enumerate(model.preserve_table(spring_plan).itertuples()):
        if row.to_fill and row.unit in ("jar", "pack"):
            mean = model.workings.stock_workings(spring_plan, r)[1]

            assert list(results(mean))[-1] == pytest.approx(
                min(row.to_fill, spring_plan.filled[:, r].mean()), abs=0.05
            )


@pytest.mark.parametrize("day", [date(2028, 1, 31), date(2028, 2, 14), date(2028, 2, 21)])
def test_what_is_not_eaten_in_time_can_be_redone(alder_lane: model.Season, day: date) -> None:
    plan = model.plan_season(alder_lane, day, years=20)
    first = model.eat_first_table(plan)
    spoils = first[first["not_eaten_units"] > 0]

    assert len(spoils)
    for row in spoils.to_dict("records"):
        working = model.workings.spoils_working(plan, row)
        words = working.shown.partition(" ")[0]
        assert comes_to(working), told(working)
        assert f"about {words} " in row["why_first"]


def test_the_middle_year_ends_in_what_is_left(spring_plan: PlannedSeason) -> None:
    lasts = model.workings.lasting_workings(spring_plan, "tomatoes", now=False)[0]

    assert isinstance(lasts.shown, date)
    assert told(lasts)[0].startswith("the middle year: ")
    assert any("years reach it / 200" in line for line in told(lasts))


def test_a_published_figure_names_who_published_it() -> None:
    two = Source("published", "usda-aib410;freezer-chart;msu-01600948")

    assert source_title("usda-aib410") in two.words
    assert two.words.endswith("; and 1 more")
    assert not two.judgement


@pytest.mark.parametrize("status", ["judgement", "memory", "practice"])
def test_a_figure_that_nobody_published_is_a_judgement(status: str) -> None:
    assert Source("published", "usda-aib410", status=status).judgement
    assert Source("published", "practice").judgement
