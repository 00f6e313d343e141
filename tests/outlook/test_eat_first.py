"""The order to look and eat: condition before keeping life before age, and no word of safety."""

from dataclasses import replace
from datetime import date, timedelta

import pandas as pd
import pytest

import model
from model.outlook.eat_first_table import (
    CHILLED,
    KEEPS,
    LOOK,
    QUALITY,
    SORT,
    UNSEEN,
    eat_first_table,
)
from model.outlook.headings import HEADINGS
from model.season.record import LOST, SUSPECT, SealCheck, Taken
from model.season.season import Season
from tests.recorded import JARS, PACKS, batch, count, recorded
from tests.small_season import TABLES, small_season

TODAY = date(2027, 9, 20)


def eat_first(season: Season, today: date = TODAY) -> pd.DataFrame:
    return eat_first_table(model.plan_season(season, today, years=2))


def test_condition_goes_before_keeping_life_and_that_before_age() -> None:
    season = recorded(
        batches=(
            batch("seen", date(2027, 9, 18), 7),
            batch("unseen", date(2027, 9, 19), 8),
            batch("bad", date(2027, 9, 1), 7),
        ),
        checks=(
            SealCheck("seen", date(2027, 9, 19), 5, "refrigerated"),
            SealCheck("bad", date(2027, 9, 2), 7, ""),
        ),
        counts=(
            count(TODAY, 3, preserve=PACKS, put_up=date(2026, 1, 1)),
            count(TODAY, 5, put_up=date(2027, 9, 18)),
            count(TODAY, 4, preserve=PACKS, put_up=date(2027, 8, 1)),
            count(TODAY, 6, put_up=date(2027, 9, 1)),
        ),
    )
    suspect = Taken(TODAY, JARS, 1, LOST, SUSPECT, "bad")
    season = replace(season, record=replace(season.record, taken=(suspect,)))
    table = eat_first(season)

    # a count may have put several batches under one day: all of the preserve wait for a look
    assert list(table["condition"]) == [LOOK, LOOK, CHILLED, UNSEEN, QUALITY, KEEPS]
    assert list(table["standing_units"]) == [6, 5, 2, 8, 3, 4]
    assert list(table["eat_order"]) == [1, 2, 3, 4, 5, 6]
    looks = table[table["condition"] == LOOK]
    assert list(looks["weeks_left"]) == sorted(looks["weeks_left"])
    assert set(table.columns) <= set(HEADINGS)


def test_the_older_of_two_that_keep_as_long_goes_first() -> None:
    days = (date(2027, 8, 14), date(2027, 8, 12))
    season = recorded(counts=tuple(count(TODAY, 2, put_up=day) for day in days))

    assert list(eat_first(season)["put_up_on"]) == sorted(days)


def test_jars_over_a_year_old_are_a_matter_of_quality_with_a_look_before_opening() -> None:
    """USDA AIB 410: best within a year; later a matter of quality if the seal is good."""
    season = recorded(counts=(count(TODAY, 3, put_up=date(2026, 9, 1)),))
    row = eat_first(season).iloc[0]

    assert row["condition"] == QUALITY
    assert row["weeks_left"] < 0
    assert "quality" in row["why_first"]
    assert "look at seal and contents" in row["why_first"]


def test_the_household_s_own_weeks_go_before_the_published_year() -> None:
    made = date(2026, 9, 1)
    head, first, *others = TABLES["preserves.csv"].splitlines()
    rows = [f"{head},keeps_weeks", f"{first},104", *(f"{row}," for row in others)]
    season = small_season(
        preserves="\n".join(rows) + "\n",
        stock=f"counted_on,preserve,jars,put_up_on\n2027-09-19,{JARS},3,{made}\n",
    )
    row = eat_first(season, TODAY).iloc[0]

    assert row["condition"] == KEEPS
    assert row["weeks_left"] == (made + timedelta(weeks=104) - TODAY).days // 7


def test_the_root_store_is_sorted_before_anything_that_keeps() -> None:
    season = small_season(
        places=TABLES["places.csv"] + "cellar,root store,,,,100\n",
        plantings=TABLES["plantings.csv"] + "2027,carrot,only bed,2027-05-01,,4,\n",
        foods=TABLES["foods.csv"] + "carrots,vegetable,2,5,3,carrot\n",
        preserves=TABLES["preserves.csv"] + "stored carrots,carrots,carrot,root store,,,,100\n",
        stock=(
            "counted_on,preserve,jars,put_up_on\n"
            "2027-02-27,stored carrots,9,2026-09-10\n"
            "2027-02-27,frozen beans,4,2026-08-15\n"
        ),
    )
    table = eat_first(season, date(2027, 3, 1))

    assert table.iloc[0]["preserve"] == "stored carrots"
    assert table.iloc[0]["condition"] == SORT
    assert "rot spreads" in table.iloc[0]["why_first"]


