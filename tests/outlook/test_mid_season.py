"""Mid-season: how each preserve stands, what to buy in, what stands all in one place."""

from dataclasses import replace
from datetime import date

import numpy as np
import pandas as pd
import pytest

import model
from model.outlook.buy_in_table import buy_in_table
from model.outlook.concentration_table import concentration_table, winter_cover
from model.outlook.headings import HEADINGS
from model.outlook.lasting import lasting
from model.outlook.product_table import AHEAD, BEHIND, ENOUGH, ON_TRACK, product_table
from model.planning import PlannedSeason
from model.season.garden import Picking, Setback
from model.season.record import FREEZER_DIED, LOST, Meant, SealCheck
from model.season.season import Season
from tests.recorded import JARS, PACKS, batch, recorded, took

SUMMER = date(2027, 8, 16)


def products(season: Season, meant: float | None = None) -> pd.DataFrame:
    if meant is not None:
        kept = (Meant(date(2027, 4, 1), JARS, meant),)
        season = replace(season, record=replace(season.record, meant=kept))
    return product_table(model.plan_season(season, SUMMER, years=2)).set_index("preserve")


def jars_put_up(sealed: int) -> Season:
    made = batch("A", date(2027, 8, 10), sealed + 1)
    return recorded(
        batches=(made, batch("B", SUMMER, 7)),
        checks=(SealCheck("A", date(2027, 8, 11), sealed, ""),),
    )


def test_what_was_meant_and_is_sealed_is_enough() -> None:
    row = products(jars_put_up(6), 6).loc[JARS]

    assert row["product_status"] == ENOUGH
    assert row["product_reason"] == "6 are sealed, 6 were aimed at: no more are needed"
    assert (row["filled_units"], row["sealed_units"], row["unconfirmed_units"]) == (14, 6, 7)


def test_jars_that_fell_from_the_shelf_are_enough_no_more() -> None:
    season = jars_put_up(6)
    fell = replace(season.record, taken=(took(SUMMER, 5, LOST),))
    row = products(replace(season, record=fell), 400).loc[JARS]

    assert (row["sealed_units"], row["lost_units"]) == (6, 5)
    assert row["product_status"] == BEHIND
    assert row["product_reason"] == "5 of the 6 sealed were lost since"
    assert products(replace(season, record=fell), 6).loc[JARS, "product_status"] != ENOUGH


def test_jars_that_nobody_looked_at_are_no_enough() -> None:
    assert products(jars_put_up(6), 13).loc[JARS, "product_status"] != ENOUGH


def test_ahead_on_track_and_behind_are_a_tenth_from_what_was_meant() -> None:
    season = jars_put_up(6)
    row = products(season).loc[JARS]
    reached = row["sealed_units"] + row["still_units"]

    assert row["meant_units"] == reached
    assert row["product_status"] == ON_TRACK
    assert "none was kept before" in row["product_reason"]
    for meant, status in ((reached / 0.89, BEHIND), (reached / 0.91, ON_TRACK)):
        assert products(season, meant).loc[JARS, "product_status"] == status
    for meant, status in ((reached / 1.09, ON_TRACK), (reached / 1.11, AHEAD)):
        assert products(season, meant).loc[JARS, "product_status"] == status


def test_behind_says_that_hail_took_the_crop() -> None:
    hail = (Setback(date(2027, 8, 2), "tomato", 0.7),)
    row = products(replace(recorded(), setbacks=hail), 40).loc[JARS]

    assert row["product_status"] == BEHIND
    assert row["product_reason"] == "70% of the tomato went on 2027-08-02"


def test_hail_that_the_kept_plan_knew_of_is_no_reason_to_be_behind_it() -> None:
    hail = (Setback(date(2027, 3, 30), "tomato", 0.1),)
    row = products(replace(recorded(), setbacks=hail), 400).loc[JARS]

    assert row["product_status"] == BEHIND
    assert "went on" not in row["product_reason"]


def test_behind_says_that_little_was_picked() -> None:
    log = (Picking(date(2027, 8, 12), "bush bean", 20.0), Picking(SUMMER, "tomato", 0.1))
    late = replace(
        recorded(),
        pickings=log,
        record=replace(recorded().record, meant=(Meant(date(2027, 4, 1), JARS, 500),)),
    )
    planned = model.plan_season(late, date(2027, 9, 6), years=2)
    row = product_table(planned).set_index("preserve").loc[JARS]

    assert row["product_status"] == BEHIND
    assert row["product_reason"].startswith("tomato: 0.1 kg picked, ")


def test_it_is_known_for_sure_when_the_crop_is_usually_picked(
    tiny_plan: PlannedSeason,
) -> None:
    table = product_table(tiny_plan).set_index("preserve")

    # planted out 28 May, first picked after 72 days, picked for 60: past the median frost
    assert table.loc[JARS, "known_on"] == date(2027, 10, 4)
    # sown 28 May, 55 days to the first and about a fortnight of picking
    assert date(2027, 8, 1) < table.loc[PACKS, "known_on"] < date(2027, 9, 1)
    assert set(table.columns) <= set(HEADINGS)


