"""Beside every total of the plan stand its bad year and its chance."""

import numpy as np
import pytest

from model.outlook.kitchen_table import preserve_table
from model.outlook.totals_table import totals_table
from model.planning import PlannedSeason


@pytest.mark.parametrize("plan_of", ["spring_plan", "southern_plan", "tiny_plan"])
def test_a_total_stands_beside_its_bad_year_and_its_chance(
    plan_of: str, request: pytest.FixtureRequest
) -> None:
    planned: PlannedSeason = request.getfixturevalue(plan_of)
    totals, jars = totals_table(planned).set_index("unit"), preserve_table(planned)

    for unit in ("jar", "pack"):
        own = jars[jars["unit"] == unit]
        row = totals.loc[unit]
        assert row["planned"] == own["to_fill"].sum()
        assert 0 <= row["bad_year"] <= row["mean"] <= row["planned"]
        assert 0 <= row["chance"] <= 1
        # the column of the preserves adds up to what the headline says
        assert row["mean"] == pytest.approx(own["mean_fill"].sum(), abs=1.0)
    assert totals.loc["h", "planned"] * 60 == pytest.approx(jars["minutes"].sum())
    assert totals.loc["h", "bad_year"] >= totals.loc["h", "planned"]


def test_one_year_in_ten_fills_fewer(spring_plan: PlannedSeason) -> None:
    """The definition of the tenth, counted by hand over the simulated years."""
    jars = preserve_table(spring_plan)

    for r, row in enumerate(jars.itertuples()):
        filled = spring_plan.filled[:, r]
        assert row.bad_year_fill <= row.to_fill
        assert (filled < row.bad_year_fill - 1e-2).mean() <= 0.1
        if row.bad_year_fill < row.to_fill:
            assert (filled < row.bad_year_fill + 1).mean() >= 0.1
        assert row.chance_filled == (filled >= spring_plan.plan.put_up[r].sum() - 0.5).mean()


def test_a_poor_year_fills_fewer_jars_than_an_ordinary_one(spring_plan: PlannedSeason) -> None:
    totals = totals_table(spring_plan).set_index("unit")

    assert totals.loc["jar", "bad_year"] < totals.loc["jar", "planned"]
    assert np.isfinite(totals["chance"]).all()
