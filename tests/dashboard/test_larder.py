"""Larder: eat first, the count, and what went wrong."""

from datetime import date
from pathlib import Path

import pandas as pd
import pytest
from streamlit.testing.v1 import AppTest

from dashboard.forms.count_form import count_edits
from model import Store, ledgers, season_from_tables
from tests.dashboard.seeding import ALDER_LANE, FIRST, TWO_RIVERS, rows
from tests.dashboard.steps import labelled, look, part, plain_tables, table_with, words
from tests.recorded import PACKS, batch, count, recorded

SEPTEMBER = date(2027, 9, 6)
GLUT, MIDWINTER, LARDER = date(2027, 8, 16), date(2028, 1, 10), "views/larder.py"


@pytest.fixture
def larder(app: AppTest) -> AppTest:
    return look(app, "Alder Lane", MIDWINTER, LARDER)


def stock(path: Path) -> dict[str, float]:
    season = season_from_tables(Store(path, FIRST).tables(ALDER_LANE))
    return {name: book.units for name, book in ledgers(season, MIDWINTER).items()}


def test_what_is_to_be_sorted_stands_before_what_keeps(larder: AppTest) -> None:
    rows = plain_tables(larder)[0]

    assert all(why.startswith("**sort first**") for why in rows["Why"][:2])
    assert rows["Why"].iloc[-1].startswith("keeps about")
    assert "Look first at" in words(larder)
    assert "nothing here says that one is safe" in words(larder)


def test_what_is_likely_eaten_but_in_the_book_is_named_and_not_passed_over(app: AppTest) -> None:
    larder = look(app, "Two Rivers", date(2027, 2, 20), LARDER)
    told = next(one.value for one in larder.markdown if "Likely eaten" in one.value)

    assert "tomato quarts (9 jars)" in told
    assert "bean pints (6 jars)" in told
    assert not any("tomato quarts" in one for one in plain_tables(larder)[0]["Preserve"])
    larder.switch_page("views/winter.py").run()
    winter = next(one.value for one in larder.markdown if "Taken as eaten" in one.value)
    assert "tomato quarts (9 jars)" in winter


def test_what_nobody_looked_at_the_seals_of_is_not_among_what_to_eat_first(app: AppTest) -> None:
    larder = look(app, "Alder Lane", GLUT, LARDER)
    first, unseen = plain_tables(larder)

    assert not any("corn relish" in one for one in first["Preserve"])
    assert [one.split(" of ")[0] for one in unseen["Preserve"]] == ["corn relish"]
    assert "Do not take yet: look at the seals first" in words(larder)


def test_what_stands_against_a_store_is_bold_and_shows_no_marks(larder: AppTest) -> None:
    part(larder, "Root stores")
    notes = pd.concat(plain_tables(larder))["To note"]

    assert notes.str.startswith("**too warm").any()
    assert "\\*" not in words(larder)


def test_the_book_and_what_is_likely_left_of_it_are_never_told_by_one_word(app: AppTest) -> None:
    larder = look(app, "Alder Lane", SEPTEMBER, LARDER)
    left = plain_tables(larder)[0].set_index("Preserve")["Likely left"]
    part(larder, "What stands where")
    book = table_with(larder, "by_book").set_index("preserve")["by_book"]

    likely = left.filter(like="apple sauce").tolist()
    assert likely != [book["apple sauce"]] == ["4 jars"]
    assert "eaten and not written down is still in the book" in words(larder)
    part(larder, "Root stores")
    stored = pd.concat(plain_tables(larder))["In store"]
    assert stored[~stored.str.endswith("none there")].str.endswith(" kg likely left").all()
    assert stored.str.startswith("garlic plaits of").any()


def test_a_count_overrules_the_book_and_says_what_it_differs_by(
    larder: AppTest, store_path: Path
) -> None:
    assert stock(store_path)["ketchup"] == 2
    larder.segmented_control(key="larder_what").set_value("Count").run()
    labelled(larder, "number_input", "Ketchup").set_value(1.0).run()

    assert "-1 against the book" in words(larder)
    labelled(larder, "button", "Save").click().run()
    assert not larder.exception
    assert stock(store_path)["ketchup"] == 1


def test_as_many_as_by_the_book_are_counted_with_one_tap(larder: AppTest) -> None:
    larder.segmented_control(key="larder_what").set_value("Count").run()
    same = labelled(larder, "button_group", "As many ketchup")
    assert same.options == ["2, as by the book"]
    same.set_value(2.0).run()
    assert labelled(larder, "button", "Save").label == "Save: 1 preserve in larder shelves"

    # what is typed was counted anew
    labelled(larder, "number_input", "Ketchup").set_value(1.0).run()
    assert "Ketchup: -1 against the book" in words(larder)


