"""Kilograms, jars, portions and minutes are neither made nor lost on their way, to 1e-6.

The sums are done here, from the nouns of the season; nothing is taken from the optimiser.
"""

from datetime import UTC, date, datetime, timedelta
from pathlib import Path
from tempfile import TemporaryDirectory

import numpy as np
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from model.exchange.csv_out import csv_zip
from model.exchange.upload import read_upload
from model.exchange.workbook import workbook
from model.intake.gate import season_from_tables
from model.outlook.food_table import food_table
from model.outlook.kitchen_table import batch_table, limit_table, preserve_table
from model.planning import PlannedSeason, plan_season
from model.season.season import Season
from model.simulation.lived_years import Follower, live_through
from model.simulation.luck import ordinary_luck
from model.store.store import Store
from model.store.versions import Author
from tests.random_seasons import season_texts, seasons
from tests.small_season import season_of, small_tables, tables_of

SOME = settings(max_examples=40, suppress_health_check=[HealthCheck.too_slow], derandomize=True)
SPRING = date(2027, 2, 28)
NOW = datetime(2027, 3, 1, tzinfo=UTC)
KG_A_POUND = 0.45359237  # exact, NIST Handbook 44 appendix C
M2_A_SQUARE_FOOT = 0.09290304
YEARS = 30


def planned(season: Season, days: int) -> PlannedSeason:
    return plan_season(season, SPRING + timedelta(days=days), years=5)


def close(one: float, other: float) -> None:
    assert one == pytest.approx(other, rel=1e-6, abs=1e-6)


@SOME
@given(st.lists(st.decimals("0.01", "200", places=2), min_size=1, max_size=6), st.booleans())
def test_the_gate_keeps_what_was_written_in_any_unit(numbers: list[object], ours: bool) -> None:
    unit, in_kg = ("kg", 1.0) if ours else ("lb", KG_A_POUND)
    ground, in_m2 = ("m2", 1.0) if ours else ("ft2", M2_A_SQUARE_FOOT)
    rows = "".join(f"2027-02-0{n},tomato,{number}\n" for n, number in enumerate(numbers, 1))
    beds = "".join(f"bed {n},{number}\n" for n, number in enumerate(numbers))
    season = season_of(
        {
            **small_tables(),
            "harvest_log.csv": f"picked_on,crop,picked_{unit}\n{rows}",
            "beds.csv": f"bed,area_{ground}\nonly bed,400\n{beds}",
        }
    )
    written = float(sum(numbers))

    close(sum(picking.kg for picking in season.pickings), written * in_kg)
    close(sum(bed.area_m2 for bed in season.beds), (written + 400) * in_m2)


@SOME
@given(season_texts(), st.sampled_from([csv_zip, workbook]))
def test_the_store_and_the_way_out_keep_a_season_to_the_letter(
    texts: dict[str, str], out: object
) -> None:
    tables = tables_of(texts)
    with TemporaryDirectory() as folder:
        store = Store(Path(folder) / "households.sqlite", NOW)
        own = store.begin("Tiny", tables, Author("begin", NOW, "", "begun"))
        stored = store.tables(own)
        back = read_upload(out(stored), "ours")

    assert season_from_tables(stored) == season_of(texts)
    assert season_from_tables(back) == season_of(texts)


@SOME
@given(seasons(), st.integers(0, 250))
def test_the_tables_add_up_to_the_plan(season: Season, days: int) -> None:
    made = planned(season, days)
    plan, preserves, batches = made.plan, preserve_table(made), batch_table(made)
    minutes = fresh_kg = 0.0
    for r, preserve in enumerate(season.preserves):
        units, loads = plan.put_up[r].sum(), plan.loads[r].sum()
        minutes += units * preserve.minutes_per_unit + loads * preserve.minutes_per_load
        fresh_kg += units * sum(part.kg for part in preserve.ingredients)
    limits = limit_table(made)
    hours = limits.loc[limits["kind"] == "kitchen hours", "used"].sum()
    foods = food_table(made)

    close(preserves["minutes"].sum(), minutes)
    close(batches["minutes"].sum(), minutes)
    close(hours * 60, minutes)
    close(preserves["fresh_kg"].sum(), fresh_kg)
    close(batches["fresh_kg"].sum(), fresh_kg)
    close(batches["jars"].sum(), preserves["to_fill"].sum())
    close(foods["met_portions"].sum(), np.minimum(plan.met, plan.wanted).sum())


@SOME
@given(seasons(), st.integers(0, 60), st.integers(0, 2**32 - 1))
def test_simulated_years_lose_no_kilogram_and_no_portion(
    season: Season, days: int, seed: int
) -> None:
    """They are lived in single precision: to 1e-6 of what a year holds, in each of its weeks."""
    made = planned(season, days)
    case, plan, arrays = made.case, made.plan, made.case.arrays
    weather = np.random.default_rng(seed).lognormal(0, 0.6, (YEARS, len(season.crops), 1))
    harvest = (plan.harvest_kg * weather).astype(np.float32)
    luck = ordinary_luck(YEARS, arrays.sealed_share, len(case.weeks), len(arrays.foods))
    lived = live_through(
        Follower(plan, arrays, case.demand.cover_until, as_wanted=True), harvest, luck
    )
    filled, left = lived.filled.astype(float), lived.shelf[:, :, -1].astype(float)
    drift = 1e-6 * len(plan.weeks)

    assert case.before_kg.sum() == 0
    for c, crop in enumerate(season.crops):
        picked = harvest[:, c].sum(axis=1, dtype=float)
        food = season.foods.index(season.food_of_crop(crop.name))
        eaten = lived.fresh[:, food].sum(axis=1, dtype=float) / arrays.portions_per_kg[c]
        used = sum(
            filled[:, r] * part.kg
            for r, preserve in enumerate(season.preserves)
            for part in preserve.ingredients
            if part.crop == crop.name
        )
        in_hand = picked - eaten - used - lived.wasted_kg[:, c]
        held = harvest[:, c, -int(arrays.hold_weeks[c]) :].sum(axis=1)
        assert (in_hand >= -drift * (1 + picked)).all()
        assert (in_hand <= held + drift * (1 + picked)).all()
    for f, food in enumerate(season.foods):
        rows = [r for r, preserve in enumerate(season.preserves) if preserve.food == food.name]
        portions, came = arrays.portions[rows], arrays.sealed_share[rows] * filled[:, rows]
        came = came + arrays.opening_units[rows]
        taken = (came - lived.past[:, rows] - left[:, rows]) @ portions
        eaten = (lived.met[:, f] - lived.fresh[:, f]).sum(axis=1, dtype=float)
        gifts = sum(
            gift.units * season.preserve(gift.preserve).portions
            for gift in season.gifts
            if season.preserve(gift.preserve).food == food.name
        )
        most = drift * (1 + came @ portions)
        assert (taken >= eaten - most).all()
        assert (taken <= eaten + gifts + most).all()
