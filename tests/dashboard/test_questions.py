"""Questions asked on the pages: a glut, one more, hedges, ways to plan, how bad years weigh."""

import re
from datetime import date, datetime, time
from importlib.resources import files

import pandas as pd
import pytest
from streamlit.testing.v1 import AppTest

import model
from dashboard import question_tables
from tests.dashboard.steps import labelled, look, part, table_with, tables, words
from tests.piles import split_glut

GLUT, AUGUST = date(2027, 8, 16), date(2026, 8, 10)


@pytest.fixture
def glut(app: AppTest) -> AppTest:
    look(app, "Alder Lane", GLUT, "views/this_week.py")
    return part(app, "A glut on the table")


def test_a_pile_is_split_with_a_finish_time(glut: AppTest) -> None:
    labelled(glut, "multiselect", "What lies").set_value(["tomato"]).run()
    labelled(glut, "number_input", "Tomato (kg)").set_value(20.0).run()
    steps = table_with(glut, "action", "done_at")

    assert "Done about **" in words(glut)
    assert "What limits it: **" in words(glut)
    assert "can" in set(steps["action"])
    # the process of what is canned stands in full below it
    assert "minutes in boiling water" in words(glut)


def test_a_split_pile_is_taken_to_the_preserving_day_and_ends_there_when_it_said(
    glut: AppTest,
) -> None:
    labelled(glut, "multiselect", "What lies").set_value(["tomato"]).run()
    labelled(glut, "number_input", "Tomato (kg)").set_value(20.0).run()
    labelled(glut, "time_input", "Starting at").set_value(time(14)).run()
    done = re.search(r"Done about \*\*([0-9:]+)\*\*", words(glut))
    canned = table_with(glut, "action", "done_at")
    canned = canned[canned["action"] == "can"]
    glut.button(key="glut_day").click().run()

    assert done is not None
    assert f"from 14:00: done at {done[1]}" in words(glut)
    assert all(any(name in made.lower() for made in _made(glut)) for name in canned["preserve"])


def test_what_the_freezer_does_not_take_that_day_is_told_to_be_work_of_another(
    glut: AppTest,
) -> None:
    labelled(glut, "multiselect", "What lies").set_value(["bush bean"]).run()
    labelled(glut, "number_input", "Bush bean (kg)").set_value(20.0).run()
    labelled(glut, "number_input", "Free hours").set_value(8.0).run()
    steps = table_with(glut, "action", "done_at").set_index("preserve")
    glut.button(key="glut_day").click().run()
    frozen = steps.loc["frozen beans"]
    (made,) = [re.search(r"(\d+) packs of frozen beans", words(glut))]

    assert made is not None
    assert int(frozen["put_up"].split()[0]) > int(made[1])
    assert f"for {made[1]} packs, the rest on another day" in frozen["done_at"]


def test_what_was_put_up_that_day_is_named_beside_the_pile(app: AppTest) -> None:
    # demo_data/alder_lane/batches.csv: sweetcorn was frozen on 14 August
    look(app, "Alder Lane", date(2027, 8, 14), "views/this_week.py")
    glut = part(app, "A glut on the table")
    labelled(glut, "multiselect", "What lies").set_value(["tomato"]).run()
    labelled(glut, "number_input", "Tomato (kg)").set_value(20.0).run()
    assert "Put up today already" not in words(glut)

    labelled(glut, "multiselect", "What lies").set_value(["tomato", "sweet corn"]).run()
    labelled(glut, "number_input", "Sweetcorn (kg)").set_value(9.0).run()
    assert re.search(
        r"Put up today already: \d+ packs of frozen sweetcorn \([\d.]+ kg\)", words(glut)
    )


def test_a_pile_that_would_keep_the_cook_up_past_bedtime_says_so(glut: AppTest) -> None:
    labelled(glut, "multiselect", "What lies").set_value(["tomato"]).run()
    labelled(glut, "number_input", "Tomato (kg)").set_value(20.0).run()
    assert not glut.warning
    labelled(glut, "time_input", "Starting at").set_value(time(20, 30)).run()

    assert "bedtime" in glut.warning[0].value.lower()


def test_a_pile_stays_while_another_page_is_looked_at_and_says_how_long_it_holds(
    glut: AppTest,
) -> None:
    labelled(glut, "multiselect", "What lies").set_value(["tomato", "apple"]).run()
    labelled(glut, "number_input", "Tomato (kg)").set_value(20.0).run()
    labelled(glut, "number_input", "Free hours").set_value(2.5).run()
    assert "tomato, 20 kg" in set(table_with(glut, "in_hand", "hold_by")["in_hand"])

    glut.switch_page("views/larder.py").run()
    glut.switch_page("views/this_week.py").run()
    part(glut, "A glut on the table")

    assert labelled(glut, "multiselect", "What lies").value == ["tomato", "apple"]
    assert labelled(glut, "number_input", "Tomato (kg)").value == 20.0
    assert labelled(glut, "number_input", "Free hours").value == 2.5


