"""Walking through the dashboard in a browser: settle, go, look from a day, and fit the screen."""

import re
from urllib.parse import urlparse

from playwright.sync_api import Page, expect

expect.set_options(timeout=30_000)
WIDE, NARROW = {"width": 1280, "height": 800}, {"width": 390, "height": 844}
PLACES = {
    "Spring: what to plant": "What to plant, and how many jars of what",
    "This week": "This week in the garden and the kitchen",
    "Preserving day": "Preserving day: what to do now, and when it is done",
    "Write down": "Write down",
    "Larder: eat first": "What stands in the larder, and what to eat first",
    "Winter: will it last": "Will it last until the new crop?",
    "Review": "What came of the year, and what to change",
}


class Seen:
    """What a page asked for and complained of while it was used."""

    def __init__(self, page: Page) -> None:
        self.hosts: set[str] = set()
        self.faults: list[str] = []
        page.on("request", lambda request: self.hosts.add(urlparse(request.url).hostname or ""))
        page.on("pageerror", lambda error: self.faults.append(str(error)))


def settle(page: Page, title: str) -> None:
    expect(page.get_by_role("heading", level=1, name=title)).to_be_visible(timeout=60_000)
    expect(page.get_by_test_id("stStatusWidget")).to_have_count(0, timeout=60_000)
    expect(page.get_by_test_id("stProgress")).to_have_count(0, timeout=60_000)


def side(page: Page, *, shown: bool) -> None:
    """Open or close the side bar, which covers a narrow page."""
    if page.viewport_size == WIDE:
        return
    button = "stExpandSidebarButton" if shown else "stSidebarCollapseButton"
    target = page.get_by_test_id(button).first
    inner = target.locator("button")
    (inner if inner.count() else target).click()
    page.wait_for_timeout(500)  # the bar slides


def go(page: Page, place: str) -> None:
    side(page, shown=True)
    page.get_by_test_id("stSidebarNavLink").filter(has_text=place).click()
    if page.viewport_size == NARROW:
        page.wait_for_timeout(500)
        close = page.get_by_test_id("stSidebarCollapseButton").locator("button")
        if close.is_visible():
            close.click()
    settle(page, PLACES[place])


def look_from(page: Page, words: str, day: str) -> None:
    side(page, shown=True)
    page.get_by_role("button", name=re.compile(words)).first.click()
    side(page, shown=False)
    expect(page.get_by_text(f"looked at from {day}")).to_be_visible()
    expect(page.get_by_test_id("stProgress")).to_have_count(0, timeout=60_000)


def fits(page: Page) -> None:
    """Check that the page is no wider than the screen, and on a wide one no table is cut."""
    main = page.get_by_test_id("stMain")
    assert main.evaluate("main => main.scrollWidth <= main.clientWidth"), page.url
    if page.viewport_size == NARROW:
        return
    page.wait_for_timeout(500)  # the columns take their widths
    for place, scroller in enumerate(page.locator(".dvn-scroller").all()):
        wide, shown = scroller.evaluate("e => [e.scrollWidth, e.clientWidth]")
        assert wide <= shown, (page.url, place)