def test_jars_whose_seals_nobody_has_looked_at_are_left_out_of_a_count(
    app: AppTest, store_path: Path
) -> None:
    larder = part(look(app, "Alder Lane", GLUT, LARDER), "Count")
    before = Store(store_path, FIRST).rows(ALDER_LANE, "stock.csv")
    assert "6 more wait for a look at their seals: leave them out." in words(larder)
    labelled(larder, "number_input", "Corn relish").set_value(6.0).run()

    assert "6 wait for a look at their seals. Those are left out?" in larder.warning[0].value
    labelled(larder, "button", "Save").click().run()
    assert Store(store_path, FIRST).rows(ALDER_LANE, "stock.csv") == before
    labelled(larder, "toggle", "It is right").set_value(True).run()
    labelled(larder, "button", "Save").click().run()
    assert Store(store_path, FIRST).rows(ALDER_LANE, "stock.csv") != before


def test_more_full_jars_than_are_owned_are_refused_in_the_words_of_the_pages(
    larder: AppTest,
) -> None:
    part(larder, "Count")
    labelled(larder, "number_input", "Corn relish").set_value(1900.0).run()
    for toggle in larder.toggle:
        toggle.set_value(True)
    labelled(larder, "button", "Save").click().run()

    assert "Nothing was written" in larder.error[0].value
    told = " ".join(text.value for text in larder.text)
    assert "full" in told
    assert "or Jars and lids" in told
    assert ".csv" not in told


def test_a_dead_freezer_is_written_off_in_one_action(larder: AppTest, store_path: Path) -> None:
    larder.segmented_control(key="larder_what").set_value("Something went wrong").run()
    labelled(larder, "button_group", "Where").set_value("chest freezer").run()
    labelled(larder, "selectbox", "What happened").set_value("freezer died").run()

    assert "ice crystals" in words(larder)
    assert "takes it to be mended by the time" in words(larder)
    labelled(larder, "date_input", "It works again from").set_value(date(2028, 2, 1)).run()
    assert "takes it to be mended by the time" not in words(larder)
    labelled(larder, "button", "Write off everything").click().run()
    assert not larder.exception
    assert "Chest freezer written off, freezer died, on 10 Jan" in words(larder)
    frozen = {name: units for name, units in stock(store_path).items() if "frozen" in name}
    assert not any(frozen.values())
    assert stock(store_path)["ketchup"] == 2
    places = Store(store_path, FIRST).rows(ALDER_LANE, "places.csv").values()
    assert {row["place"]: row.get("works_from", "") for row in places}["chest freezer"] == (
        "2028-02-01"
    )


def test_a_suspect_jar_is_not_tasted_and_its_mates_are_listed(larder: AppTest) -> None:
    larder.segmented_control(key="larder_what").set_value("Something went wrong").run()
    for group in larder.get("button_group"):
        if "One suspect jar" in group.options:
            group.set_value("One suspect jar").run()
            break
    labelled(larder, "selectbox", "What is in it").set_value("crushed tomatoes").run()

    assert larder.error[0].value == "Do not taste it."
    assert "30 minutes" in words(larder)
    assert "before any jar is opened" in words(larder)


def test_a_second_count_of_the_day_replaces_the_first(larder: AppTest, store_path: Path) -> None:
    for number in (5.0, 4.0):
        larder.segmented_control(key="larder_what").set_value("Count").run()
        labelled(larder, "number_input", "Ketchup").set_value(number).run()
        told = "counted on that day already" in words(larder)
        labelled(larder, "button", "Save").click().run()

    assert told
    assert stock(store_path)["ketchup"] == 4


def test_a_slip_in_a_count_does_not_make_old_packs_new() -> None:
    old, new = date(2026, 6, 13), date(2027, 6, 12)
    packs = (batch("A", old, 3, preserve=PACKS), batch("B", new, 10, preserve=PACKS))
    slip = count(SEPTEMBER, 1, preserve=PACKS, put_up=new)
    season = recorded(batches=packs, counts=(slip,))
    edits = count_edits(season, {PACKS: 13.0}, SEPTEMBER, SEPTEMBER)

    cells = [edit.cells or {} for edit in edits]
    assert [(c["put_up_on"], c["jars"]) for c in cells] == [(f"{old}", "3"), (f"{new}", "10")]


def freezer_died(larder: AppTest) -> AppTest:
    larder.segmented_control(key="larder_what").set_value("Something went wrong").run()
    return labelled(larder, "selectbox", "What happened").set_value("freezer died").run()


def test_a_thaw_of_which_nothing_is_known_is_written_off(larder: AppTest) -> None:
    freezer_died(larder)

    assert larder.error[0].value.startswith("Write it off")
    labelled(larder, "number_input", "Warmest reading").set_value(4.0).run()
    assert not larder.error
    assert "others are thrown away" in larder.warning[0].value
    labelled(larder, "toggle", "It may have thawed").set_value(True).run()
    assert larder.error[0].value.startswith("Write it off")


