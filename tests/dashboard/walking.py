"""Walking through the dashboard in a browser: open, go, look from a day, read, fit the screen."""

import re
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from typing import Literal, NamedTuple
from urllib.parse import urlparse

from playwright.sync_api import Browser, Error, Page, ViewportSize, expect

from tests.dashboard.visiting import NARROW, idle, screen

expect.set_options(timeout=30_000)
WIDE: ViewportSize = {"width": 1280, "height": 800}
WET_HANDS = ("/log", "/preserving_day", "/larder")
PLAIN = "[data-testid='stMarkdownContainer']:has(> table), [data-testid='stTable']"
TABLES = f"canvas > [role='grid'], :is({PLAIN}) table"
TRIES, TRY_MS = 20, 2_000
PLACES = {
    "Spring: what to plant": "What to plant, and how many jars of what",
    "This week": "This week in the garden and the kitchen",
    "Preserving day": "Preserving day: what to do now, and when it is done",
    "Write down": "Write down",
    "Larder: eat first": "What stands in the larder, and what to eat first",
    "Winter: will it last": "Will it last until the new crop?",
    "Review": "What came of the year, and what to change",
}
ROWS = """
tables => tables.flatMap(table => [...table.querySelectorAll('[role="row"], tbody tr')])
  .map(row => [...row.querySelectorAll('[role="gridcell"], td')].map(
    cell => [...cell.querySelectorAll('.stMarkdownColoredText')].reduce(
      (words, heading) => words.replace(heading.textContent, ''), cell.textContent)
      .replaceAll('\\u00a0', ' ').trim()))
"""
CUT = """
tables => tables.filter(table => [table, ...table.querySelectorAll('div')]
  .some(part => part.scrollWidth > part.clientWidth + 1)).map(table => table.innerText)
"""
ENDS_IN_DOTS = """
words => words.filter(part => getComputedStyle(part).textOverflow === 'ellipsis'
  && part.scrollWidth > part.clientWidth + 1).map(part => part.textContent)
"""


class Screen(NamedTuple):
    """How large a screen is, and its colours."""

    size: ViewportSize
    scheme: Literal["light", "dark"]


BOTH = {"wide light": Screen(WIDE, "light"), "narrow dark": Screen(NARROW, "dark")}


@contextmanager
def walked(browser: Browser, address: str, seen: Screen) -> Iterator[Page]:
    """Open the dashboard; at the end nothing has failed, and nobody else was asked for anything."""
    page = screen(browser, seen.size, seen.scheme)
    hosts: set[str | None] = set()
    faults: list[str] = []
    page.on("request", lambda request: hosts.add(urlparse(request.url).hostname))
    page.on("websocket", lambda socket: hosts.add(urlparse(socket.url).hostname))
    page.on("pageerror", lambda error: faults.append(str(error)))
    try:
        page.goto(address)
        yield page
        assert faults == []
        assert hosts == {urlparse(address).hostname}
    finally:
        page.context.close()


def settle(page: Page, title: str) -> None:
    expect(page.get_by_role("heading", level=1, name=title)).to_be_visible(timeout=60_000)
    idle(page)


def side(page: Page, *, shown: bool) -> None:
    """Open or close the side bar, which covers a narrow page."""
    if page.viewport_size == NARROW:
        button = "stExpandSidebarButton" if shown else "stSidebarCollapseButton"
        page.get_by_test_id(button).first.click()


def go(page: Page, place: str) -> None:
    """Go to a place, by the side bar or, on a narrow page, by the links below its title."""
    if page.viewport_size == NARROW:
        link = page.locator(".st-key-ways").get_by_test_id("stPageLink")
        link.filter(has_text=place.split(":", maxsplit=1)[0]).get_by_role("link").click()
    else:
        page.get_by_test_id("stSidebarNavLink").filter(has_text=place).click()
    settle(page, PLACES[place])


def look_from(page: Page, words: str, day: str) -> None:
    """Look from one of the demo's days; what is being worked out for another day is left."""
    side(page, shown=True)
    page.get_by_role("button", name=re.compile(words)).first.click()
    side(page, shown=False)
    expect(page.get_by_text(f"as of {day}")).to_be_visible()
    idle(page)


def press(page: Page, name: str) -> None:
    """Press a button or follow a link of the page once it can be, and wait for what comes."""
    main = page.get_by_test_id("stMain")
    found = main.get_by_role("button", name=re.compile(name))
    button = found.or_(main.get_by_role("link", name=re.compile(name))).first
    expect(button).to_be_enabled()
    button.click()
    idle(page)


def choose(page: Page, name: str) -> None:
    page.get_by_test_id("stMain").get_by_role("radio", name=name, exact=True).first.click()
    idle(page)


def pick(page: Page, label: str, option: str) -> None:
    """Pick from a list; it is opened again where a page that still scrolls has closed it."""
    box = page.get_by_test_id("stMain").get_by_role("combobox", name=label)
    box.scroll_into_view_if_needed()
    for _ in range(TRIES):
        box.press("ArrowDown")
        with suppress(Error):
            page.get_by_role("option", name=option).click(timeout=TRY_MS)
            break
    expect(box).to_have_value(option)
    idle(page)


def type_into(page: Page, label: str, text: str) -> None:
    box = page.get_by_test_id("stMain").get_by_label(label, exact=True)
    box.click()
    box.fill(text)
    box.press("Tab")
    idle(page)


def row_of(page: Page, name: str) -> list[str]:
    """Read the first row of that name in the page's tables; empty where there is none."""
    rows: list[list[str]] = page.locator(TABLES).evaluate_all(ROWS)
    return next((row for row in rows if row and row[0] == name), [])


def fits(page: Page) -> None:
    """Check that the page is no wider than the screen.

    On a wide screen no table is cut either, nor on a phone where hands are wet.
    """
    idle(page)
    main = page.get_by_test_id("stMain")
    assert main.evaluate("main => main.scrollWidth <= main.clientWidth"), page.url
    assert main.get_by_test_id("stMarkdownContainer").evaluate_all(ENDS_IN_DOTS) == []
    if page.viewport_size == WIDE or page.url.endswith(WET_HANDS):
        assert page.locator(PLAIN).evaluate_all(CUT) == []
    if page.viewport_size == NARROW:
        return
    for place, scroller in enumerate(page.locator(".dvn-scroller").all()):
        wide, shown = scroller.evaluate("e => [e.scrollWidth, e.clientWidth]")
        assert wide <= shown, (page.url, place)