@pytest.fixture(scope="module")
def short_plan() -> PlannedSeason:
    hail = (Setback(date(2027, 8, 2), "tomato", 0.9),)
    return model.plan_season(replace(recorded(), setbacks=hail), SUMMER, years=60)


def test_what_is_bought_in_covers_the_shortfall_of_the_winter(short_plan: PlannedSeason) -> None:
    rows = buy_in_table(short_plan)
    (row,) = rows[rows["food"] == "tomatoes"].to_dict("records")
    own = short_plan.case.season.preserve(row["preserve"])
    sealed = row["units"] * (1 - short_plan.case.season.settings.seal_failure_share)

    assert sealed * own.portions >= row["short_portions"] - 1e-6
    assert (sealed - 1) * own.portions < row["short_portions"]
    assert row["buy_kg"] == pytest.approx(row["units"] * own.ingredients[0].kg)
    assert SUMMER < row["buy_by"] <= date(2027, 10, 4)
    assert set(rows.columns) <= set(HEADINGS)


def test_eating_so_much_less_comes_to_the_level_amount(short_plan: PlannedSeason) -> None:
    row = buy_in_table(short_plan).set_index("food").loc["tomatoes"]
    f = short_plan.case.arrays.foods.index("tomatoes")
    last = lasting(short_plan, f)

    assert row["less_portions"] == pytest.approx(last.wanted_portions - last.level_portions)
    assert row["less_from"] == last.begins


def test_what_is_bought_in_is_no_more_than_is_missing(
    spring_plan: PlannedSeason, short_plan: PlannedSeason
) -> None:
    for planned in (spring_plan, short_plan):
        bought = buy_in_table(planned).groupby("food")["short_portions"].first().to_dict()
        plan = planned.plan
        missing = (plan.wanted - np.minimum(plan.met, plan.wanted)).sum(axis=1)
        for food, portions in zip(planned.case.arrays.foods, missing, strict=True):
            assert bought.get(food, 0.0) <= portions + 1e-6
        covered = [
            f for f, part in zip(planned.case.arrays.foods, missing, strict=True) if part < 1
        ]
        assert not set(covered) & set(bought)


def test_all_frozen_is_a_warning_with_what_would_halve_it(spring_plan: PlannedSeason) -> None:
    table = concentration_table(spring_plan)
    cover = np.array(winter_cover(spring_plan))
    season = spring_plan.case.season
    groups = {food.name: food.group for food in season.foods if food.plate}
    places = {preserve.place for preserve in season.preserves}
    in_places = [np.array([p.place == place for p in season.preserves]) for place in places]

    assert set(table.columns) <= set(HEADINGS)
    assert (table["cover_share"] > 0.5).all()
    for by in ("place", "method"):
        found = table[table["stands_by"] == by].set_index(["food_group", "stands_in"])
        for group in set(groups.values()):
            own = np.array([groups.get(p.food) == group for p in season.preserves])
            for where in {getattr(p, by) for p in season.preserves}:
                there = own & np.array([getattr(p, by) == where for p in season.preserves])
                held, whole = cover[there].sum(), cover[own].sum()
                once = by == "place" or not any(
                    np.array_equal(there & (cover > 0), own & stands & (cover > 0))
                    for stands in in_places
                )
                assert ((group, where) in found.index) == (held > whole / 2 and once)
                if (group, where) in found.index:
                    more = int(found.loc[(group, where), "remedy"].split()[0])
                    assert held - more <= whole / 2 < held - more + 1


def test_a_household_with_one_freezer_for_its_beans_is_told_of_it() -> None:
    season = recorded()
    only = tuple(p for p in season.preserves if p.name in (PACKS, JARS))
    planned = model.plan_season(replace(season, preserves=only), date(2027, 3, 1), years=2)
    rows = concentration_table(planned)

    assert not rows.empty
    assert rows["warning"].str.contains("stands in one place|kept by one method").all()


def test_what_would_halve_it_names_nothing_frozen_after_the_freezer_died(
    midwinter_plan: PlannedSeason,
) -> None:
    season, today = midwinter_plan.case.season, midwinter_plan.case.today
    lost = model.write_off(
        season, model.ledgers(season, today), "chest freezer", FREEZER_DIED, today
    )
    taken = (*season.record.taken, *lost)
    after = replace(season, record=replace(season.record, taken=taken))
    remedies = concentration_table(model.plan_season(after, today, years=2))["remedy"]
    frozen = [p.name for p in season.preserves if p.place == "chest freezer"]

    assert len(remedies)
    assert not [name for name in frozen if remedies.str.contains(name).any()]
