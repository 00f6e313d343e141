"""Pages for every eye, hand and screen: axe's rules, the keyboard, 200 % zoom, thumbs."""

from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser, Locator, Page, ViewportSize, expect

from dashboard.place import HOUSEHOLD, PLACES
from tests.dashboard.serving import served
from tests.dashboard.test_main_path import NARROW, WIDE

pytestmark = pytest.mark.browser

FILES = [*PLACES, HOUSEHOLD]
LINKS = ["" if file == FILES[0] else Path(file).stem for file in FILES]
PARTS = 'div[class*="_what"] button, div[class*="_more"] button, div[class*="begin_how"] button'
# They plan many times over, and show tables and forms that other parts show too.
LONG_ANSWERS = {"One more", "A bad year", "Ways to choose", "To make it reach"}
GRAVE = {"serious", "critical"}
THUMB_PX = 44  # WCAG 2.2, 2.5.5 Target Size (Enhanced)
ZOOMED: ViewportSize = {"width": 640, "height": 400}

# What Streamlit's own widgets break: the rule, where, and why it cannot be ours to mend.
STREAMLITS_OWN = [
    # The upload's hidden input stands in a section that Streamlit makes a button of.
    ("nested-interactive", '[data-testid="stFileUploaderDropzone"]'),
    # A table is drawn on a canvas; the rows that stand for it to a reader have their headings
    # in a row of another kind while the table is in view.
    ("aria-required-children", '[data-testid="stDataFrame"] table'),
    ("aria-required-parent", '[data-testid="stDataFrame"] table'),
    ("empty-table-header", '[data-testid="stDataFrame"] table'),
]

TARGETS = """
() => [...document.querySelectorAll(
    '[data-testid="stMain"] :is(button, a[href], input, select, textarea, summary)')]
  .filter(e => e.checkVisibility({visibilityProperty: true, opacityProperty: true}))
  .filter(e => !e.closest('[aria-hidden="true"], [data-testid="stElementToolbar"]'))
  .map(e => e.closest('label, [data-testid="stDateInputField"]') ?? e)
  .map(e => [e.innerText || e.ariaLabel || e.tagName, e.getBoundingClientRect()])
  .map(([words, box]) => [words, box.width, box.height])
"""
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
    if (performance.now() - last > 400) { clearInterval(look); done(); }
  }, 50);
})
"""
FOCUSED = """
() => {
  const e = document.activeElement;
  const box = e.closest('label') ?? e;
  const words = e.getAttribute('aria-label') || box.innerText || '';
  return e === document.body ? null : words.trim();
}
"""


def screen(browser: Browser, size: ViewportSize, scheme: Any = "light", dense: float = 1) -> Page:
    return browser.new_context(
        viewport=size, color_scheme=scheme, device_scale_factor=dense
    ).new_page()


@pytest.fixture
def phone(browser: Browser) -> Iterator[Page]:
    page = screen(browser, NARROW, "dark")
    yield page
    page.context.close()


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


def is_streamlits(page: Page, rule: str, node: Mapping[str, Any]) -> bool:
    found: Locator = page.locator(node["target"][0]).first
    return any(
        rule == known and bool(found.evaluate("(e, s) => !!e.closest(s)", selector))
        for known, selector in STREAMLITS_OWN
    )


def grave_faults(page: Page) -> list[str]:
    """List what breaks one of axe's rules seriously, Streamlit's own left out."""
    page.mouse.move(0, 0)
    answer = Axe().run(page, options={"resultTypes": ["violations"]}).response
    return [
        f"{broken['id']}: {node['html'][:160]}: {node['failureSummary'][:200]}"
        for broken in answer["violations"]
        if broken["impact"] in GRAVE
        for node in broken["nodes"]
        if not is_streamlits(page, broken["id"], node)
    ]


def test_no_part_of_any_page_has_a_grave_fault(browser: Browser, address: str) -> None:
    page = screen(browser, WIDE)
    faults = []
    for link in LINKS:
        visit(page, f"{address}/{link}")
        faults += [(link, part, fault) for part in parts(page) for fault in grave_faults(page)]
    page.context.close()

    assert faults == []


@pytest.mark.parametrize(
    ("size", "scheme"),
    [(WIDE, "dark"), (NARROW, "light"), (NARROW, "dark")],
    ids=["wide dark", "narrow light", "narrow dark"],
)
def test_no_page_has_a_grave_fault_at_other_widths_and_in_other_colours(
    browser: Browser, address: str, size: ViewportSize, scheme: str
) -> None:
    page = screen(browser, size, scheme)
    faults = []
    for link in LINKS:
        visit(page, f"{address}/{link}")
        faults += [(link, fault) for fault in grave_faults(page)]
    page.context.close()

    assert faults == []


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_the_beginning_and_its_questions_have_no_grave_fault(
    browser: Browser, tmp_path: Path, scheme: str
) -> None:
    page = screen(browser, NARROW if scheme == "dark" else WIDE, scheme)
    with served(tmp_path, tmp_path / "none.sqlite") as address:
        visit(page, address)
        faults = [(part, fault) for part in parts(page) for fault in grave_faults(page)]
        page.context.close()

    assert faults == []


@pytest.mark.parametrize(
    ("planted", "rule"),
    [
        ("<img src='data:,'>", "image-alt"),
        ("<button></button>", "button-name"),
        ("<input type='text'>", "label"),
        ("<span style='color: #777; background: #888'>faint</span>", "color-contrast"),
    ],
)
def test_a_planted_fault_of_ours_is_found(phone: Page, address: str, planted: str, rule: str):
    visit(phone, f"{address}/log")
    assert grave_faults(phone) == []
    phone.get_by_role("heading", level=1).evaluate("(e, html) => e.innerHTML += html", planted)

    assert [fault.partition(":")[0] for fault in grave_faults(phone)] == [rule]


def test_the_tab_key_reaches_every_control(browser: Browser, address: str) -> None:
    page = screen(browser, WIDE)
    visit(page, f"{address}/log")
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
    page.context.close()
    words = " | ".join(word for word in reached if word)

    for place, _ in PLACES.values():
        assert place in words
    for control in ("Household", "Picked", "Who writes", "Another crop, day or amount", "Save: "):
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
    context = browser.new_context(viewport=NARROW, has_touch=True, is_mobile=True)
    page = context.new_page()
    context.new_cdp_session(page).send("Emulation.setCPUThrottlingRate", {"rate": 4})
    visit(page, f"{address}/log")
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
