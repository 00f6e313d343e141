"""Pages for every hand and screen: the keyboard, 200 % zoom, thumbs, a slow phone."""

from collections.abc import Iterator

import pytest
from playwright.sync_api import Browser, Page, ViewportSize, expect

from dashboard.place import PLACES
from tests.dashboard.visiting import LINKS, NARROW, PHONE, idle, parts, screen, visit
from tests.dashboard.walking import WIDE

pytestmark = pytest.mark.browser

THUMB_PX = 44  # WCAG 2.2, 2.5.5 Target Size (Enhanced)
ZOOMED: ViewportSize = {"width": 640, "height": 400}


TARGETS = """
() => [...document.querySelectorAll(
    '[data-testid="stMain"] :is(button, a[href], input, select, textarea, summary)')]
  .filter(e => e.checkVisibility({visibilityProperty: true, opacityProperty: true}))
  .filter(e => !e.closest('[aria-hidden="true"], [data-testid="stElementToolbar"]'))
  .map(e => e.closest('label, [data-testid="stDateInputField"]') ?? e)
  .map(e => [e.innerText || e.ariaLabel || e.tagName, e.getBoundingClientRect()])
  .map(([words, box]) => [words, box.width, box.height])
"""
FOCUSED = """
() => {
  const e = document.activeElement;
  const box = e.closest('label') ?? e;
  const words = e.getAttribute('aria-label') || box.innerText || '';
  return e === document.body ? null : words.trim();
}
"""


@pytest.fixture
def phone(browser: Browser) -> Iterator[Page]:
    page = screen(browser, NARROW, "dark")
    yield page
    page.context.close()


def test_the_tab_key_reaches_every_control_and_enter_saves_and_takes_back(
    browser: Browser, address: str
) -> None:
    page = screen(browser, WIDE)
    visit(page, f"{address}/log?day=2027-08-16")
    main = page.get_by_test_id("stMain")
    main.get_by_test_id("stButtonGroup").nth(1).get_by_role("radio").first.click()
    idle(page)
    main.get_by_role("radio", name="2", exact=True).click()
    idle(page)
    reached = []
    page.locator("body").press("Tab")
    for _ in range(120):
        reached.append(page.evaluate(FOCUSED))
        page.keyboard.press("Tab")
    main.get_by_role("button", name="Save: ").press("Enter")
    expect(main.get_by_text("Picked 2 kg of")).to_be_visible()
    idle(page)
    main.get_by_role("button", name="Undo").press("Enter")
    expect(main.get_by_text("Picked 2 kg of")).to_have_count(0)
    page.context.close()
    words = " | ".join(word for word in reached if word)

    for place, _ in PLACES.values():
        assert place in words
    for control in ("Household", "Picked", "Who writes", "Another crop or amount", "Save: "):
        assert control in words, control


@pytest.mark.parametrize("link", LINKS)
def test_at_twice_the_size_nothing_is_cut_or_scrolled_sideways(
    browser: Browser, address: str, link: str
) -> None:
    page = screen(browser, ZOOMED, dense=2)  # 1280 px wide at 200 %
    visit(page, f"{address}/{link}")
    wide = "() => [document.documentElement, document.querySelector('[data-testid=stMain]')]"
    for scrolled, shown in page.evaluate(f"({wide})().map(e => [e.scrollWidth, e.clientWidth])"):
        assert scrolled <= shown
    cut = page.get_by_test_id("stMain").evaluate(
        """main => [...main.querySelectorAll('p, h1, h2, h3, label, button')]
        .filter(e => e.checkVisibility() && getComputedStyle(e).overflowX !== 'visible')
        .filter(e => e.scrollWidth > e.clientWidth + 1).map(e => e.innerText)"""
    )
    page.context.close()

    assert cut == []


@pytest.mark.parametrize("link", ["log", "this_week", "preserving_day", "larder"])
def test_on_a_phone_every_target_is_as_large_as_a_thumb(
    phone: Page, address: str, link: str
) -> None:
    visit(phone, f"{address}/{link}")
    for part in parts(phone):
        found = phone.evaluate(TARGETS)
        small = [t for t in found if t[1] < THUMB_PX - 0.5 or t[2] < THUMB_PX - 0.5]

        assert len(found) > 5
        assert small == [], part
        assert phone.evaluate("document.documentElement.scrollWidth") <= 390
        assert phone.get_by_test_id("stMain").evaluate("e => e.scrollWidth") <= 390


def test_a_slow_phone_logs_a_picking_in_three_taps_without_hovering(
    browser: Browser, address: str
) -> None:
    context = browser.new_context(viewport=NARROW, user_agent=PHONE, has_touch=True, is_mobile=True)
    page = context.new_page()
    context.new_cdp_session(page).send("Emulation.setCPUThrottlingRate", {"rate": 4})
    visit(page, f"{address}/log?day=2027-08-16")
    main = page.get_by_test_id("stMain")
    taps = [
        main.get_by_test_id("stButtonGroup").nth(1).locator("button").first,
        main.get_by_text("2", exact=True),
        main.get_by_role("button", name="Save: "),
    ]
    for tap in taps:
        tap.tap()
        idle(page)

    expect(main.get_by_text("Picked 2 kg of")).to_be_visible()
    main.get_by_role("button", name="Undo").tap()
    expect(main.get_by_text("Picked 2 kg of")).to_have_count(0)
    context.close()
