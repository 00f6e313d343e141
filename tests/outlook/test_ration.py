"""The smallest change that reaches the new crop, held against the same years by hand."""

from dataclasses import replace
from datetime import date, timedelta

import numpy as np
import pytest

import model
from model.outlook.headings import HEADINGS
from model.outlook.lasting import gives_out, present_stretch
from model.outlook.ration_table import RATION_YEARS, REACHES, STEP_PORTIONS, ration_table
from model.planning import SEED, PlannedSeason
from model.planting.fresh_years import lived
from model.season.season import Season
from model.season.settings import PLAN_FOR
from model.simulation.food_years import food_years
from tests.conftest import MIDWINTER
from tests.recorded import JARS, count, recorded

MARCH = date(2027, 3, 1)


def with_jars(jars: float) -> Season:
    return recorded(counts=(count(date(2027, 2, 21), jars, put_up=date(2026, 9, 1)),))


def chance(planned: PlannedSeason, less: float) -> float:
    """Live through the same years with so many portions of tomatoes a week less."""
    f = planned.case.arrays.foods.index("tomatoes")
    stretch = present_stretch(planned, f)
    assert stretch is not None
    wanted = planned.plan.wanted.copy()
    weeks = wanted[f, slice(*stretch)]
    weeks *= 1 - less / weeks.mean()
    plan = replace(planned.plan, wanted=wanted)
    years = food_years(
        lived(planned.case, plan, RATION_YEARS, SEED, as_wanted=True), planned.case.arrays
    )
    share = planned.case.season.settings.lean_share
    return float((gives_out(years, f, *stretch, share) >= stretch[1]).mean())


@pytest.mark.parametrize("plan_for", PLAN_FOR)
def test_half_a_portion_less_of_a_change_no_longer_reaches_the_new_crop(plan_for: str) -> None:
    season = replace(with_jars(18), plan_for=plan_for)
    planned = model.plan_season(season, MARCH, years=20)
    row = ration_table(planned, SEED, now=True).set_index("food").loc["tomatoes"]

    assert row["chance_before"] < REACHES[plan_for] <= row["chance_after"]
    assert chance(planned, row["less_portions"]) >= REACHES[plan_for]
    assert chance(planned, row["less_portions"] - STEP_PORTIONS) < REACHES[plan_for]
    assert row["ration"] == f"{row['less_portions']:g} portions a week less from now on"


def test_a_food_that_lasts_needs_no_change() -> None:
    planned = model.plan_season(with_jars(38), MARCH, years=20)

    assert "tomatoes" not in set(ration_table(planned, SEED, now=True)["food"])


def test_one_jar_is_no_ration() -> None:
    # one of the two is eaten by the book since the count
    planned = model.plan_season(with_jars(2), MARCH, years=20)
    row = ration_table(planned, SEED, now=True).set_index("food", drop=False).loc["tomatoes"]

    assert str(row["less_portions"]) in ("nan", "None")
    assert "too little for a ration" in row["ration"]
    assert set(row.index) <= set(HEADINGS)


def test_what_does_not_keep_is_eaten_up_and_not_rationed(midwinter_plan: PlannedSeason) -> None:
    rows = ration_table(midwinter_plan, SEED, years=100).set_index("food")
    potatoes = rows.loc["potatoes"]

    assert str(potatoes["less_portions"]) in ("nan", "None")
    assert "eating less does not help" in potatoes["ration"]
    helped = rows[rows["less_portions"].notna()]
    assert (helped["chance_after"] > helped["chance_before"]).all()


def test_the_same_seed_gives_the_same_rations(spring_plan: PlannedSeason) -> None:
    first, second = (ration_table(spring_plan, SEED, years=50) for _ in range(2))

    assert first.equals(second)


@pytest.mark.parametrize("now", [True, False])
def test_a_ration_speaks_of_the_stretch_that_is_looked_at(
    southern_february: PlannedSeason, *, now: bool
) -> None:
    planned = southern_february
    told = model.present_food_table(planned) if now else model.food_table(planned)
    told = told.set_index("food")
    rows = ration_table(planned, SEED, now=now, years=20).set_index("food")

    assert "pumpkin" in rows.index
    for food, row in rows.iterrows():
        assert (row["new_crop"], row["less_from"], row["chance_before"]) == (
            *told.loc[food, ["new_crop", "begins"]],
            told.loc[food, "chance_lasts"],
        )


def test_what_gives_out_before_it_is_past_keeping_is_told_what_lasts_so_long(
    southern_february: PlannedSeason,
) -> None:
    planned = southern_february
    row = ration_table(planned, SEED, years=20).set_index("food").loc["carrots and potatoes"]
    told = model.food_table(planned).set_index("food").loc["carrots and potatoes"]

    assert row["lasts_until"] < told["keeps_until"]
    assert row["ration"] == (
        f"{model.about(told['use_up_portions'])} a week last until {told['keeps_until']}; "
        "none of it keeps longer"
    )


def test_of_what_is_not_there_no_day_is_told_on_which_it_gives_out(
    southern_february: PlannedSeason,
) -> None:
    rows = ration_table(southern_february, SEED, years=20).set_index("food")

    arrays, plan = southern_february.case.arrays, southern_february.plan
    there = arrays.opening_units + plan.put_up.sum(axis=1)
    for food in ("snap beans", "corn", "pickles"):
        assert not there[arrays.food_of_preserve == arrays.foods.index(food)].any()
        assert str(rows.loc[food, "lasts_until"]) in ("NaT", "None")
        assert rows.loc[food, "ration"].startswith("nothing stands there")


