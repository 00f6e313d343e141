"""Sentences that say what the tables hold."""

from datetime import date

import pandas as pd
import pytest

import model
from dashboard.findings import (
    all_started,
    bad_year_words,
    limit_words,
    never_counted,
    progress_words,
    spring_headline,
    week_headline,
)
from dashboard.record_findings import (
    fill_words,
    larder_headline,
    nothing_to_buy_words,
    part_counted,
    resow_words,
)
from dashboard.words import counted_words
from tests.recorded import PACKS, batch, count, recorded
from tests.small_season import small_season

FILLED = "batch,put_up_on,finished_at,preserve,filled\nF,2027-02-20,,frozen beans,5\n"


def test_a_spring_is_fixed_once_all_of_it_is_in_the_ground(tiny: model.Season) -> None:
    assert not all_started(tiny, date(2027, 5, 27))
    assert all_started(tiny, date(2027, 5, 28))


def test_totals_stand_beside_a_bad_year_and_its_chance() -> None:
    totals = pd.DataFrame(
        [("jar", 211.0, 94.3, 0.03), ("pack", 0.0, 0.0, 1.0), ("h", 118.7, 134.2, 0.8)],
        columns=["unit", "planned", "bad_year", "chance"],
    ).assign(mean=[161.0, 0.0, 106.4])
    none = totals.assign(bad_year=0.0, chance=0.0)

    assert bad_year_words(totals) == (
        "In one year of ten: 94 jars or fewer (all 211 in 3% of years). "
        "On average it takes about 110 h of kitchen work, in one year of ten 130 h or more."
    )
    assert "not one jar (all 211 in hardly any year)" in bad_year_words(none)


def headline(*totals: tuple[str, float, float], to_plant: str | None = "9 crops") -> str:
    foods = pd.DataFrame(columns=["food", "enough", "standing", "met_portions"])
    limits = pd.DataFrame(columns=["limit", "share", "week"])
    shelf = pd.DataFrame(totals, columns=["unit", "planned", "mean"])
    return spring_headline(shelf, foods.assign(wanted_portions=0.0), limits, to_plant)


def test_spring_leads_with_the_jars_of_an_average_year() -> None:
    assert headline(("jar", 211.0, 159.0), ("pack", 159.0, 132.1)) == (
        "Plant **9 crops**, and put up about **159 jars** and about **132 freezer packs**; "
        "211 jars and 159 freezer packs at the very most."
    )
    assert headline(("jar", 30.0, 0.2), ("pack", 9.0, 9.0), to_plant=None) == (
        "Everything is planted; put up still hardly any jars and about **9 freezer packs**; "
        "30 jars and 9 freezer packs at the very most."
    )


def test_what_every_year_reaches_is_told_once_and_what_is_not_put_up_not_at_all() -> None:
    assert headline(("jar", 12.0, 12.0), ("pack", 0.0, 0.0)).endswith("put up **12 jars**.")
    assert headline(("jar", 0.0, 0.0), ("pack", 0.0, 0.0)) == "Plant **9 crops**."


def test_an_empty_plan_has_no_bad_year_to_tell() -> None:
    totals = pd.DataFrame(
        [("jar", 0.0, 0.0, 1.0), ("pack", 0.0, 0.0, 1.0), ("h", 0.0, 0.0, 1.0)],
        columns=["unit", "planned", "bad_year", "chance"],
    )

    assert bad_year_words(totals) == ""


@pytest.mark.parametrize(
    ("told", "unknown"),
    [
        ({"stock": None}, True),
        ({"stock": "counted_on,preserve,jars,put_up_on\n2027-02-27,sauce,0,\n"}, False),
        ({"stock": None, "batches": FILLED}, False),
    ],
)
def test_a_shelf_is_unknown_until_it_is_counted_or_filled(
    told: dict[str, str | None], *, unknown: bool
) -> None:
    plan = model.plan_season(small_season(**told), date(2027, 3, 1), years=2)

    assert never_counted(plan) is unknown


