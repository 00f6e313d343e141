"""What stands on the shelf from day to day, against the book and against how long it lasts."""

from datetime import date

import pytest

import model
from tests.small_season import small_season

JANUARY = date(2027, 1, 13)
# Beans enough for a few weeks only, and none in the garden before summer.
STOCK = (
    "counted_on,preserve,jars,put_up_on\n"
    "2027-01-13,whole tomatoes,20,2026-09-01\n2027-01-13,frozen beans,10,2026-08-15\n"
)


@pytest.fixture(scope="module")
def planned() -> model.PlannedSeason:
    return model.plan_season(small_season(stock=STOCK), JANUARY, years=40)


def test_the_first_row_is_what_was_counted_and_the_next_the_end_of_this_week(
    planned: model.PlannedSeason,
) -> None:
    jars = model.stock_table(planned).set_index("preserve")
    beans = jars.loc["frozen beans"]

    assert tuple(beans.iloc[0][["day", "jars", "low", "high"]]) == (JANUARY, 10, 10, 10)
    # 13 January 2027 is a Wednesday
    assert list(beans["day"].iloc[1:3]) == [date(2027, 1, 18), date(2027, 1, 25)]
    portions = model.food_stock_table(planned).groupby("food").first()
    each = {p.name: p.portions for p in planned.case.season.preserves}
    assert portions.loc["beans", "middle_portions"] == pytest.approx(10 * each["frozen beans"])


def test_the_curve_is_down_to_less_than_half_a_week_on_the_day_the_words_say_it_is_gone(
    planned: model.PlannedSeason,
) -> None:
    foods = model.present_food_table(planned).set_index("food")
    stock = model.food_stock_table(planned)
    gone, new_crop = foods.loc["beans", ["lasts_until", "new_crop"]]
    own = stock[(stock["food"] == "beans") & (stock["day"] < new_crop)].set_index("day")
    half_a_week = 0.5 * float(planned.case.demand.wanted[0, 8])

    assert JANUARY < gone < new_crop
    assert own.loc[gone, "middle_portions"] < half_a_week
    assert (own.loc[own.index < gone, "middle_portions"] > half_a_week).all()