def test_half_a_portion_a_week_is_still_a_ration() -> None:
    planned = model.plan_season(with_jars(4), MARCH, years=20)
    row = ration_table(planned, SEED, now=True).set_index("food").loc["tomatoes"]

    assert row["less_portions"] == pytest.approx(row["week_portions"] - 0.5)


def test_a_level_amount_that_is_no_ration_is_named_beside_what_to_do(
    midwinter_plan: PlannedSeason,
) -> None:
    row = ration_table(midwinter_plan, SEED, years=100).set_index("food").loc["peas"]
    told = model.food_table(midwinter_plan).set_index("food").loc["peas"]

    assert str(row["less_portions"]) in ("nan", "None")
    level = f"{model.about(told['level_portions'])} a week just reach the new crop"
    assert row["ration"].startswith(level)
    assert "too little for a ration" in row["ration"]


def test_a_ration_does_not_spare_what_would_be_past_keeping_before_it_is_eaten(
    midwinter_plan: PlannedSeason,
) -> None:
    rows = ration_table(midwinter_plan, SEED, years=100).set_index("food")
    roots = rows.loc["roots"]
    carrots = next(s for s in midwinter_plan.case.stock if s.preserve == "carrots in sand")
    own = midwinter_plan.case.season.preserve("carrots in sand")
    keeps = carrots.put_up + timedelta(weeks=own.keeps_weeks)
    monday = keeps - timedelta(days=keeps.weekday())
    left = roots["week_portions"] - roots["less_portions"]

    assert carrots.units * own.portions > left * (monday - MIDWINTER).days / 7
    assert f"carrots in sand (until {monday})" in roots["ration"]
    assert "pickled beetroot" not in roots["ration"]
    assert "not spared" not in rows.loc["tomatoes", "ration"]


def with_some_that_spoil(jars: float, sauce: float, keeps_weeks: int) -> PlannedSeason:
    """Plan from March with jars that keep so long from September, and sauce that lasts."""
    made, counted = date(2026, 9, 1), date(2027, 2, 28)
    season = recorded(
        counts=(
            count(counted, jars, put_up=made),
            count(counted, sauce, preserve="sauce", put_up=made),
        )
    )
    preserves = (
        replace(own, keeps_weeks=keeps_weeks) if own.name == JARS else own
        for own in season.preserves
    )
    return model.plan_season(replace(season, preserves=tuple(preserves)), MARCH, years=20)


def test_what_spoils_first_is_eaten_or_lost_and_never_spread_until_the_new_crop() -> None:
    # eight jars are 64 portions, of which 8 a week are eaten in the six weeks they still keep:
    # the sauce has to last the rest alone, whatever was spared of the jars before
    planned = with_some_that_spoil(8, 20, 32)
    case = planned.case
    row = ration_table(planned, SEED, now=True).set_index("food").loc["tomatoes"]
    past = date(2026, 8, 31) + timedelta(weeks=32)
    tomatoes, ends = case.arrays.foods.index("tomatoes"), case.weeks.index(row["new_crop"])
    begins = case.weeks.index(past)
    jars, sauce = (case.arrays.opening_units * case.arrays.portions)[:2]
    as_wanted = lived(case, planned.plan, RATION_YEARS, SEED, as_wanted=True)
    appetite, usual = as_wanted.appetite[:, tomatoes], as_wanted.usual[tomatoes]
    # in a year of large appetite the jars are gone before they spoil, and sauce is opened early
    early = np.maximum(0.0, appetite * usual[:begins].sum() - jars)
    last = case.season.settings.lean_share * usual[ends - 1]
    later = appetite * (usual[begins : ends - 1].sum() + last)

    def lasts(less_portions: float) -> float:
        return np.mean(early + later * (1 - less_portions / row["week_portions"]) <= sauce)

    assert row["less_from"] == past
    assert row["chance_after"] == pytest.approx(lasts(row["less_portions"]), abs=0.01)
    assert lasts(row["less_portions"] - STEP_PORTIONS) < REACHES["eight years in ten"]
    assert row["ration"] == (
        f"{row['less_portions']:g} portions a week less from {past} on; eaten first and not "
        f"spared: whole tomatoes (until {past})"
    )


def test_a_ration_begins_when_what_spoils_has_been_eaten_as_wanted() -> None:
    # 48 portions at 8 a week are eaten in six weeks, two before the jars are past keeping
    planned = with_some_that_spoil(6, 24, 34)
    row = ration_table(planned, SEED, now=True).set_index("food").loc["tomatoes"]

    assert row["less_from"] == MARCH + timedelta(weeks=6)


def test_what_its_turn_reaches_in_time_is_rationed_from_the_beginning() -> None:
    # 32 portions are eaten by the ration of five a week within the eight weeks they keep
    planned = with_some_that_spoil(4, 24, 34)
    row = ration_table(planned, SEED, now=True).set_index("food").loc["tomatoes"]

    assert row["less_from"] == MARCH
    assert row["ration"] == f"{row['less_portions']:g} portions a week less from now on"
