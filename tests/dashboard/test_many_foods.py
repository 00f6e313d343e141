"""Charts of 35 products and more: a row that can be read for each, and little to send."""

import json
from collections.abc import Iterator
from datetime import date

import altair as alt
import pandas as pd
import pytest

import model
from dashboard import tables
from dashboard.charts.garden_chart import harvest_strips
from dashboard.charts.lasts_chart import lasts_chart
from dashboard.charts.picked_chart import picked_bars
from dashboard.charts.strips_chart import share_strips
from dashboard.lasting import lasting_rows
from dashboard.picked import picked_now, picked_rows
from dashboard.strips import month_strips
from tests.dashboard.test_charts import layers
from tests.many_foods import demo_texts, many_foods, season_of

SUMMER = date(2027, 8, 16)
NOW = pd.Timestamp(SUMMER)
LETTER_PX = 11
# Judgement: a phone in a kitchen draws so much at once.
MOST_BYTES = 300_000


@pytest.fixture(scope="module")
def plan() -> model.PlannedSeason:
    return model.plan_season(season_of(many_foods(demo_texts("alder_lane"))), SUMMER, years=20)


@pytest.fixture(scope="module")
def charts(plan: model.PlannedSeason) -> dict[str, alt.LayerChart]:
    units = plan.case.season.units
    foods = lasting_rows(model.food_table(plan), SUMMER, 0.5)
    now = picked_now(model.picked_table(plan, 1), model.progress_table(plan), SUMMER)
    return {
        "lasts": lasts_chart(foods, NOW, "t"),
        "months": share_strips(month_strips(model.short_months_table(plan)), "t"),
        "strips": harvest_strips(tables.strips(model.harvest_table(plan), units), NOW, "t"),
        "picked": picked_bars(picked_rows(now, units), "t"),
    }


def names(chart: alt.LayerChart) -> Iterator[str]:
    for layer, source in layers(chart.to_dict()):
        field = layer["encoding"].get("y", {}).get("field")
        if layer["encoding"].get("y", {}).get("type") == "nominal":
            yield from (row[field] for row in chart.to_dict()["datasets"][source["name"]])


def test_the_household_has_more_than_35_foods(plan: model.PlannedSeason) -> None:
    assert len(plan.case.season.foods) > 35


@pytest.mark.parametrize("name", ["lasts", "months", "strips", "picked"])
def test_every_name_has_a_row_as_high_as_its_letters(
    charts: dict[str, alt.LayerChart], name: str
) -> None:
    spec = charts[name].to_dict()
    rows = set(names(charts[name]))

    assert spec["height"] / len(rows) > 1.4 * LETTER_PX
    assert len(rows) > (35 if name in ("lasts", "months") else 10)


@pytest.mark.parametrize("name", ["lasts", "months", "strips", "picked"])
def test_many_foods_are_little_to_send(charts: dict[str, alt.LayerChart], name: str) -> None:
    assert len(json.dumps(charts[name].to_dict())) < MOST_BYTES
