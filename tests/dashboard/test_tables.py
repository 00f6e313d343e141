"""Tables for the eye: what comes first, what to give away, and nothing in foreign units."""

import pandas as pd
import pytest

import model
from dashboard import garden_tables, tables
from model import PlannedSeason
from tests.conftest import GLUT, SPRING


@pytest.fixture(scope="module")
def glut_plan(alder_lane: model.Season) -> PlannedSeason:
    return model.plan_season(alder_lane, GLUT, years=2)


def test_the_hand_rule_beside_the_plan_counts_failing_seals_too(spring_plan: PlannedSeason) -> None:
    preserves = model.preserve_table(spring_plan)
    rows = tables.jar_rows(preserves, "metric").set_index("preserve")
    rule = next(rule for rule in spring_plan.by_hand if rule.to_fill > rule.sealed_needed)

    assert rows.loc[rule.preserve, "by_hand_fill"] == f"{rule.to_fill} jars"


def test_the_planted_crops_show_what_to_give_away(spring_plan: PlannedSeason) -> None:
    plantings = model.planting_table(spring_plan)
    spare = spring_plan.plan.spare_kg.sum()

    assert plantings["spare_kg"].sum() == pytest.approx(spare, rel=0.02)
    assert "spare_kg" in garden_tables.garden_rows(plantings, SPRING, "metric")
    assert "spare_kg" not in garden_tables.garden_rows(
        plantings.assign(spare_kg=0.0), SPRING, "metric"
    )


def test_of_a_crop_no_more_is_used_than_is_picked_and_was_there(glut_plan: PlannedSeason) -> None:
    fresh = model.fresh_table(glut_plan, 0)
    used = fresh[["eaten_kg", "put_up_kg", "held_kg", "spare_kg"]].sum(axis=1)

    assert (fresh["expected_kg"] + fresh["before_kg"]).tolist() == pytest.approx(used.tolist())
    # the chard of the invented log: more is eaten than is picked, the rest was there
    chard = tables.picking_rows(fresh, "metric").set_index("crop").loc["chard"]
    assert chard["before_kg"] == "0.68 kg"
    assert "before_kg" not in tables.picking_rows(fresh.assign(before_kg=0.0), "metric")


def test_no_more_is_stored_than_the_harvest_that_goes_into_it(glut_plan: PlannedSeason) -> None:
    batches = model.batch_table(glut_plan)
    rows = tables.batch_rows(batches[batches["unit"] == "kg"], "metric")

    assert len(rows)
    assert rows["jars"].tolist() == rows["fresh_kg"].tolist()


def test_what_is_lifted_this_week_is_cured_before_it_is_stored(glut_plan: PlannedSeason) -> None:
    batches = model.batch_table(glut_plan)
    this = batches[batches["week"] == glut_plan.case.weeks.monday(0)]
    rows = tables.batch_rows(this, "metric")

    # reference/curing.csv: onions 7 to 21 days, from the 16 August on which they are lifted
    assert "onions on strings, cure first" in set(rows["preserve"])
    assert "frozen beans" in set(rows["preserve"])


def test_what_is_not_planted_has_no_day_and_no_ground(spring_plan: PlannedSeason) -> None:
    plantings = model.planting_table(spring_plan)
    left_out = plantings.assign(amount=plantings["amount"].where(plantings.index > 0, 0.0))
    rows = garden_tables.garden_rows(left_out, SPRING, "metric")

    assert list(rows.iloc[-1][["amount", "start_short", "first_short"]]) == ["none", "", ""]
    assert rows.loc[0, "amount"] != "none"


def test_what_is_past_its_best_is_taken_from_the_shelf_first(spring_plan: PlannedSeason) -> None:
    opened = tables.opening_rows(model.opening_table(spring_plan, 0), "metric")
    first = opened["why"].str.startswith("past its best").tolist()

    assert any(first)
    assert first == sorted(first, reverse=True)


def test_a_household_of_us_units_sees_no_kilogram(southern_plan: PlannedSeason) -> None:
    plan = southern_plan
    own = [
        garden_tables.garden_rows(model.planting_table(plan), SPRING, "US"),
        tables.jar_rows(model.preserve_table(plan), "US"),
        tables.limit_rows(model.limit_table(plan), "US"),
        tables.opening_rows(model.opening_table(plan, 0), "US"),
        tables.picking_rows(model.fresh_table(plan, 12), "US"),
        tables.batch_rows(model.batch_table(plan), "US"),
    ]

    for table in own:
        cells = table.astype(str).to_numpy().ravel().tolist()
        assert not any(cell.endswith((" kg", "m²", "litres")) or cell == "kg" for cell in cells)


def test_the_us_household_s_jars_take_the_times_of_their_own_size(
    two_rivers: model.Season,
) -> None:
    canned = [preserve for preserve in two_rivers.preserves if preserve.process is not None]

    # 8, 16 and 32 US fluid ounces are exactly a half-pint, a pint and a quart
    assert {"pint", "quart", "half-pint"} == {p.process.jar for p in canned}
    for preserve in canned:
        assert preserve.process.jar == preserve.jar, preserve.name


def test_what_is_raised_from_seed_shows_its_sowing_day(spring_plan: model.PlannedSeason) -> None:
    rows = garden_tables.garden_rows(model.planting_table(spring_plan), SPRING, "metric").set_index(
        "crop"
    )

    assert rows.loc["tomato", "start_short"] == "sow 22 Mar"
    assert rows.loc["carrot", "start_short"] == "22 Apr"
    assert rows.loc["apple", "start_short"] == "Nov 2015"


def test_kitchen_weeks_end_a_month_after_the_last_work() -> None:
    weeks = pd.DataFrame({"hours": [0.0, 3.0, *[0.0] * 9]})

    assert len(tables.working_weeks(weeks)) == 6
    assert tables.working_weeks(weeks.assign(hours=0.0)).empty
