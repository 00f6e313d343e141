"""What holds for every plan, whatever the season."""

from dataclasses import replace
from datetime import date, timedelta

import numpy as np
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from model.case import Case, make_case
from model.optimization.make_plan import make_plan
from model.optimization.planning_program import FAMILIES, Family
from model.planning import PlannedSeason
from model.season.season import Season
from tests.plan_check import broken_rules
from tests.random_seasons import seasons
from tests.recorded import batch, recorded
from tests.small_season import TABLES, small_season

DAY = date(2027, 8, 16)
EVERY = settings(max_examples=200, suppress_health_check=[HealthCheck.too_slow], derandomize=True)


@EVERY
@given(seasons(), st.integers(0, 306))
def test_every_plan_keeps_every_rule(season: Season, days: int) -> None:
    case = make_case(season, date(2027, 2, 28) + timedelta(days=days))

    assert broken_rules(case, make_plan(case).plan) == []


def test_the_plans_of_the_invented_households_keep_every_rule(
    spring_plan: PlannedSeason, southern_plan: PlannedSeason
) -> None:
    for planned in (spring_plan, southern_plan):
        assert broken_rules(planned.case, planned.plan) == []


def test_a_plan_with_jars_whose_seals_wait_keeps_every_rule() -> None:
    """They come to the shelf as far as they should be sealed, and are eaten while they keep."""
    waiting = (batch("A", DAY, 7), batch("B", DAY - timedelta(days=3), 9, preserve="sauce"))
    case = make_case(recorded(batches=waiting), DAY)

    assert case.stock == ()
    assert case.arrays.opening_units[:2].min() > 6
    assert broken_rules(case, make_plan(case).plan) == []


def test_a_broken_plan_is_caught(tiny_plan: PlannedSeason) -> None:
    """The re-check itself must be able to fail."""
    plan = tiny_plan.plan
    more = plan.opened.copy()
    more[0, 3] += 1.0
    hours = plan.loads.copy()
    hours[0, 20] += 30

    assert broken_rules(tiny_plan.case, plan) == []
    assert broken_rules(tiny_plan.case, replace(plan, opened=more))
    assert broken_rules(tiny_plan.case, replace(plan, loads=hours))


# What these ask is worth only: without them nothing impossible is planned.
WORTH_ONLY = {"fresh_first", "shares_kept", "reserve_in_hand", "wishes"}
PHYSICAL = [family for family in FAMILIES if family.__name__ not in WORTH_ONLY]


@pytest.fixture(scope="module")
def tight_cases() -> list[Case]:
    """Seasons short of bed and hours, of lids and room, or of jars."""
    return [
        tight_case(bed_m2=4, jars="quart,946,7,30\npint,473,5,30", hours=1.0),
        tight_case(bed_m2=20, jars="quart,946,12,9\npint,473,20,18", hours=5),
        tight_case(bed_m2=20, jars="quart,946,7,30\npint,473,5,30", hours=2.5),
        tight_case(bed_m2=60, jars="quart,946,7,30\npint,473,5,30", hours=2.5, sown_again=True),
    ]


