"""Preserving day: in which order, until when, written down by loads; never a made-up time."""

import re
from datetime import date, time
from importlib.resources import files
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, expect
from streamlit.testing.v1 import AppTest

from model import Store
from tests.dashboard.seeding import FIRST, seeded
from tests.dashboard.serving import served
from tests.dashboard.steps import labelled, look, part, unfold, words
from tests.dashboard.visiting import idle
from tests.dashboard.walking import (
    BOTH,
    NARROW,
    Screen,
    fits,
    go,
    look_from,
    press,
    side,
    walked,
)

DAY, PAGE = date(2027, 8, 16), "views/preserving_day.py"
ALDER_LANE = 2


@pytest.fixture
def day(app: AppTest) -> AppTest:
    return look(app, "Alder Lane", DAY, PAGE)


def rows(path: Path, file: str) -> list[dict[str, str]]:
    return list(Store(path, FIRST).rows(ALDER_LANE, file).values())


def number(day: AppTest, preserve: str):
    return labelled(day, "number_input", preserve)


def load_of(day: AppTest, preserve: str) -> str:
    """Give what is told of the first load of a preserve."""
    return next(m.value for m in day.markdown if re.match(rf"\*\*\d+\. .*{preserve}", m.value))


def test_the_first_sentence_says_how_much_from_when_and_until_when(day: AppTest) -> None:
    first = day.markdown[0].value

    assert "batches from 09:00: done at " in first
    assert "In this order: frozen sweetcorn, then crushed tomatoes" in words(day)
    assert "process 50 minutes in boiling water" in load_of(day, "crushed tomatoes")


def test_acid_and_headspace_stand_with_the_load_they_go_into(day: AppTest) -> None:
    """USDA Complete Guide: 2 tbsp bottled lemon juice a quart of tomatoes, headspace 1/2 inch."""
    told = load_of(day, "crushed tomatoes")

    assert "Acid goes into every jar: 2 tbsp (30 ml) bottled lemon juice" in told
    assert "Headspace 13 mm (0.5 in)" in told


def test_the_hour_of_beginning_moves_every_clock_time(day: AppTest) -> None:
    labelled(day, "time_input", "Begin at").set_value(time(13)).run()

    assert "from 13:00" in day.markdown[0].value
    assert "13:00 prepare" in load_of(day, "frozen sweetcorn")


def test_a_number_that_is_changed_makes_other_loads_and_stays_on_another_page(
    day: AppTest,
) -> None:
    number(day, "Crushed tomatoes").set_value(14).run()
    day.switch_page("views/log.py").run()
    day.switch_page(PAGE).run()

    assert number(day, "Crushed tomatoes").value == 14
    assert sum(". 7 jars of crushed tomatoes" in m.value for m in day.markdown) == 2


def test_a_day_past_bedtime_warns_and_leaves_the_rest_for_tomorrow(day: AppTest) -> None:
    number(day, "Crushed tomatoes").set_value(70).run()
    warning = day.warning[0].value

    assert "past bedtime at 22:00" in warning
    assert "of crushed tomatoes**: it would end past bedtime" in warning
    assert "refrigerator, 5 to 8 days" in warning
    labelled(day, "toggle", "Go on past bedtime").set_value(True).run()
    assert "left in the canner overnight" in day.warning[0].value
    assert "tomorrow" in day.markdown[0].value


def test_bedtime_is_kept_in_the_household_s_settings(day: AppTest, store_path: Path) -> None:
    labelled(day, "time_input", "Bedtime").set_value(time(12, 30)).run()

    assert not day.exception
    assert {"setting": "bedtime_hour", "value": "12.5"} in rows(store_path, "settings.csv")
    assert "past bedtime at 12:30" in day.warning[0].value
    labelled(day, "time_input", "Bedtime").set_value(time(1)).run()
    kept = [row for row in rows(store_path, "settings.csv") if row["setting"] == "bedtime_hour"]
    assert kept == [{"setting": "bedtime_hour", "value": "25"}]


