"""What is to hand: its days, its order, and a way to wait for every crop."""

from datetime import date

import pytest

import model
from model.outlook.headings import HEADINGS
from model.reference.lookup import crop_names, holding, way_to_wait
from tests.small_season import small_season

AUGUST = date(2027, 8, 16)
LOG = "picked_on,crop,picked_kg\n2027-07-20,tomato,2\n2027-08-12,tomato,3\n2027-08-15,bush bean,4\n"


@pytest.fixture(scope="module")
def planned() -> model.PlannedSeason:
    return model.plan_season(small_season(stock=None, harvest_log=LOG), AUGUST, years=2)


def test_all_that_is_to_hand_is_listed_with_its_weight(planned: model.PlannedSeason) -> None:
    table = model.in_hand_table(planned).set_index("crop")
    crops = list(planned.case.arrays.crops)

    assert set(table.index) == {"bush bean", "tomato"}
    assert set(table.columns) <= set(HEADINGS)
    for crop in crops:
        c = crops.index(crop)
        had = planned.case.before_kg[c].sum() + planned.plan.harvest_kg[c, 0]
        assert table.loc[crop, "in_hand_kg"] == pytest.approx(had)


def test_what_was_weighed_stands_there_instead_of_what_was_expected(
    planned: model.PlannedSeason,
) -> None:
    table = model.in_hand_table(planned, {"tomato": 12.5}).set_index("crop")
    usual = model.in_hand_table(planned).set_index("crop")

    assert table.loc["tomato", "in_hand_kg"] == 12.5
    assert table.loc["bush bean", "in_hand_kg"] == usual.loc["bush bean", "in_hand_kg"]


def test_days_count_from_the_oldest_picking_that_may_still_lie_there(
    planned: model.PlannedSeason,
) -> None:
    """Horticulture Innovation Australia: snap beans 6 to 8 days in the cold."""
    table = model.in_hand_table(planned).set_index("crop")

    assert table.loc["tomato", "picked_on"] == date(2027, 8, 12)
    assert table.loc["bush bean", "picked_on"] == date(2027, 8, 15)
    assert tuple(table.loc["bush bean", ["hold_days_low", "hold_days_high"]]) == (6, 8)


def test_what_loses_most_by_waiting_comes_first(planned: model.PlannedSeason) -> None:
    table = model.in_hand_table(planned)
    a_day = list(table["kept_portions_a_kg"] / table["hold_days_low"])

    assert a_day == sorted(a_day, reverse=True)
    # a kilogram of what is put up gives no more than if all of it were the richest of them
    kinds = planned.case.season.preserves
    most = max(p.portions * p.liking / 5 / sum(part.kg for part in p.ingredients) for p in kinds)
    assert 0 < table["kept_portions_a_kg"].max() <= most


def test_what_was_put_up_since_does_not_lie_there_any_more() -> None:
    batches = "batch,put_up_on,finished_at,preserve,filled\nA,2027-08-13,,sauce,3\n"
    season = small_season(stock=None, harvest_log=LOG, batches=batches)
    table = model.in_hand_table(model.plan_season(season, AUGUST, years=2)).set_index("crop")

    assert table.loc["tomato", "picked_on"] == AUGUST


def test_what_was_weighed_is_of_the_last_picking_and_grows_no_fresher_by_the_day() -> None:
    log = "picked_on,crop,picked_kg\n2027-08-03,bush bean,4\n2027-08-04,bush bean,4\n"
    planned = model.plan_season(small_season(stock=None, harvest_log=log), AUGUST, years=2)
    table = model.in_hand_table(planned, {"bush bean": 3.0, "tomato": 2.0}).set_index("crop")

    assert table.loc["bush bean", "picked_on"] == date(2027, 8, 4)
    assert table.loc["tomato", "picked_on"] == AUGUST


def test_every_crop_has_a_way_to_wait_and_pickling_cucumbers_have_none() -> None:
    """North Dakota State University Extension FN189: pickled within 24 hours of picking."""
    for crop in set(crop_names().values()):
        assert way_to_wait(crop)
    assert way_to_wait("pickling cucumber").startswith("none")
    assert holding("pickling cucumber").days_high == 1
