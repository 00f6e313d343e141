"""Jars, loads, lids and plants are rounded up, what is carried over down, rates never.

Common practice, no source: who rounds otherwise is a jar short, or counts one that is not there.
"""

import math
from datetime import date, timedelta

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from model.outlook.buy_list_table import buy_list_table
from model.outlook.garden_table import planting_table
from model.outlook.kitchen_table import preserve_table
from model.planning import plan_season
from model.season.season import Season
from tests.random_seasons import seasons

SOME = settings(max_examples=40, suppress_health_check=[HealthCheck.too_slow], derandomize=True)
NEARLY = 1e-6


def up(number: float) -> int:
    return math.ceil(number - NEARLY)


@SOME
@given(seasons(), st.integers(0, 200))
def test_what_is_counted_is_rounded_to_the_safe_side(season: Season, days: int) -> None:
    made = plan_season(season, date(2027, 2, 28) + timedelta(days=days), years=5)
    plan, case = made.plan, made.case
    jars = preserve_table(made)

    for r, (row, rule) in enumerate(zip(jars.itertuples(), made.by_hand, strict=True)):
        sealed = made.case.arrays.sealed_share[r]
        assert row.to_fill == up(plan.put_up[r].sum())
        assert row.loads == plan.loads[r].sum()
        assert row.sealed_needed == math.floor(row.to_fill * sealed + NEARLY)
        assert row.carried_over == math.floor(made.windows[r].carried_over + NEARLY)
        wanted = rule.uses_a_week * rule.weeks_without_fresh * rule.units_a_use
        assert row.by_hand == max(0, up(wanted - rule.carry_over))
        assert row.by_hand_fill == up(row.by_hand / (1 - rule.loss_share))
        assert 0 <= rule.carry_over == math.floor(rule.carry_over)
    for planting in planting_table(made).itertuples():
        if planting.per == "plant":
            assert planting.plants == up(planting.amount) >= planting.amount - NEARLY
    bought = buy_list_table(made)
    for jar in season.jars:
        rows = [r for r, p in enumerate(season.preserves) if p.canned and p.jar == jar.name]
        needed = sum(up(plan.put_up[r].sum()) for r in rows)
        lids = bought.loc[bought["what"] == f"new lids for {jar.name}", "to_buy"].sum()
        assert lids == max(0, needed - (jar.lids or 0))
    assert (case.arrays.sealed_share <= 1).all()