def test_a_tick_is_kept_taken_back_and_makes_no_new_plan(day: AppTest, store_path: Path) -> None:
    before = rows(store_path, "checklist.csv")
    labelled(day, "checkbox", "New flat lids").check().run()

    assert rows(store_path, "checklist.csv")[len(before) :] == [
        {"ticked_on": "2027-08-16", "item": "lids"}
    ]
    assert labelled(day, "checkbox", "New flat lids").value
    labelled(day, "checkbox", "New flat lids").uncheck().run()
    assert rows(store_path, "checklist.csv") == before


def test_who_opens_the_page_anew_finds_the_ticks_that_were_made(
    day: AppTest, store_path: Path
) -> None:
    labelled(day, "checkbox", "New flat lids").check().run()
    assert rows(store_path, "checklist.csv")

    # the plan was made before the tick, and is still kept
    again = AppTest.from_file(str(files("dashboard") / "app.py"), default_timeout=60).run()
    look(again, "Alder Lane", DAY, PAGE)
    assert labelled(again, "checkbox", "New flat lids").value


def test_what_is_set_out_is_counted(day: AppTest) -> None:
    part(day, "Set out")

    assert "**14 x** 850 ml jar" in words(day)
    assert "**14 x** new lids for 850 ml jar" in words(day)
    assert "bottled lemon juice" in words(day)


def test_the_process_stands_with_its_source_and_altitude_band(day: AppTest) -> None:
    part(day, "Process")

    assert "1,001-3,000 ft" in words(day)
    assert "AIB 539" in words(day)
    assert "Headspace" in words(day)


def test_every_load_has_its_label(day: AppTest) -> None:
    part(day, "Labels")
    labels = [text.value for text in day.text]

    assert "crushed tomatoes\n850 ml jar, 16 Aug 2027\nboiling water; larder shelves\n" in labels[1]
    assert labels[1].endswith("2027-08-16 crushed tomatoes")
    assert len(labels) == len({label.splitlines()[-1] for label in labels})


def test_cautions_are_those_of_the_day_s_products(day: AppTest) -> None:
    assert "Botulism toxin has no reliable smell" in words(day)
    assert "Acid goes into every jar" in words(day)
    assert "Hot water, steam and jars burn" in words(day)
    assert "Vent the pressure canner" not in words(day)
    under = {c.value: i for i, c in enumerate(day.markdown)}
    acid = next(i for text, i in under.items() if text.startswith("- Acid goes into every jar"))
    heads = [text for text, i in under.items() if text.startswith("**") and i < acid]
    assert heads[-1] == "**Crushed tomatoes and tomatoes in water**"


def add_product(day: AppTest, product: str, method: str, pack: str, jar: str) -> None:
    labelled(unfold(day), "selectbox", "Tested product").set_value(product).run()
    labelled(day, "selectbox", "Canner").set_value(method).run()
    labelled(day, "radio", "Pack").set_value(pack).run()
    labelled(day, "selectbox", "Jar").set_value(jar).run()
    next(button for button in day.button if button.label == "Add").click().run()


def test_a_tested_product_is_added_and_timed(day: AppTest) -> None:
    """USDA AIB 539, peaches, hot pack: quarts 30 minutes at 1,001 to 3,000 ft."""
    add_product(day, "Peaches, halved or sliced", "boiling water", "hot", "850 ml jar")

    assert not day.exception
    assert "process 30 minutes in boiling water" in load_of(day, "Peaches, halved or sliced")


def test_what_is_refused_gets_no_time_but_the_way_that_remains(day: AppTest) -> None:
    loads = sum("process " in m.value for m in day.markdown)
    add_product(day, "Carrots, sliced or diced", "boiling water", "hot", "850 ml jar")

    assert "low in acid" in day.error[0].value
    assert "freeze" in day.error[0].value
    assert sum("process " in m.value for m in day.markdown) == loads
    assert not any("Carrots, sliced" in box.label for box in day.number_input)


def test_canning_is_offered_in_jars_that_a_canner_holds_not_in_bags(day: AppTest) -> None:
    offered = labelled(unfold(day), "selectbox", "Jar").options

    assert "850 ml jar" in offered
    assert not any("pack" in name or "bag" in name for name in offered)