def test_nothing_in_the_list_is_called_safe_or_unsafe() -> None:
    season = recorded(
        batches=(batch("A", date(2027, 9, 18), 7),),
        counts=(count(TODAY, 3, put_up=date(2025, 9, 1)), count(TODAY, 3, put_up=TODAY)),
    )

    assert not any("safe" in words.lower() for words in eat_first(season)["why_first"])


def test_an_unsealed_jar_leaves_the_list_after_a_week() -> None:
    season = recorded(
        batches=(batch("A", date(2027, 9, 10), 7),),
        checks=(SealCheck("A", date(2027, 9, 11), 6, "refrigerated"),),
    )

    assert CHILLED in set(eat_first(season, date(2027, 9, 18))["condition"])
    assert CHILLED not in set(eat_first(season, date(2027, 9, 19))["condition"])


def test_an_unsealed_jar_stays_as_old_as_it_is_when_its_mates_are_looked_at_again() -> None:
    """The refrigerator holds it from the first look, whenever the shelf is looked at again."""
    seen = (
        SealCheck("A", date(2027, 9, 11), 6, "refrigerated"),
        SealCheck("A", date(2027, 10, 20), 6, "refrigerated"),
    )
    season = recorded(batches=(batch("A", date(2027, 9, 10), 7),), checks=seen)
    eaten = replace(season.record, seal_checks=(seen[0], replace(seen[1], went="eaten")))

    assert CHILLED not in set(eat_first(season, date(2027, 10, 21))["condition"])
    early = replace(season, record=replace(season.record, seal_checks=seen[:1]))
    assert CHILLED in set(eat_first(early, date(2027, 9, 12))["condition"])
    assert CHILLED not in set(
        eat_first(replace(season, record=eaten), date(2027, 10, 21))["condition"]
    )


def test_what_was_lost_after_the_count_of_the_day_is_not_to_be_eaten() -> None:
    season = recorded(
        counts=(
            count(TODAY, 4, preserve=PACKS, put_up=date(2027, 8, 1)),
            count(TODAY, 5, put_up=date(2027, 9, 18)),
        )
    )
    lost = Taken(TODAY, PACKS, 4, LOST, "freezer died", "", of_counted=4)
    broken = Taken(TODAY, JARS, 2, LOST, "broken", "", of_counted=5)
    season = replace(season, record=replace(season.record, taken=(lost, broken)))
    table = eat_first(season)

    assert list(table["preserve"]) == [JARS]
    assert list(table["standing_units"]) == [3]


def like_a_bad_one(*looked_at: date) -> pd.DataFrame:
    """List what stands there a month after a jar was bad: of its batch, and of its box of lids."""
    made, bad = date(2027, 6, 1), date(2027, 8, 20)
    season = recorded(
        batches=(batch("A", made, 7), batch("B", date(2027, 6, 9), 7)),
        checks=(
            SealCheck("A", date(2027, 6, 2), 7, ""),
            SealCheck("B", date(2027, 6, 10), 7, ""),
            *(SealCheck("A", day, 7, "") for day in looked_at),
        ),
        counts=(count(TODAY, 6, put_up=made),),
    )
    suspect = Taken(bad, JARS, 1, LOST, SUSPECT, "A")
    return eat_first(replace(season, record=replace(season.record, taken=(suspect,))))


def test_a_count_does_not_clear_jars_like_a_bad_one_but_a_look_at_them_does() -> None:
    (counted,) = like_a_bad_one().itertuples()
    (looked,) = like_a_bad_one(date(2027, 8, 20)).itertuples()

    assert counted.condition == LOOK
    assert "2027-08-20" in counted.why_first
    assert "of the same batch" in counted.why_first
    assert looked.condition == KEEPS


@pytest.mark.parametrize("counted", [date(2027, 2, 27), date(2027, 4, 10)])
def test_roots_counted_are_listed_to_be_sorted_even_when_they_are_past_keeping(
    counted: date,
) -> None:
    """Counted while they kept, or when they should have been gone: the count is true."""
    season = small_season(
        places=TABLES["places.csv"] + "cellar,root store,,,,100\n",
        plantings=TABLES["plantings.csv"] + "2027,carrot,only bed,2027-05-01,,4,\n",
        foods=TABLES["foods.csv"] + "carrots,vegetable,2,5,3,carrot\n",
        preserves=TABLES["preserves.csv"] + "stored carrots,carrots,carrot,root store,,,,100\n",
        stock=f"counted_on,preserve,jars,put_up_on\n{counted},stored carrots,90,2026-09-10\n",
    )
    today = date(2027, 4, 12)
    planned = model.plan_season(season, today, years=2)
    (row,) = eat_first_table(planned).itertuples()
    (store,) = model.stores_table(planned).itertuples()

    assert row.condition == SORT
    assert "past its keeping: sort it now" in row.why_first
    assert 0 < row.standing_units <= 90
    assert store.standing_units == row.standing_units
    assert store.sort_on == today
    # nothing is to be eaten of it by the plan
    assert not any(one.preserve == "stored carrots" for one in planned.case.stock)
