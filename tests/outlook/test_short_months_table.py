"""The chance of running short by month, against the same years counted one by one."""

import pytest

import model
from model import PlannedSeason


def test_the_chance_of_a_month_is_the_share_of_its_years_counted_one_by_one(
    tiny_plan: PlannedSeason,
) -> None:
    table = model.short_months_table(tiny_plan)
    case, lived = tiny_plan.case, tiny_plan.years
    share = case.season.settings.lean_share
    row = table.sort_values("chance_short", kind="stable").iloc[len(table) // 2]
    food = case.arrays.foods.index(row["food"])
    weeks = [
        w
        for w, monday in enumerate(case.weeks.mondays)
        if (monday.year, monday.month) == (row["month"].year, row["month"].month)
    ]
    years = len(lived.appetite)
    short = 0
    for year in range(years):
        wants = [float(lived.appetite[year, food] * lived.usual[food, w]) for w in weeks]
        eats = [float(lived.met[year, food, w]) for w in weeks]
        short += any(
            eat < share * want - 1e-6 for eat, want in zip(eats, wants, strict=True) if want > 1e-6
        )

    assert row["chance_short"] == pytest.approx(short / years)


def test_what_is_past_keeping_is_short_from_that_month_on_in_every_part(
    midwinter_plan: PlannedSeason,
) -> None:
    short = model.short_months_table(midwinter_plan).set_index(["food", "month"])["chance_short"]
    foods = model.food_table(midwinter_plan).set_index("food")
    past = foods[foods["keeps_until"].notna()]

    assert {"potatoes", "squash", "onions and garlic"} <= set(past.index)
    for food, row in past.iterrows():
        assert short.loc[food, row["keeps_until"].replace(day=1)] == 1
        working = model.workings.lasting_workings(midwinter_plan, str(food), now=False)[0]
        weeks = (row["lasts_until"] - row["begins"]).days // 7
        eaten = next(line for line in working.lines if " eaten / " in str(line.parts[0]))
        assert str(eaten.parts[0]).endswith(f"eaten / {weeks} weeks")


def test_a_food_that_lasts_in_every_year_is_never_short_in_its_winter(
    spring_plan: PlannedSeason,
) -> None:
    short = model.short_months_table(spring_plan)
    foods = model.food_table(spring_plan).set_index("food")

    assert ((short["chance_short"] >= 0) & (short["chance_short"] <= 1)).all()
    for food, row in foods.iterrows():
        own = short[(short["food"] == food) & (short["month"] >= row["begins"].replace(day=1))]
        own = own[own["month"] < row["new_crop"]] if row["new_crop"] else own
        # whoever gives out in some week is short in the month of that week
        assert own["chance_short"].max() >= 1 - row["chance_lasts"] - 1e-9
