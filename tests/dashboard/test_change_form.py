"""Changes: tried beside the plan, kept on every page, undone."""

from datetime import date
from pathlib import Path

import pytest
from streamlit.testing.v1 import AppTest

from tests.dashboard.seeding import TWO_RIVERS, rows
from tests.dashboard.steps import labelled, look, part, table_with, tables, unfold, use, words


@pytest.fixture
def south(app: AppTest) -> AppTest:
    """Give the smaller household, which is planned sooner."""
    return use(app, "Two Rivers")


def try_target(app: AppTest, preserve: str, wanted: int) -> AppTest:
    part(app, "Try a change")
    labelled(app, "selectbox", "Fill more or fewer").set_value(preserve).run()
    return labelled(app, "number_input", "Sealed wanted").set_value(wanted).run()


def keep(app: AppTest) -> AppTest:
    return labelled(app, "button", "Keep this change").click().run()


def test_a_loss_shows_the_new_plan_beside_the_old(south: AppTest) -> None:
    look(south, "Two Rivers", date(2027, 1, 25), "views/this_week.py")
    part(south, "A crop was lost")
    labelled(south, "multiselect", "Some of a crop").set_value(["tomato"]).run()
    labelled(south, "slider", "About how much").set_value(80).run()

    assert not south.exception
    assert "tomatoes" in set(table_with(south, "lasts_after")["food"])


def test_a_loss_is_written_down_for_good_and_taken_back(south: AppTest, store_path: Path) -> None:
    def lost() -> list[tuple[str, str, str]]:
        found = rows(store_path, "setbacks.csv", TWO_RIVERS)
        return [(r["noticed_on"], r["crop"], r["lost_percent"]) for r in found]

    before = lost()
    look(south, "Two Rivers", date(2027, 1, 25), "views/this_week.py")
    part(south, "A crop was lost")
    labelled(south, "multiselect", "Some of a crop").set_value(["tomato"]).run()
    labelled(south, "slider", "About how much").set_value(80).run()
    labelled(south, "button", "Write the loss down").click().run()

    assert not south.exception
    assert lost() == [*before, ("2027-01-25", "tomato", "80")]
    assert labelled(south, "multiselect", "Some of a crop").value == []
    labelled(south, "button", "Undo").click().run()
    assert lost() == before


def test_a_target_starts_at_the_sealed_jars_the_plan_counts_on(south: AppTest) -> None:
    unfold(part(south, "One preserve in full"))
    counted = table_with(south, "preserve", "sealed_needed").set_index("preserve")
    part(south, "Try a change")
    labelled(south, "selectbox", "Fill more or fewer").set_value("strawberry jam").run()
    asked = labelled(south, "number_input", "Sealed wanted")

    assert f"{asked.value} jars" == counted.loc["strawberry jam", "sealed_needed"]


def test_a_kept_change_is_on_every_page_until_it_is_undone(south: AppTest) -> None:
    before = words(south)
    try_target(south, "strawberry jam", 2)
    changed = table_with(south, "before", "after").set_index("preserve").loc["strawberry jam"]
    assert int(changed["after"]) < int(changed["before"])
    keep(south)
    south.session_state["fold_all_jars"] = True
    filled = tables(south.run())[-1].set_index("preserve")["to_fill"]
    south.session_state["fold_all_jars"] = False
    after = int(changed["after"])
    assert filled["strawberry jam"] == (f"{after} jars" if after else "none")

    for page in ("views/this_week.py", "views/winter.py", "views/spring.py"):
        south.switch_page(page).run()
        assert "You are looking at a tried change" in words(south)
        assert "2 jars of strawberry jam wanted" in words(south)

    south.button(key="undo").click().run()
    part(south, "When it is picked")
    assert "tried change" not in words(south)
    assert words(south) == before


def test_a_kept_change_belongs_to_its_household(south: AppTest) -> None:
    keep(try_target(south, "strawberry jam", 2))
    use(south, "Alder Lane")
    assert "tried change" not in words(south)
    use(south, "Two Rivers")

    assert "You are looking at a tried change" in words(south)


def test_another_household_is_asked_from_its_own_numbers(south: AppTest) -> None:
    try_target(south, "strawberry jam", 2)
    use(south, "Alder Lane")
    labelled(south, "selectbox", "Fill more or fewer").set_value("strawberry jam").run()

    assert labelled(south, "number_input", "Sealed wanted").value != 2


def test_an_area_is_asked_in_the_household_s_own_unit(south: AppTest) -> None:
    part(south, "Try a change")
    planting = labelled(south, "selectbox", "Plant more or less")
    pumpkin = next(name for name in planting.options if name.startswith("pumpkin"))
    planting.set_value(pumpkin).run()
    asked = labelled(south, "number_input", "How much")

    assert "ft²" in asked.label
    assert asked.step == 5.0
    asked.set_value(20.0).run()
    keep(south)
    assert "20 ft² of pumpkin" in words(south)
    planted = table_with(south, "amount").set_index("crop")
    assert planted.loc["pumpkin", "amount"] == "20 ft²"


def test_a_target_out_of_reach_says_how_many_are_possible_and_with_what(south: AppTest) -> None:
    try_target(south, "strawberry jam", 400)

    assert "only" in south.warning[0].value
    assert "of 400 are possible with" in south.warning[0].value
    assert "strawberry" in south.warning[0].value
