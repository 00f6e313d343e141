"""Visiting the pages with eyes of one's own: a screen, a page at rest, its parts in turn."""

from collections.abc import Iterator
from pathlib import Path
from typing import Any

from playwright.sync_api import Browser, Page, ViewportSize, expect

from dashboard.place import HOUSEHOLD, PLACES

FILES = [*PLACES, HOUSEHOLD]
LINKS = ["" if file == FILES[0] else Path(file).stem for file in FILES]
PARTS = 'div[class*="_what"] button, div[class*="_more"] button, div[class*="begin_how"] button'
# They plan many times over, and show tables and forms that other parts show too.
LONG_ANSWERS = {"What one more brings", "Against a bad year", "Ways to plan", "To make it last"}
STILL = """
() => new Promise(done => {
  const app = document.querySelector('[data-testid="stApp"]');
  const rests = () => app.dataset.testScriptState === 'notRunning'
    && !document.querySelector('[data-stale="true"], [data-testid="stSkeleton"]');
  let last = performance.now();
  new MutationObserver(() => { last = performance.now(); })
    .observe(document.body, {subtree: true, childList: true, attributes: true});
  const look = setInterval(() => {
    if (!rests()) last = performance.now();
    if (performance.now() - last > 150) { clearInterval(look); done(); }
  }, 50);
})
"""


NARROW: ViewportSize = {"width": 390, "height": 844}
# How the browsers of phones call themselves since they no longer tell their make.
PHONE = (
    "Mozilla/5.0 (Linux; Android 10; K) AppleWebKit/537.36 (KHTML, like Gecko) "
    "Chrome/131.0.0.0 Mobile Safari/537.36"
)


def screen(browser: Browser, size: ViewportSize, scheme: Any = "light", dense: float = 1) -> Page:
    return browser.new_context(
        viewport=size,
        color_scheme=scheme,
        device_scale_factor=dense,
        user_agent=PHONE if size == NARROW else None,
    ).new_page()


def idle(page: Page) -> None:
    """Wait until the server has ended its run and the page has been still for a while."""
    page.evaluate(STILL)


def visit(page: Page, address: str) -> None:
    page.goto(address)
    expect(page.get_by_role("heading", level=1)).to_be_visible(timeout=60_000)
    idle(page)


def parts(page: Page) -> Iterator[str]:
    """Open one part of a page after the other, where it has any."""
    buttons = page.get_by_test_id("stMain").locator(PARTS)
    yield "as it opens"
    for place in range(1, buttons.count()):
        name = buttons.nth(place).inner_text()
        if name in LONG_ANSWERS:
            continue
        buttons.nth(place).click()
        idle(page)
        yield name
