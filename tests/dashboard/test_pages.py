"""Every page, on every day that matters, for both demo households, without a browser."""

import json
from datetime import date

import pytest
from streamlit.testing.v1 import AppTest

from tests.dashboard.steps import (
    bring_in,
    labelled,
    look,
    part,
    table_with,
    tables,
    unfold,
    words,
    zipped,
)

PAGES = [
    "views/spring.py",
    "views/this_week.py",
    "views/preserving_day.py",
    "views/log.py",
    "views/larder.py",
    "views/winter.py",
    "views/review.py",
    "views/household.py",
]
DAYS = {
    "Alder Lane": [date(2027, 3, 15), date(2027, 8, 16), date(2027, 11, 20), date(2028, 1, 10)],
    "Two Rivers": [date(2026, 10, 12), date(2027, 1, 25), date(2027, 6, 14)],
}
MORE = {
    "views/preserving_day.py": "day_more",
    "views/log.py": "log_what",
    "views/larder.py": "larder_what",
    "views/review.py": "review_what",
    "views/household.py": "notes_what",
    "views/spring.py": "spring_more",
    "views/this_week.py": "week_shows",
    "views/winter.py": "winter_more",
}


@pytest.mark.parametrize(("household", "day"), [(h, d) for h, days in DAYS.items() for d in days])
def test_every_page_answers_on_every_day(app: AppTest, household: str, day: date) -> None:
    look(app, household, day, PAGES[0])
    for page in PAGES:
        app.switch_page(page).run()

        assert not app.exception
        assert not app.error
        assert len(app.title) == 1
        assert f"{household}, an invented household" in words(app)
        assert any(character.isdigit() for character in words(app))


@pytest.mark.parametrize("page", PAGES)
def test_every_part_of_a_page_opens(app: AppTest, page: str) -> None:
    look(app, "Alder Lane", date(2027, 8, 16), page)
    parts = app.segmented_control(key=MORE[page])
    for name in parts.options:
        unfold(app.segmented_control(key=MORE[page]).set_value(name).run())

        assert not app.exception
        assert not app.error


def test_spring_says_how_many_jars_and_what_limits(app: AppTest) -> None:
    assert "jars**" in words(app)
    assert "should reach the new crop" in words(app)
    assert {"Plant for", "Put up"} <= {element.value for element in app.subheader}


def test_spring_shows_the_hand_rule_beside_the_plan(app: AppTest) -> None:
    first = table_with(app, "to_fill", "by_hand_fill", "why_short")
    assert len(first) == 13

    every = [table for table in tables(unfold(app)) if "by_hand_fill" in table]
    assert sorted({len(table) for table in every}) == [13, 39]


def test_this_week_says_what_to_pick_and_to_put_up(app: AppTest) -> None:
    look(app, "Alder Lane", date(2027, 8, 16), "views/this_week.py")

    assert "Week of 16 Aug 2027" in words(app)
    assert "kitchen hours" in words(app)
    assert {"Pick and eat", "Put up", "From the shelf"} <= {e.value for e in app.subheader}


def test_winter_says_what_gives_out_first(app: AppTest) -> None:
    look(app, "Alder Lane", date(2028, 1, 10), "views/winter.py")

    assert "First to give out: **peas**" in words(app)
    assert labelled(app, "selectbox", "Stock curve of").value == "peas"


def test_after_the_season_spring_says_what_it_leaves_short(app: AppTest) -> None:
    look(app, "Alder Lane", date(2028, 1, 10), "views/spring.py")

    assert "season is over" in words(app)
    assert app.title[0].value == "What the season leaves short"
    assert "short_portions" in tables(app)[0].columns


def test_a_household_in_us_units_is_shown_in_them(app: AppTest) -> None:
    look(app, "Two Rivers", date(2027, 1, 25), "views/this_week.py")

    assert " lb" in words(app)
    assert " kg" not in words(app)


def test_going_back_to_a_day_shows_the_same_plan(app: AppTest) -> None:
    before = words(app)
    look(app, "Alder Lane", date(2027, 8, 16), "views/spring.py")
    look(app, "Alder Lane", date(2027, 3, 15), "views/spring.py")

    assert words(app) == before


def test_in_august_spring_says_that_the_plantings_are_made(app: AppTest) -> None:
    look(app, "Alder Lane", date(2027, 8, 16), "views/spring.py")

    assert app.title[0].value == "What is planted, and how many jars of what"
    assert "Everything is planted" in words(app)


@pytest.mark.parametrize("page", ["views/this_week.py", "views/larder.py", "views/winter.py"])
def test_where_stock_is_shown_the_day_of_its_count_stands_too(app: AppTest, page: str) -> None:
    look(app, "Two Rivers", date(2027, 1, 25), page)

    assert "Shelf counted Oct 10, 2026 (15 weeks ago)" in words(app)


def test_where_nothing_was_logged_the_season_s_standing_is_unknown(app: AppTest) -> None:
    look(app, "Two Rivers", date(2027, 1, 25), "views/this_week.py")

    assert "Nothing has been logged since Mar 5, 2026" in words(app)


def test_another_day_asks_for_the_curve_of_what_gives_out_then(app: AppTest) -> None:
    look(app, "Alder Lane", date(2027, 11, 20), "views/winter.py")
    labelled(app, "selectbox", "Stock curve of").set_value("roots").run()
    app.date_input[0].set_value(date(2028, 1, 10)).run()

    assert labelled(app, "selectbox", "Stock curve of").value == "peas"


def test_small_curves_stand_with_the_first_to_give_out_first(app: AppTest) -> None:
    look(app, "Two Rivers", date(2026, 10, 12), "views/winter.py")
    part(app, "Every food")
    titles = [json.loads(c.proto.spec)["description"] for c in app.get("vega_lite_chart")]

    assert [title.partition(":")[0] for title in titles[2:]] == [
        "Carrots and potatoes",
        "Pumpkin",
        "Pickles",
        "Snap beans",
        "Corn",
        "Jam",
        "Tomatoes",
        "Peaches",
    ]
    # the same stretch as the curve above them
    assert titles[1] == titles[5]
    assert titles[8].startswith("Tomatoes: gone about Dec 7, 2026. ")


def test_of_a_shelf_never_counted_nothing_says_how_long_it_lasts(app: AppTest) -> None:
    bring_in(app, zipped(stock="counted_on,preserve,jars,put_up_on\n"))
    app.button(key="bring_new").click().run()
    look(app, "Tiny", date(2027, 3, 1), "views/winter.py")

    assert not app.exception
    assert "Nothing is counted yet" in words(app)
    assert list(table_with(app, "new_crop").columns) == ["food", "new_crop"]
    told = words(app).lower()
    assert "until it is counted the shelf is taken as empty. line:" in told
    findings = ("none left", "gives out", "do not reach", "gone about", "hardest month")
    assert not [said for said in findings if said in told]
    for name in app.segmented_control(key="winter_more_uncounted").options:
        app.segmented_control(key="winter_more_uncounted").set_value(name).run()
        assert not app.exception


def test_a_shelf_counted_as_empty_is_told_as_one(app: AppTest) -> None:
    empty = "counted_on,preserve,jars,put_up_on\n2027-02-27,sauce,0,\n"
    bring_in(app, zipped(stock=empty))
    app.button(key="bring_new").click().run()
    look(app, "Tiny", date(2027, 3, 1), "views/winter.py")

    assert "Nothing is counted yet" not in words(app)
    assert "none left" in words(app).lower()
    assert "do not reach" in words(app)
