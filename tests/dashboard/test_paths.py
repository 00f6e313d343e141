"""Three more paths in a real browser: the first start, a count, a review; wide and on a phone."""

import re
import time
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, expect

from model import Store
from tests.dashboard.seeding import FIRST, seeded
from tests.dashboard.serving import served
from tests.dashboard.visiting import idle
from tests.dashboard.walking import (
    BOTH,
    PLACES,
    Screen,
    choose,
    fits,
    go,
    look_from,
    pick,
    press,
    row_of,
    settle,
    type_into,
    walked,
)

pytestmark = pytest.mark.browser
ON_BOTH = pytest.mark.parametrize("screen", BOTH.values(), ids=BOTH)
LONGEST_START_S, MOST_CLICKS = 300, 7
COUNT_CLICKS = "window.clicks = 0; addEventListener('pointerdown', () => window.clicks++, true)"


@pytest.fixture
def nobody(tmp_path: Path) -> Iterator[str]:
    """Serve a dashboard that keeps no household yet."""
    with served(tmp_path, tmp_path / "households.sqlite") as address:
        yield address


@pytest.fixture
def demos(tmp_path: Path) -> Iterator[str]:
    """Serve the invented households to be written to."""
    with served(tmp_path, seeded(tmp_path / "households.sqlite")) as address:
        yield address


def save(page: Page, name: str) -> None:
    """Press a button that writes: what is told can be read at once, wherever the page stands."""
    page.get_by_test_id("stMain").get_by_role("button", name=re.compile(name)).click()
    expect(page.get_by_text("Written. Undo stands at the top.").last).to_be_in_viewport()
    idle(page)


@ON_BOTH
def test_a_first_start_leads_to_a_plan_in_under_five_minutes(
    browser: Browser, nobody: str, tmp_path: Path, screen: Screen
) -> None:
    began = time.monotonic()
    with walked(browser, nobody, screen) as page:
        main = page.get_by_test_id("stMain")
        expect(main.get_by_role("button", name="Look round Alder Lane (invented)")).to_be_visible()
        page.evaluate(COUNT_CLICKS)
        fits(page)

        choose(page, "Begin our own")
        type_into(page, "Adults", "3")
        pick(page, "Do you can in jars?", "A boiling-water canner, or a deep pot")
        type_into(page, "Height above the sea, with m", "640 m")
        fits(page)
        press(page, "Make the first plan")
        expect(main.get_by_text("Next: look at what to plant")).to_be_visible(timeout=60_000)
        fits(page)
        press(page, "Go to the plan")
        settle(page, PLACES["Spring: what to plant"])
        expect(main.get_by_text("Our garden").first).to_be_visible()
        expect(main.get_by_text(re.compile(r"[1-9]\d* jars")).first).to_be_visible()
        fits(page)

        assert page.evaluate("window.clicks") <= MOST_CLICKS
        assert time.monotonic() - began < LONGEST_START_S
    store = Store(tmp_path / "households.sqlite", FIRST)
    (ours,) = store.households()
    assert len(store.rows(ours.household_id, "eaters.csv")) == 3


@ON_BOTH
def test_an_invented_household_is_one_click_away_and_says_that_it_is_invented(
    browser: Browser, nobody: str, screen: Screen
) -> None:
    with walked(browser, nobody, screen) as page:
        page.get_by_role("button", name="Look round Alder Lane (invented)").click()
        title = page.get_by_role("heading", level=1, name=PLACES["Spring: what to plant"])
        expect(title).to_be_visible()
        expect(page.get_by_text("Alder Lane, an invented household")).to_be_visible()


@ON_BOTH
def test_a_count_changes_how_long_a_food_lasts(
    browser: Browser, demos: str, screen: Screen
) -> None:
    with walked(browser, f"{demos}/log", screen) as page:
        main = page.get_by_test_id("stMain")
        look_from(page, "Midwinter", "10 Jan 2028")
        go(page, "Winter: will it last")
        expect(main.get_by_text("Shelf counted 8 Jan 2028")).to_be_visible()
        expect(main.get_by_text("First to give out: peas, about 6 Mar 2028")).to_be_visible()

        go(page, "Larder: eat first")
        choose(page, "Count")
        choose(page, "chest freezer")
        type_into(page, "Frozen peas (pack)", "60")
        expect(main.get_by_label("Frozen peas (pack)", exact=True)).to_have_value("60")
        expect(main.get_by_text("Frozen peas: +58 against the book")).to_be_visible()
        fits(page)
        save(page, "^Save: 1 preserve in chest freezer")
        expect(main.get_by_text("Counted 1 preserve in chest freezer")).to_be_visible()

        go(page, "Winter: will it last")
        expect(
            main.get_by_text(re.compile(r"Shelf partly counted \(1 of \d+\) on 10 Jan"))
        ).to_be_visible()
        expect(main.get_by_text("Enough until the new crop: peas")).to_be_visible()
        expect(main.get_by_text("First to give out: peas")).to_have_count(0)
        fits(page)


