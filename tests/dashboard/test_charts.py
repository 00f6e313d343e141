"""Every chart compiles, draws only columns that its table has, and is sent no others."""

import re
from collections.abc import Iterator
from datetime import date

import altair as alt
import pandas as pd
import pytest

import model
from dashboard import garden_tables, tables
from dashboard.chart_findings import supply_holes
from dashboard.charts.day_chart import day_chart
from dashboard.charts.garden_chart import harvest_strips
from dashboard.charts.kitchen_chart import hours_chart
from dashboard.charts.lasts_chart import lasts_chart
from dashboard.charts.picked_chart import picked_bars, picked_curve
from dashboard.charts.stock_chart import food_curve, preserve_curves, small_curve
from dashboard.charts.strips_chart import share_strips
from dashboard.charts.supply_chart import supply_chart
from dashboard.day_findings import day_steps
from dashboard.lasting import lasting_rows, shortfall_rows
from dashboard.picked import crop_days, picked_rows
from dashboard.strips import ROOM, limit_strips, month_strips
from tests.dashboard.test_picked import season as a_season
from tests.dashboard.test_picked import standing
from tests.day_kitchen import KITCHEN, sheet

TODAY = pd.Timestamp(date(2027, 3, 1))
DAY = sheet(KITCHEN, model.Wanted("whole tomatoes", 14), model.Wanted("frozen beans", 4))


@pytest.fixture(scope="module")
def charts(tiny_plan: model.PlannedSeason) -> dict[str, alt.LayerChart]:
    plan = tiny_plan
    stock = tables.with_dates(model.food_stock_table(plan), "day")
    jars = tables.with_dates(model.stock_table(plan), "day")
    lean = tables.with_dates(model.lean_table(plan), "begins", "ends")
    foods = lasting_rows(model.food_table(plan), TODAY.date(), 0.5)
    weeks = tables.week_rows(model.week_table(plan))
    supply = tables.with_dates(model.supply_table(plan), "week")
    holes = tables.with_dates(supply_holes(supply), "begins", "ends")
    limits = model.limit_table(plan)
    marks = pd.DataFrame([{"day": TODAY, "what": "today"}])
    now = standing(("pea", 5.0, 10.0, "behind"), ("bean", 9.0, 10.0, "on track"))
    days, unit = crop_days(
        a_season("pea", [0.0, 4.0, 6.0, 9.0], [0.0, 2.0, 5.0, None]), "pea", "US"
    )
    return {
        "room": share_strips(limit_strips(limits, ROOM), "t"),
        "months": share_strips(month_strips(model.short_months_table(plan)), "t"),
        "strips": harvest_strips(tables.strips(model.harvest_table(plan), "metric"), TODAY, "t"),
        "hours": hours_chart(weeks, "t"),
        "few weeks": hours_chart(weeks.head(10), "t", short=True),
        "supply": supply_chart(supply, holes, "t"),
        "lasts": lasts_chart(foods, TODAY, "t"),
        "curve": food_curve(stock, lean, marks, "t"),
        "small": small_curve(stock, lean, foods[["food", "new_crop"]], "t"),
        "jars": preserve_curves(jars, lean, marks, "t", "Jars"),
        "picked": picked_bars(picked_rows(now, "metric"), "t"),
        "picked crop": picked_curve(days, TODAY, "t", unit),
        "day": day_chart(day_steps(model.day_table(DAY)), "t", DAY.bedtime),
    }


CHARTS = [
    "room",
    "months",
    "strips",
    "hours",
    "few weeks",
    "supply",
    "lasts",
    "curve",
    "small",
    "jars",
    "picked",
    "picked crop",
    "day",
]


FILTERED = re.compile(r"datum\.(\w+)")


def fields(layer: dict) -> set[str]:
    """Give the columns that a layer draws, tells of or picks its rows by."""
    drawn = [c for e in layer["encoding"].values() for c in (e if isinstance(e, list) else [e])]
    picked = FILTERED.findall(str(layer.get("transform", "")))
    marked = re.findall(r"datum\.(\w+)", str(layer["mark"]))
    return {channel["field"] for channel in drawn if "field" in channel} | {*picked, *marked}


