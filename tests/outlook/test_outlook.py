from datetime import date

import numpy as np
import pandas as pd
import pytest

import model
from model.outlook.headings import HEADINGS
from model.outlook.lasting import lasting, plate_lasting
from model.planning import PlannedSeason

TABLES = {
    "batch_table": model.batch_table,
    "buy_list_table": model.buy_list_table,
    "fresh_table": lambda planned: model.fresh_table(planned, 22),
    "food_stock_table": model.food_stock_table,
    "food_table": model.food_table,
    "harvest_table": model.harvest_table,
    "lean_table": model.lean_table,
    "limit_table": model.limit_table,
    "opening_table": lambda planned: model.opening_table(planned, 0),
    "plate_table": model.plate_table,
    "planting_table": model.planting_table,
    "present_food_table": model.present_food_table,
    "preserve_table": model.preserve_table,
    "progress_table": model.progress_table,
    "stock_table": model.stock_table,
    "supply_table": model.supply_table,
    "task_table": model.task_table,
    "week_limit_table": model.week_limit_table,
    "week_table": model.week_table,
}

BLANK = {
    "batch_table": {"cure_until_low"},
    "buy_list_table": {"needed", "there", "to_buy"},
    "planting_table": {"first_picking", "plants", "sown", "start"},
    "task_table": {"number", "begins_at", "ends_at"},
    "food_table": {"new_crop", "keeps_until"},
    "present_food_table": {"keeps_until"},
    "plate_table": {"keeps_until"},
}


@pytest.mark.parametrize("name", sorted(TABLES))
def test_every_column_of_every_table_has_a_heading(spring_plan: PlannedSeason, name: str) -> None:
    table = TABLES[name](spring_plan)

    assert isinstance(table, pd.DataFrame)
    assert set(table.columns) <= set(HEADINGS)
    for column in table.columns[table.isna().any()]:
        assert column in BLANK.get(name, ()), (name, column)


def test_jars_to_fill_allow_for_seals_and_stand_beside_the_hand_rule(
    spring_plan: PlannedSeason,
) -> None:
    table = model.preserve_table(spring_plan)
    jars = table[table["unit"] == "jar"]

    assert (jars["sealed_needed"] <= jars["to_fill"]).all()
    assert (jars["sealed_needed"] >= np.floor(0.97 * jars["to_fill"] - 1)).all()
    differs = (table["to_fill"] - table["by_hand"]).abs() > table["by_hand"] * 0.15 + 3
    assert (table[differs]["reason"] != "").all()
    assert list(jars["loads"]) == [
        int(loads) for loads in spring_plan.plan.loads[list(jars.index)].sum(axis=1)
    ]


def test_reasons_are_named_by_harvest_hours_jars_or_a_bad_year(spring_plan: PlannedSeason) -> None:
    words = {r.split(":")[0] for r in model.preserve_table(spring_plan)["reason"] if r}

    assert {"harvest", "bad year"} <= words


def test_batches_sum_to_the_jars_to_fill(spring_plan: PlannedSeason) -> None:
    filled = model.batch_table(spring_plan).groupby("preserve")["jars"].sum()
    wanted = model.preserve_table(spring_plan).set_index("preserve")["to_fill"]

    assert filled.to_dict() == wanted[wanted > 0].to_dict()


def test_a_food_that_gives_out_is_dated_between_its_bad_and_its_good_year(
    spring_plan: PlannedSeason,
) -> None:
    for f in range(len(spring_plan.case.arrays.foods)):
        found = lasting(spring_plan, f)

        assert found.begins <= found.low <= found.until <= found.high <= found.ends
        assert 0 <= found.chance <= 1
        assert found.lasts == (found.until >= found.ends)


def test_the_plate_lasts_no_longer_than_its_new_crop(spring_plan: PlannedSeason) -> None:
    for now in (True, False):
        found = plate_lasting(spring_plan, now=now)

        assert found is not None
        assert found.low <= found.until <= found.high <= found.ends


def test_limits_never_show_more_used_than_there_is(spring_plan: PlannedSeason) -> None:
    limits = model.limit_table(spring_plan)

    assert (limits["share"] <= 1.002).all()
    tight = model.tight_limits(limits)
    assert set(limits["limit"]) == set(tight["limit"])
    assert (limits[limits["share"] >= 0.9].index.isin(tight.index)).all()


def test_supply_by_source_never_passes_what_is_wanted(spring_plan: PlannedSeason) -> None:
    supply = model.supply_table(spring_plan)
    total = supply.groupby("week")["portions"].sum()
    wanted = supply.groupby("week")["wanted_portions"].first()

    assert (total <= wanted + 1e-6).all()
    assert set(supply["source"]) >= {"fresh", "jars", "freezer", "root store"}


def test_the_season_stands_ahead_or_behind_by_what_was_logged(alder_lane: model.Season) -> None:
    planned = model.plan_season(alder_lane, date(2027, 10, 1), years=20)
    progress = model.progress_table(planned).set_index("crop")

    # written into the invented log: few raspberries, many pickling cucumbers
    assert progress.loc["raspberry", "status"] == "behind"
    assert progress.loc["pickling cucumber", "status"] == "ahead"


def test_nothing_is_logged_yet_in_spring(spring_plan: PlannedSeason) -> None:
    assert model.progress_table(spring_plan).empty


def test_the_report_has_the_promised_keys_and_only_plain_values(
    spring_plan: PlannedSeason,
) -> None:
    report = model.plan_report(spring_plan)
    promised = {
        "lean_weeks": {"food", "begins", "ends"},
        "preserves": {
            *("preserve", "product", "method", "jar", "to_fill", "sealed_needed"),
            *("by_hand", "fresh_kg", "loads", "reason"),
        },
        "batches": {"week", "preserve", "jars", "loads", "minutes"},
        "plantings": {"crop", "bed", "area_m2", "plants"},
        "foods": {
            *("food", "wanted_portions", "met_portions", "lasts_until", "new_crop"),
            "chance_lasts",
        },
        "harvest": {"crop", "week", "expected_kg", "low_kg", "high_kg"},
        "stock": {"preserve", "day", "jars", "low", "high"},
        "limits": {"limit", "week", "used", "available"},
    }

    for name, keys in promised.items():
        rows = report[name]
        assert isinstance(rows, list)
        assert rows
        assert set(rows[0]) == keys, name
        for row in rows:
            assert all(isinstance(v, str | int | float | None) for v in row.values())
            for key in ("week", "begins", "ends"):
                if key in row:
                    assert date.fromisoformat(row[key]).weekday() == 0
    assert report["weeks"] == {"first": "2027-03-15", "last": "2028-09-25"}
    assert set(report["solver"]) == {
        *("status", "relative_gap", "variables", "constraints"),
        *("build_seconds", "solve_seconds"),
    }


def test_a_harvest_week_lies_between_its_bad_and_good_year_over_the_season(
    spring_plan: PlannedSeason,
) -> None:
    harvest = model.harvest_table(spring_plan)

    assert (harvest["low_kg"] <= harvest["expected_kg"]).all()
    assert (harvest["expected_kg"] <= harvest["high_kg"]).all()
    by_crop = harvest.groupby("crop")[["expected_kg", "high_kg"]].sum()
    assert (by_crop["expected_kg"] <= by_crop["high_kg"]).all()
