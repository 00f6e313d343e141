from datetime import date

import pytest

import model
from model.planning import PlannedSeason
from tests.small_season import TABLES, small_season

TODAY = date(2027, 3, 1)
PREPARED = [
    *(("old", f"2026-09-{day:02}", 7, 4) for day in (1, 2, 3, 4)),
    *(("new", f"2026-09-{day:02}", 7, 7) for day in range(5, 25)),
]


@pytest.fixture(scope="module")
def experienced() -> PlannedSeason:
    """The tiny household with a season behind it: picked, put up, looked at and counted."""
    batches = "".join(
        f"b{n},{day},whole tomatoes,{filled},{box}\n"
        for n, (box, day, filled, _) in enumerate(PREPARED)
    )
    seals = "".join(f"b{n},{day},{sealed}\n" for n, (_, day, _, sealed) in enumerate(PREPARED))
    return model.plan_season(
        small_season(
            seasons="season,begins,ends\n2026,2026-01-01,2026-12-31\n2027,2027-01-01,2027-12-31\n",
            plantings=TABLES["plantings.csv"] + "2026,tomato,only bed,2026-03-20,2026-05-28,,12\n",
            harvest_log="picked_on,crop,picked_kg\n2026-08-15,tomato,80\n",
            batches=f"batch,put_up_on,preserve,filled,lid_box\n{batches}",
            seals=f"batch,checked_on,sealed\n{seals}",
            jars=TABLES["jars.csv"].replace("quart,946,40,60", "quart,946,200,400"),
            stock="counted_on,preserve,jars,put_up_on\n2026-12-06,whole tomatoes,90,2026-09-05\n"
            "2027-01-24,whole tomatoes,60,2026-09-05\n2027-02-27,whole tomatoes,72,2026-09-05\n",
        ),
        TODAY,
        years=20,
    )


def test_nothing_is_told_before_there_is_a_record(tiny_plan: PlannedSeason) -> None:
    assert model.learned_table(tiny_plan).empty
    assert model.cause_table(tiny_plan.case.season, TODAY).empty


def test_own_figures_stand_beside_the_usual_ones_with_what_they_rest_on(
    experienced: PlannedSeason,
) -> None:
    table = model.learned_table(experienced).set_index("what")

    assert list(table["learned"]) == ["yield", "jars that do not seal", "eaten"]
    assert list(table["rests_on"]) == [1, 24, 1]
    assert (table["own_low"] < table["own"]).all()
    assert (table["own"] < table["own_high"]).all()
    assert (table["own"] > table["usual"]).all()
    assert table.loc["all canning", "usual"] == 2.5
    # 12 more were counted in February than in January: nobody knows where they came from
    assert table.loc["tomatoes", "left_out"] == 1


def test_jars_to_fill_to_be_sure_are_more_than_on_average(experienced: PlannedSeason) -> None:
    table = model.fill_table(experienced).set_index("preserve")

    assert len(table)
    assert (table["sealed_needed"] < table["fill_mean"]).all()
    assert (table["fill_mean"] <= table["fill_sure"]).all()


def test_the_box_of_lids_that_failed_is_told_with_its_counts(experienced: PlannedSeason) -> None:
    (row,) = model.cause_table(experienced.case.season, TODAY).to_dict("records")

    assert (row["in_common"], row["what"]) == ("box of lids", "old")
    assert (row["bad_batches"], row["bad_jars"]) == ("4 of 4", "12 of 28")
    assert row["other_batches"] == "0 of 20"


def test_every_column_has_a_heading(experienced: PlannedSeason) -> None:
    for table in (
        model.learned_table(experienced),
        model.fill_table(experienced),
        model.cause_table(experienced.case.season, TODAY),
    ):
        assert set(table.columns) <= set(model.HEADINGS)