def _made(app: AppTest) -> list[str]:
    return [box.label for box in app.number_input]


def test_the_pile_begins_with_what_was_picked_and_still_holds(app: AppTest) -> None:
    today = date(2027, 8, 22)
    glut = part(look(app, "Alder Lane", today, "views/this_week.py"), "A glut on the table")
    season = model.season_from_tables(model.read_tables(str(files("demo_data") / "alder_lane")))
    lies = {
        picking.crop
        for picking in season.pickings
        if 0 <= (today - picking.day).days <= season.crop(picking.crop).hold_days
    }
    offered = labelled(glut, "multiselect", "What lies on the table").value

    assert len(lies) >= len(offered) == 3
    assert set(offered) <= lies


def test_what_is_bruised_is_asked_for_and_used_first(glut: AppTest) -> None:
    labelled(glut, "multiselect", "What lies").set_value(["tomato"]).run()
    labelled(glut, "number_input", "Tomato (kg)").set_value(20.0).run()
    labelled(glut, "toggle", "Some of it is bruised").set_value(True).run()
    labelled(glut, "number_input", "Tomato, of it bruised").set_value(5.0).run()
    steps = table_with(glut, "action", "bruised_words")

    assert "trimmed and used up first" in words(glut)
    assert steps["bruised_words"].str.contains("kg").any()
    labelled(glut, "number_input", "Tomato, of it bruised").set_value(25.0).run()
    assert "cannot be split" in glut.error[0].value


def test_nothing_on_the_table_asks_for_something(glut: AppTest) -> None:
    labelled(glut, "multiselect", "What lies").set_value([]).run()

    assert any("Choose what lies there" in caption.value for caption in glut.caption)


@pytest.fixture
def august(app: AppTest) -> AppTest:
    """The smaller of the invented households, which is soon answered."""
    return look(app, "Two Rivers", AUGUST, "views/spring.py")


def test_one_more_is_told_in_words(august: AppTest) -> None:
    app = part(august, "What one more brings")
    found = table_with(app, "limit", "brings")

    assert found["brings"].str.contains("portions|jars|next to nothing").all()
    assert "brings nothing:" in words(app)


def test_hedges_of_a_food_stand_side_by_side(august: AppTest) -> None:
    app = part(august, "Against a bad year")
    found = table_with(app, "hedge", "chance_lasts")

    assert found.iloc[0]["hedge"] == "as planned"
    assert found["hedge"].str.contains("bought in at the peak").any()


def test_the_weight_of_bad_years_is_asked_for_and_stays(august: AppTest) -> None:
    app = august
    control = next(c for c in app.segmented_control if "the bad year too" in c.options)
    assert control.value == "eight years in ten"
    control.set_value("an ordinary year").run()
    app.switch_page("views/winter.py").run()
    app.switch_page("views/spring.py").run()
    control = next(c for c in app.segmented_control if "the bad year too" in c.options)

    assert control.value == "an ordinary year"


def test_ways_are_compared_only_when_asked_for(app: AppTest) -> None:
    part(app, "Ways to plan")

    assert app.toggle[0].value is False
    assert not any("way" in table.columns for table in tables(app, "way"))


def test_rows_of_answers_have_headings(tiny_plan: model.PlannedSeason) -> None:
    split = split_glut(tiny_plan, {}, 1.0)
    more = pd.DataFrame(
        {
            "limit": ["jars: pint", "dryer", "lids"],
            "week": [GLUT, GLUT, GLUT],
            "step": ["one more jar"] * 3,
            "steps": [1, 4, 0],
            "portions": [2.0, 0.1, 0.0],
            "jars": [1.0, 3.0, 0.0],
        }
    )
    rows = question_tables.more_rows(more, "metric")

    begins = datetime.combine(GLUT, time(9))
    sheet = model.day_sheet(tiny_plan.case.season, (), (), begins)
    assert question_tables.glut_rows(model.glut_table(split), sheet, "metric").empty
    assert list(rows["brings"]) == [
        "2 portions, 1 more jar",
        "nothing until 4 at once: 3 more jars",
    ]
    assert question_tables.idle_limits(more) == ["lids"]
    assert set(rows.columns) <= set(model.HEADINGS)