def test_nothing_is_opened_from_an_empty_shelf() -> None:
    week = pd.Series({"week": date(2027, 3, 1), "jars": 0.0, "opened": 0.2})

    assert week_headline(week, pd.DataFrame(), "0 kg", pd.DataFrame()) == (
        "Week of 1 Mar 2027: nothing to pick, put up or open."
    )
    potatoes = pd.DataFrame({"preserve": ["potatoes"], "unit": ["kg"]})
    assert week_headline(week, pd.DataFrame(), "0 kg", potatoes).endswith(
        "nothing to pick or put up; eat from the stores."
    )
    three = pd.Series({**week, "opened": 3.0})
    opened = week_headline(three, pd.DataFrame(), "0 kg", potatoes)
    assert opened.endswith("open about **3 jars and packs**.")


def test_what_is_to_be_looked_at_is_named_and_then_what_to_eat_first(tiny: model.Season) -> None:
    first = pd.DataFrame(
        [
            ("cabbages", "past keeping", "past its keeping"),
            ("apples", "sort now", "keeps about 2 weeks more: sort it now"),
        ],
        columns=["preserve", "condition", "why_first"],
    ).assign(put_up_on=date(2027, 1, 9))
    alike = first.assign(why_first="past its keeping")
    sound = first.head(1).assign(preserve="jam", condition=model.KEEPS, why_first="oldest")
    sound = pd.concat([first, sound.assign(standing_units=2.0)], ignore_index=True)

    assert larder_headline(tiny, first, date(2027, 8, 1), None).startswith(
        "**Look first at cabbages and apples**."
    )
    assert larder_headline(tiny, alike, date(2027, 8, 1), None).startswith(
        "**Look first at cabbages and apples**: past its keeping."
    )
    assert "apples**. **Eat first: jam**, oldest." in larder_headline(
        tiny, sound, date(2027, 8, 1), None
    )


def test_a_count_is_due_of_what_nobody_saw_for_seven_weeks() -> None:
    first, today = pd.DataFrame(columns=["condition", "put_up_on"]), date(2028, 1, 10)
    counted = recorded(counts=(count(date(2028, 1, 8), 4),))

    def told(unseen_since: date) -> str:
        return larder_headline(counted, first, today, unseen_since)

    assert "due" not in told(date(2028, 1, 8))
    assert "due" not in told(date(2027, 11, 23))
    assert told(date(2027, 11, 22)).endswith(
        "A count is due: some of it was last looked at 7 weeks ago."
    )


def progress(*rows: tuple[str, str]) -> pd.DataFrame:
    return pd.DataFrame(
        [
            {
                "crop": crop,
                "status": status,
                "picked_kg": 2.0,
                "expected_so_far_kg": 1.0,
                "to_come_kg": 3.0,
            }
            for crop, status in rows
        ]
    )


def kg(number: float) -> str:
    return f"{number:.0f} kg"


def test_a_season_without_a_log_is_unknown_and_not_behind() -> None:
    nothing = progress(("tomato", "nothing logged"), ("peach", "nothing logged"))

    assert progress_words(nothing, date(2026, 3, 11), kg) == [
        "Nothing has been logged since 11 Mar 2026, so the season's standing is unknown."
    ]
    assert progress_words(nothing, None, kg)[0].startswith("Nothing has been logged, so")


def test_much_so_early_of_what_ripens_at_once_may_mean_less_to_come() -> None:
    said = progress_words(progress(("sweet corn", "ahead or early"), ("pea", "behind")), None, kg)

    assert said[0].startswith("**Ahead or early**: sweet corn (2 kg picked, 1 kg due by now).")
    assert "less may be to come" in said[0]
    over = progress(("sweet corn", "ahead or early")).assign(to_come_kg=0.0)
    assert "less" not in progress_words(over, None, kg)[0]
    assert said[1] == "**Behind**: pea (2 kg picked, 1 kg due by now)."


def test_what_ripens_at_once_is_ahead_or_early_and_what_keeps_bearing_is_ahead(
    alder_lane: model.Season,
) -> None:
    table = model.progress_table(model.plan_season(alder_lane, date(2027, 10, 1), years=5))
    status = table.set_index("crop")["status"]

    # written into the invented log: much sweet corn, which ripens at once, and many cucumbers
    assert status["sweet corn"] == "ahead or early"
    assert status["pickling cucumber"] == "ahead"
    assert "nothing logged" not in set(status)


def test_nothing_logged_this_season_gives_no_verdict(two_rivers: model.Season) -> None:
    table = model.progress_table(model.plan_season(two_rivers, date(2027, 2, 15), years=5))

    assert set(table["status"]) == {"nothing logged"}