def tight_case(bed_m2: int, jars: str, hours: float, *, sown_again: bool = False) -> Case:
    beans = "2" if sown_again else "8"
    again = f"2027,bush bean,only bed,2027-06-20,,{beans},,10,300,beans\n" * sown_again
    heading, *rows = TABLES["preserves.csv"].splitlines()
    rows = [f"{row},{'3' if 'sauce' in row else ''},," for row in rows]
    rows += [
        "dried tomatoes,tomatoes,tomato,dry,,,,20,,,",
        "crock beans,beans,bush bean,ferment,,,,20,,1.2,",
    ]
    return make_case(
        small_season(
            preserves="\n".join([heading + ",target,fresh_per_jar_kg,keeps_weeks", *rows]) + "\n",
            plantings=(
                "season,crop,bed,sown,planted_out,area_m2,plants,least_percent,most_percent,choice\n"
                f"2027,bush bean,only bed,2027-05-28,,{beans},,10,300,beans\n"
                f"{again}"
                "2027,tomato,only bed,2027-03-20,2027-05-28,,20,10,300,\n"
            ),
            beds=f"bed,area_m2\nonly bed,{bed_m2}\n",
            jars=f"jar,volume_ml,owned,lids\n{jars}\npack,750,,\n",
            equipment=(
                "equipment,kind,jar,jars_per_load,fresh_per_load_kg,loads_a_week\n"
                "pan,boiling-water canner,quart,7,,\n"
                "pan,boiling-water canner,pint,9,,\n"
                "rack,dryer,,,1.5,1\n"
            ),
            places=(
                "place,kind,shelf_area_m2,tiers,volume_l,holds_kg\n"
                "shelf,shelf,0.25,1,,\nfreezer,freezer,,,25,\ncrock,crock,,,6,\n"
            ),
            kitchen_hours=f"begins,ends,hours_a_week\n,,{hours}\n",
        ),
        date(2027, 3, 1),
    )


@pytest.mark.parametrize("left_out", PHYSICAL, ids=lambda family: family.__name__)
def test_a_plan_made_without_one_family_of_constraints_breaks_a_rule(
    tight_cases: list[Case], left_out: Family
) -> None:
    kept = [family for family in FAMILIES if family is not left_out]

    for case in tight_cases:
        assert broken_rules(case, make_plan(case).plan) == []
    assert any(broken_rules(case, make_plan(case, families=kept).plan) for case in tight_cases)


@pytest.mark.parametrize("file", ["plantings.csv", "preserves.csv", "foods.csv", "jars.csv"])
def test_the_order_of_the_rows_changes_nothing_but_the_order(file: str) -> None:
    heading, *rows = TABLES[file].splitlines()
    turned = "\n".join([heading, *reversed(rows)]) + "\n"
    one, two = (
        make_case(season, date(2027, 3, 1))
        for season in (small_season(), small_season(**{file.removesuffix(".csv"): turned}))
    )
    first, second = make_plan(one).plan, make_plan(two).plan

    for r, name in enumerate(one.arrays.preserves):
        other = two.arrays.preserves.index(name)
        assert first.put_up[r] == pytest.approx(second.put_up[other], abs=1e-4)
    assert first.report.worth == pytest.approx(second.report.worth, rel=1e-6)


def test_the_same_season_gives_the_same_plan(tiny: Season) -> None:
    case = make_case(tiny, date(2027, 3, 1))
    one, two = make_plan(case), make_plan(case)

    assert (one.plan.put_up == two.plan.put_up).all()
    assert (one.plan.opened == two.plan.opened).all()
    again = make_plan(case, start=one.basis)
    assert again.plan.put_up == pytest.approx(one.plan.put_up, abs=1e-6)


def test_more_room_more_jars_or_more_hours_never_hurt(tiny: Season) -> None:
    bound = make_plan(make_case(tiny, date(2027, 3, 1))).plan.report.bound
    more = [
        {"kitchen_hours": "begins,ends,hours_a_week\n,,9\n"},
        {"jars": TABLES["jars.csv"].replace("quart,946,40,60", "quart,946,80,120")},
        {"places": TABLES["places.csv"].replace(",150,", ",300,")},
        {"beds": "bed,area_m2\nonly bed,90\n"},
    ]
    for change in more:
        wider = make_plan(make_case(small_season(**change), date(2027, 3, 1))).plan.report.bound
        assert wider >= bound - 1e-6, change


def test_portions_are_conserved_from_jar_to_plate(spring_plan: PlannedSeason) -> None:
    plan, arrays = spring_plan.plan, spring_plan.case.arrays
    opened = (plan.opened * arrays.portions[:, None]).sum()

    assert plan.fresh.sum() + opened == pytest.approx(plan.met.sum(), rel=1e-6)
    assert np.isfinite(plan.shelf).all()