def test_a_loss_on_the_day_of_a_count_leaves_every_part_at_once_and_is_lost_once(
    larder: AppTest, store_path: Path
) -> None:
    larder.segmented_control(key="larder_what").set_value("Count").run()
    labelled(larder, "number_input", "Ketchup").set_value(3.0).run()
    labelled(larder, "button", "Save").click().run()
    larder.segmented_control(key="larder_what").set_value("Something went wrong").run()
    labelled(larder, "button_group", "Where").set_value("larder shelves").run()
    labelled(larder, "selectbox", "What happened").set_value("shelf fell").run()

    assert "Counted today: ketchup" in words(larder)
    labelled(larder, "button", "Write off everything").click().run()
    assert stock(store_path)["ketchup"] == 0
    for shown in ("Eat first", "What stands where", "What could hurt us"):
        part(larder, shown)
        shelves = [one.to_string() for one in plain_tables(larder)] + [words(larder)]
        assert not any("ketchup" in one.lower() for one in shelves), shown
    # as many as before were saved after all
    part(larder, "Count")
    labelled(larder, "number_input", "Ketchup").set_value(3.0).run()
    labelled(larder, "button", "Save").click().run()
    assert stock(store_path)["ketchup"] == 3


def test_what_could_hurt_is_listed_and_a_household_can_ask_for_the_cautious_way(
    app: AppTest, store_path: Path
) -> None:
    look(app, "Two Rivers", date(2026, 10, 12), "views/larder.py")
    part(app, "What could hurt us")
    assert "Low-acid food in jars" in words(app)
    # one of the eaters is three years old
    assert "boil it ten minutes" in words(app)

    labelled(app, "toggle", "Somebody here is pregnant").set_value(True).run()
    (notes,) = Store(store_path, FIRST).rows(TWO_RIVERS, "household.csv").values()
    assert notes["at_risk"] == "yes"
    labelled(app, "toggle", "Somebody here is pregnant").set_value(False).run()
    (notes,) = Store(store_path, FIRST).rows(TWO_RIVERS, "household.csv").values()
    assert not notes.get("at_risk")


def test_the_stores_tell_days_of_keeping_losses_and_bad_neighbours(larder: AppTest) -> None:
    larder.segmented_control(key="larder_what").set_value("Root stores").run()

    assert not larder.exception
    assert [head.value for head in larder.subheader] == [
        "Attic: 11 °C, 60 % humidity",
        "Cellar: 6 °C, 90 % humidity",
    ]
    assert "Sort next on" in words(larder)
    cellar = " ".join(plain_tables(larder)[1]["To note"])
    assert "apples beside it turn it bitter" in cellar
    assert all("a week" in kept for kept in plain_tables(larder)[1]["Keeps until"])


def test_jars_like_a_bad_one_stay_to_be_looked_at_until_they_are_said_to_be_sound(
    larder: AppTest, store_path: Path
) -> None:
    part(larder, "Something went wrong")
    part(larder, "One suspect jar")
    labelled(larder, "selectbox", "What is in it").set_value("crushed tomatoes").run()
    batch = "2027-09-18 crushed tomatoes"
    labelled(larder, "selectbox", "Its batch").set_value(batch).run()
    labelled(larder, "button", "Write it off").click().run()
    part(larder, "Eat first")
    told = pd.concat(plain_tables(larder)).to_string()
    assert "a bad jar was found on 10 Jan 2028, and this is of the same batch" in told
    labelled(larder, "button", "Save: they are sound").click().run()
    assert larder.warning[0].value == "Say which were looked at."
    waiting = labelled(larder, "button_group", "Looked at").options
    labelled(larder, "button_group", "Looked at").set_value([batch]).run()
    labelled(larder, "button", "Save: they are sound").click().run()
    assert rows(store_path, "seals.csv")[-1]["batch"] == batch
    left = labelled(larder, "button_group", "Looked at").options
    assert len(left) == len(waiting) - 1
    # others of the preserve wait still, and a count may have put them under one day
    told = pd.concat(plain_tables(larder)).set_index("Preserve")["Why"]
    assert "look first" in told.filter(like="crushed tomatoes").iloc[0]

    larder.switch_page("views/this_week.py").run()
    opened = next(own for own in plain_tables(larder) if "Opened" in own)
    why = opened.set_index("Preserve")["Why now"].filter(like="pickles")
    assert len(why)
    assert why.str.startswith("not before each was looked at").all()
    bells = [link.label for link in larder.get("page_link")]
    assert "Open no jar like the bad one before each was looked at" in bells