@pytest.mark.parametrize(
    ("counted", "words"),
    [
        (None, "Shelf never counted: known by what was put up, where that was written down"),
        (date(2028, 1, 8), "Shelf counted 8 Jan 2028 (within the week)"),
        (date(2028, 1, 3), "Shelf counted 3 Jan 2028 (1 week ago)"),
        (date(2027, 12, 20), "Shelf counted 20 Dec 2027 (3 weeks ago)"),
    ],
)
def test_the_age_of_the_stock_take_is_told(counted: date | None, words: str) -> None:
    assert counted_words(counted, date(2028, 1, 10)) == words


def test_a_count_of_some_of_what_should_stand_there_is_called_a_part() -> None:
    first, second = date(2027, 12, 20), date(2028, 1, 3)
    counts = (count(first, 5), count(first, 3, preserve=PACKS), count(first, 0, preserve="sauce"))
    whole = recorded(counts=counts)
    some = recorded(counts=(*counts, count(second, 4)))
    made = recorded(counts=counts[:1], batches=(batch("F", first, 4, preserve=PACKS),))

    # what the book knows nothing of need not be counted; what it knows must be
    assert part_counted(whole, first) == (3, 3)
    assert part_counted(some, second) == (1, 2)
    assert part_counted(made, first) == (1, 2)
    words = "Shelf partly counted (1 of 2) on 3 Jan 2028 (1 week ago)"
    assert counted_words(second, date(2028, 1, 10), part_counted(some, second)) == words


def test_limits_that_leave_room_are_not_named() -> None:
    limits = pd.DataFrame({"limit": ["oven"], "share": [0.5], "week": [date(2027, 6, 7)]})

    assert limit_words(limits) == ""
    assert limit_words(limits.assign(share=1.0)) == "oven (1 week, the first 7 Jun)"


def test_a_sowing_that_failed_is_told_with_what_could_stand_in_its_place() -> None:
    row = {
        "crop": "bush bean",
        "latest_nine": date(2027, 7, 9),
        "latest_five": date(2027, 7, 20),
        "latest_two": date(2027, 7, 28),
        "chance_today": 0.9,
        "instead": "turnip",
        "instead_bed": "bed A",
        "instead_m2": 2.9,
        "instead_kg": 20.0,
        "instead_portions": 61.0,
        "replaces": "beans",
        "short_portions": 61.0,
    }
    late = {**row, "chance_today": 0.01, "instead": None}

    early, between = date(2027, 7, 1), date(2027, 7, 10)

    assert resow_words(pd.DataFrame([row]), early, "metric")[0] == (
        "**Bush bean failed.** Sown again today it is picked in 9 years in 10, nine in ten until "
        "9 Jul 2027. Or sow turnip on 2.9 m² of bed A: about 20 kg, which puts 61 portions on the "
        "plate in place of beans; 61 are missing."
    )
    assert "five in ten until 20 Jul" in resow_words(pd.DataFrame([row]), between, "metric")[0]
    assert resow_words(pd.DataFrame([late]), early, "metric") == [
        "**Bush bean failed.** Sown again now it hardly makes it."
    ]


def test_jars_to_fill_are_told_on_average_and_to_be_sure() -> None:
    row = {"preserve": "sauce", "sealed_needed": 31, "fill_mean": 32, "fill_sure": 34}
    fill = pd.DataFrame([row])

    assert fill_words(fill, "sauce") == (
        "The plan counts on **31 sealed jars** more: fill 32 in all, so that enough seal on "
        "average, or 34 so that enough seal nine times in ten."
    )
    assert fill_words(fill.assign(fill_sure=32), "sauce").endswith(
        "fill 32 in all, and enough seal nine times in ten."
    )
    assert fill_words(fill, "jam") == ""


def test_in_midwinter_what_is_short_is_not_said_to_be_covered_because_it_is_too_late() -> None:
    foods = pd.DataFrame(
        {
            "food": ["peas", "jam"],
            "wanted_portions": [40.0, 20.0],
            "met_portions": [11.0, 19.6],
        }
    )

    assert "Short, and nothing can be put up against it any more" in nothing_to_buy_words(foods)
    assert "peas. What" in nothing_to_buy_words(foods)
    assert "is covered" in nothing_to_buy_words(foods.iloc[1:])