@ON_BOTH
def test_what_the_field_shows_when_save_is_tapped_is_what_is_written(
    browser: Browser, demos: str, screen: Screen
) -> None:
    with walked(browser, f"{demos}/log", screen) as page:
        main = page.get_by_test_id("stMain")
        look_from(page, "Glut", "16 Aug 2027")
        choose(page, "Put up")
        choose(page, "crushed tomatoes")
        # typed over what is offered, and Save tapped at once: the tap is what ends the typing
        for number in ("5", "9"):
            main.get_by_role("spinbutton", name="hour, Last process").click()
            page.keyboard.type("1000")
            idle(page)
            main.get_by_label("How many were filled (jar)").fill(number)
            save(page, "^Save: ")
            told = re.compile(rf"^Put up {number} jars of crushed tomatoes")
            expect(main.get_by_text(told)).to_be_visible()
            choose(page, "crushed tomatoes")


@ON_BOTH
def test_a_review_leads_to_next_year_s_draft(browser: Browser, demos: str, screen: Screen) -> None:
    with walked(browser, f"{demos}/log", screen) as page:
        main = page.get_by_test_id("stMain")
        look_from(page, "Midwinter", "10 Jan 2028")
        go(page, "Review")
        expect(
            main.get_by_text("potatoes in the cellar 57 kg (38 kg aimed at in 2027)")
        ).to_be_visible()
        choose(page, "Verdicts")
        potatoes = main.get_by_role("radiogroup", name="Potatoes in the cellar")
        potatoes.get_by_role("radio", name="not again").click()
        fits(page)
        save(page, "^Save 1 verdict on 2027")
        expect(
            main.get_by_text("potatoes in the cellar 0 kg (38 kg aimed at in 2027)")
        ).to_be_visible()

        choose(page, "Next year")
        assert row_of(page, "potatoes in the cellar")[1:3] == ["0 kg", "38 kg"]
        fits(page)
        main.get_by_text("Aim at the numbers of this draft").click()
        idle(page)
        press(page, "^Begin season 2028")
        expect(main.get_by_text(re.compile("Season 2028 begun, .* moved into it"))).to_be_visible()
        expect(main.get_by_text("The next garden year is in the notes already")).to_be_visible()

        press(page, "^Next: what to plant")
        settle(page, "What the season leaves short")
        fits(page)
        press(page, "Plan season 2028, from 1 Mar 2028")
        settle(page, PLACES["Spring: what to plant"])
        expect(main.get_by_text("as of 1 Mar 2028")).to_be_visible()
        main.get_by_text(re.compile(r"^All \d+$")).last.click()
        idle(page)
        assert row_of(page, "crushed tomatoes") != []
        assert row_of(page, "potatoes in the cellar")[1] == "none"
        fits(page)


def stop(page: Page) -> None:
    page.get_by_test_id("stMain").get_by_role("button", name="Stop").click()
    idle(page)


def test_a_plan_is_stopped_and_made_when_wanted(browser: Browser, demos: str) -> None:
    with walked(browser, demos, BOTH["wide light"]) as page:
        stop(page)
        expect(page.get_by_text("Stopped. Nothing was changed")).to_be_visible()
        press(page, "Work it out now")
        expect(page.get_by_text("Next: ").first).to_be_visible()


def test_a_first_plan_that_is_stopped_begins_no_household(
    browser: Browser, nobody: str, tmp_path: Path
) -> None:
    with walked(browser, nobody, BOTH["narrow dark"]) as page:
        choose(page, "Begin our own")
        type_into(page, "Adults", "3")
        page.get_by_role("button", name="Make the first plan").click()
        stop(page)
        assert Store(tmp_path / "households.sqlite", FIRST).households() == ()
        expect(page.get_by_label("Adults", exact=True)).to_have_value("3")
        press(page, "Make the first plan")
        expect(page.get_by_text("Next: look at what to plant")).to_be_visible()
