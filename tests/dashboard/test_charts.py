"""Every chart compiles and draws only columns that its table has."""

from collections.abc import Iterator
from datetime import date

import altair as alt
import pandas as pd
import pytest

import model
from dashboard import tables
from dashboard.charts.garden_chart import harvest_strips
from dashboard.charts.kitchen_chart import SOURCES, hours_chart, supply_chart
from dashboard.charts.lasts_chart import lasts_chart
from dashboard.charts.stock_chart import food_curve, preserve_curves, small_curve

TODAY = pd.Timestamp(date(2027, 3, 1))


@pytest.fixture(scope="module")
def charts(tiny_plan: model.PlannedSeason) -> dict[str, alt.LayerChart]:
    plan = tiny_plan
    stock = tables.with_dates(model.food_stock_table(plan), "week")
    jars = tables.with_dates(model.stock_table(plan), "week")
    lean = tables.with_dates(model.lean_table(plan), "begins", "ends")
    foods = tables.lasting_rows(model.food_table(plan))
    weeks = tables.week_rows(model.week_table(plan))
    supply = tables.with_dates(model.supply_table(plan), "week")
    supply["order"] = [SOURCES.index(source) for source in supply["source"]]
    marks = pd.DataFrame([{"week": TODAY, "what": "today"}])
    return {
        "strips": harvest_strips(tables.strips(model.harvest_table(plan), "metric"), TODAY, "t"),
        "hours": hours_chart(weeks, "t"),
        "few weeks": hours_chart(weeks.head(10), "t", short=True),
        "supply": supply_chart(supply, "t"),
        "lasts": lasts_chart(foods, TODAY, "t"),
        "curve": food_curve(stock, lean, marks, "t"),
        "small": small_curve(stock, lean, foods[["food", "new_crop"]], "t"),
        "jars": preserve_curves(jars, lean, marks, "t"),
    }


CHARTS = ["strips", "hours", "few weeks", "supply", "lasts", "curve", "small", "jars"]


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
        drawn = [c for e in layer["encoding"].values() for c in (e if isinstance(e, list) else [e])]
        fields = {channel["field"] for channel in drawn if "field" in channel}

        assert rows, f"{name} draws an empty table"
        assert fields <= set(rows[0])


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
        tables.shortfall_rows(model.food_table(plan)),
    ]

    for table in shown:
        assert set(table.columns) <= set(model.HEADINGS)