def test_a_preserve_of_the_notes_is_added_by_its_load(day: AppTest) -> None:
    labelled(day, "selectbox", "One of your preserves").set_value("ketchup").run()

    assert number(day, "Ketchup").value == 9
    assert "9 jars of ketchup" in load_of(day, "ketchup")


def test_a_day_without_work_says_so(app: AppTest) -> None:
    look(app, "Alder Lane", date(2027, 3, 15), PAGE)

    assert "Nothing is to be put up today" in app.markdown[0].value
    assert not app.error


def test_a_load_that_is_done_is_written_down_with_its_size_and_code(
    day: AppTest, store_path: Path
) -> None:
    told = load_of(day, "crushed tomatoes")
    labelled(day, "button", "Done: write down batch 2").click().run()
    assert labelled(day, "number_input", "How many were filled").value == 7
    labelled(day, "button", "Save").click().run()

    assert not day.exception
    last = rows(store_path, "batches.csv")[-1]
    assert (last["batch"], last["filled"]) == ("2027-08-16 crushed tomatoes", "7")
    assert last["finished_at"][:11] == "2027-08-16T"
    assert last["finished_at"][11:16] in told
    assert "written down" in load_of(day, "crushed tomatoes")
    assert "1 written down" in day.markdown[1].value
    assert not any(b.label == "Done: write down batch 2" for b in day.button)


def tap(page: Page, name: str) -> None:
    target = page.get_by_test_id("stMain").get_by_role("button", name=name).first
    assert target.evaluate("e => e.getBoundingClientRect().height") >= (
        44 if page.viewport_size == NARROW else 0
    )
    press(page, name)


def look_from_the_day_after(page: Page) -> None:
    side(page, shown=True)
    parts = page.get_by_test_id("stSidebar").get_by_test_id("stDateInput").get_by_role("spinbutton")
    parts.and_(page.get_by_label(re.compile("^day"))).click()
    page.keyboard.type("17")
    page.keyboard.press("Escape")
    side(page, shown=False)
    expect(page.get_by_text("as of 17 Aug 2027")).to_be_visible()


@pytest.mark.browser
@pytest.mark.parametrize("screen", BOTH.values(), ids=BOTH)
def test_the_preserving_day_leads_to_the_sealed_count(
    browser: Browser, tmp_path: Path, screen: Screen
) -> None:
    with (
        served(tmp_path, seeded(tmp_path / "households.sqlite")) as address,
        walked(browser, f"{address}/log", screen) as page,
    ):
        main = page.get_by_test_id("stMain")
        look_from(page, "Glut", "16 Aug 2027")
        go(page, "Preserving day")
        expect(main.get_by_text("done at ").first).to_be_visible()
        fits(page)

        for fold in ("When, and what is made", "A tested product that is not in your notes"):
            main.get_by_text(fold).click()
            idle(page)
        product = main.get_by_role("textbox", name="Not in the list")
        product.fill("garlic in oil")
        product.press("Tab")
        expect(main.get_by_text("nothing in oil is a shelf product")).to_be_visible()
        fits(page)

        tap(page, "Done: write down batch 2")
        tap(page, "Save: 7 jars of crushed tomatoes")
        expect(main.get_by_text("Put up 7 jars of crushed tomatoes")).to_be_visible()
        fits(page)

        look_from_the_day_after(page)
        go(page, "Write down")
        main.get_by_role("radio", name=re.compile("^Sealed")).click()
        idle(page)
        batch = main.get_by_test_id("stSelectbox").locator("input").first
        expect(batch).to_have_value("2027-08-16 crushed tomatoes")
        main.get_by_role("radio", name="6", exact=True).click()
        expect(main.get_by_text("1 jar not sealed")).to_be_visible()
        main.get_by_role("radio", name="refrigerated").click()
        idle(page)
        tap(page, "Save: 6 jars sealed of 2027-08-16 crushed tomatoes, 1 refrigerated")
        expect(main.get_by_text("6 jars sealed of 2027-08-16 crushed tomatoes")).to_be_visible()
        fits(page)
