"""Three more paths in a real browser: the first start, a count, a review; wide and on a phone."""

import re
import time
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, expect

from tests.dashboard.seeding import seeded
from tests.dashboard.serving import served
from tests.dashboard.visiting import idle
from tests.dashboard.walking import NARROW, PLACES, WIDE, Seen, fits, go, look_from, settle

pytestmark = pytest.mark.browser
BOTH = pytest.mark.parametrize(
    "screen", [(WIDE, "light"), (NARROW, "dark")], ids=["wide light", "narrow dark"]
)
Screen = tuple[dict[str, int], str]
LONGEST_START_S = 300


@pytest.fixture
def nobody(tmp_path: Path) -> Iterator[str]:
    """Serve a dashboard that keeps no household yet."""
    with served(tmp_path, tmp_path / "none.sqlite") as address:
        yield address


@pytest.fixture
def demos(tmp_path: Path) -> Iterator[str]:
    """Serve the invented households to be written to."""
    with served(tmp_path, seeded(tmp_path / "households.sqlite")) as address:
        yield address


def opened(browser: Browser, address: str, screen: Screen) -> tuple[Page, Seen]:
    size, scheme = screen
    page = browser.new_context(viewport=size, color_scheme=scheme).new_page()
    seen = Seen(page)
    page.goto(address)
    return page, seen


def press(page: Page, name: str) -> None:
    main = page.get_by_test_id("stMain")
    found = main.get_by_role("button", name=re.compile(name))
    button = found.or_(main.get_by_role("link", name=re.compile(name))).first
    expect(button).to_be_enabled()
    button.click()


def choose(page: Page, name: str) -> None:
    page.get_by_test_id("stMain").get_by_role("radio", name=name, exact=True).first.click()
    idle(page)


def type_into(page: Page, label: str, text: str) -> None:
    box = page.get_by_test_id("stMain").get_by_label(label, exact=True)
    box.fill(text)
    box.press("Tab")


@BOTH
def test_a_first_start_leads_to_a_plan_in_under_five_minutes(
    browser: Browser, nobody: str, screen: Screen
) -> None:
    began = time.monotonic()
    page, seen = opened(browser, nobody, screen)
    main = page.get_by_test_id("stMain")
    expect(main.get_by_role("button", name="Look round Alder Lane (invented)")).to_be_visible()
    fits(page)

    choose(page, "Begin our own")
    canner = main.get_by_role("combobox", name="Do you can in jars?")
    canner.press("ArrowDown")  # a list that is opened by the mouse closes where the page scrolls
    page.get_by_role("option", name="A boiling-water canner, or a deep pot").click()
    type_into(page, "Height above the sea", "640 m")
    fits(page)
    press(page, "Make the first plan")
    expect(main.get_by_text("Next: look at what to plant")).to_be_visible(timeout=60_000)
    fits(page)
    press(page, "Go to the plan")
    settle(page, PLACES["Spring: what to plant"])
    expect(main.get_by_text("Our garden").first).to_be_visible()
    expect(main.get_by_text(re.compile(r"\d+ jars")).first).to_be_visible()
    fits(page)

    assert time.monotonic() - began < LONGEST_START_S
    assert seen.faults == []
    page.context.close()


@BOTH
def test_a_count_changes_how_long_a_food_lasts(
    browser: Browser, demos: str, screen: Screen
) -> None:
    page, seen = opened(browser, demos, screen)
    main = page.get_by_test_id("stMain")
    settle(page, PLACES["Spring: what to plant"])
    look_from(page, "Midwinter", "10 Jan 2028")
    go(page, "Winter: will it last")
    expect(main.get_by_text("First to give out: peas")).to_be_visible()

    go(page, "Larder: eat first")
    choose(page, "Count")
    choose(page, "chest freezer")
    type_into(page, "Frozen peas (pack)", "60")
    expect(main.get_by_text(re.compile(r"Frozen peas: \+\d+ against the book"))).to_be_visible()
    fits(page)
    press(page, "^Save: 1 preserve in chest freezer")
    expect(main.get_by_text("Counted 1 preserve in chest freezer").first).to_be_visible()

    go(page, "Winter: will it last")
    expect(main.get_by_text("Shelf counted 10 Jan 2028")).to_be_visible()
    expect(main.get_by_text("First to give out: peas")).to_have_count(0)
    fits(page)

    assert seen.faults == []
    page.context.close()


@BOTH
def test_a_review_leads_to_next_year_s_draft(browser: Browser, demos: str, screen: Screen) -> None:
    page, seen = opened(browser, demos, screen)
    main = page.get_by_test_id("stMain")
    settle(page, PLACES["Spring: what to plant"])
    look_from(page, "Midwinter", "10 Jan 2028")
    go(page, "Review")
    choose(page, "Verdicts")
    ketchup = main.get_by_role("radiogroup", name="Ketchup")
    ketchup.get_by_role("radio", name="too much").click()
    fits(page)
    press(page, "^Save 1 verdict on 2027")
    expect(main.get_by_text("1 verdict on 2027").first).to_be_visible()

    choose(page, "Next year")
    fits(page)
    press(page, "^Save: Season 2028 begun")
    expect(main.get_by_text(re.compile("Season 2028 begun, .* moved into it"))).to_be_visible()
    press(page, "^Next: what to plant")
    settle(page, "What the season leaves short")
    fits(page)
    press(page, "Plan season 2028, from 1 Mar 2028")
    settle(page, PLACES["Spring: what to plant"])
    expect(main.get_by_text("looked at from 1 Mar 2028")).to_be_visible()
    fits(page)

    assert seen.faults == []
    page.context.close()