def layers(spec: dict, source: dict | None = None) -> Iterator[tuple[dict, dict]]:
    """Give each drawn layer with the table that it draws."""
    source = spec.get("data", source)
    if "layer" not in spec:
        yield spec, source or {}
    for layer in spec.get("layer", []):
        yield from layers(layer, source)


@pytest.mark.parametrize("name", CHARTS)
def test_a_chart_draws_only_columns_that_its_table_has(
    charts: dict[str, alt.LayerChart], name: str
) -> None:
    spec = charts[name].to_dict()
    for layer, source in layers(spec):
        rows = spec["datasets"][source["name"]]

        assert rows, f"{name} draws an empty table"
        assert fields(layer) <= set(rows[0])


@pytest.mark.parametrize("name", CHARTS)
def test_a_chart_is_sent_only_what_it_draws(charts: dict[str, alt.LayerChart], name: str) -> None:
    spec = charts[name].to_dict()
    drawn: dict[str, set[str]] = {}
    for layer, source in layers(spec):
        drawn.setdefault(source["name"], set()).update(fields(layer))

    sent = {name: set(rows[0]) for name, rows in spec["datasets"].items()}
    assert sent == drawn


@pytest.mark.parametrize("name", CHARTS)
def test_a_chart_tells_its_marks_by_our_words_or_not_at_all(
    charts: dict[str, alt.LayerChart], name: str
) -> None:
    spec = charts[name].to_dict()
    tips = [layer["encoding"].get("tooltip", []) for layer, _ in layers(spec)]

    assert spec["config"]["mark"]["tooltip"] is None
    assert any(tips)
    assert all(tip["title"][0].isupper() for told in tips for tip in told)


@pytest.mark.parametrize("name", ["curve", "small"])
def test_where_all_is_nought_the_axis_runs_from_nought_to_one(
    tiny_plan: model.PlannedSeason, name: str
) -> None:
    stock = tables.with_dates(model.food_stock_table(tiny_plan), "day")
    numbers = [column for column in stock.columns if column.endswith("portions")]
    stock[numbers] = 0.0
    lean = tables.with_dates(model.lean_table(tiny_plan), "begins", "ends")
    marks = pd.DataFrame([{"day": TODAY, "what": "today", "new_crop": TODAY}])
    chart = (food_curve if name == "curve" else small_curve)(stock, lean, marks, "t")
    scales = [
        layer["encoding"]["y"]["scale"]
        for layer, _ in layers(chart.to_dict())
        if "scale" in layer["encoding"].get("y", {})
    ]

    assert scales == [{"domain": [0, 1]}]


def test_every_column_of_every_outlook_table_has_a_heading(
    tiny_plan: model.PlannedSeason,
) -> None:
    plan = tiny_plan
    shown = [
        model.preserve_table(plan),
        model.batch_table(plan),
        model.food_table(plan),
        model.present_food_table(plan),
        model.plate_table(plan),
        model.food_stock_table(plan),
        model.stock_table(plan),
        model.supply_table(plan),
        model.lean_table(plan),
        model.limit_table(plan),
        model.harvest_table(plan),
        model.planting_table(plan),
        model.progress_table(plan),
        model.week_table(plan),
        model.fresh_table(plan, 0),
        model.opening_table(plan, 0),
        model.day_table(DAY).drop(columns=["starts", "stops"]),
        shortfall_rows(lasting_rows(model.food_table(plan), TODAY.date(), 0.5)),
        garden_tables.garden_rows(model.planting_table(plan), TODAY.date(), "metric"),
        garden_tables.yield_rows(model.planting_table(plan), "metric"),
        tables.jar_rows(model.preserve_table(plan), "metric"),
        tables.count_rows(model.preserve_table(plan), "metric"),
        tables.picking_rows(model.fresh_table(plan, 22), "metric"),
        tables.opening_rows(model.opening_table(plan, 0), "metric"),
        tables.limit_rows(model.limit_table(plan), "metric"),
    ]

    for table in shown:
        assert set(table.columns) <= set(model.HEADINGS)
