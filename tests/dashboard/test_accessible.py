"""Pages for every eye: axe's rules, in both colour schemes and at both widths."""

from collections.abc import Mapping
from itertools import islice
from pathlib import Path
from typing import Any

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser, Locator, Page

from tests.dashboard.serving import served
from tests.dashboard.visiting import LINKS, NARROW, parts, screen, visit
from tests.dashboard.walking import WIDE

pytestmark = pytest.mark.browser

MAIN = '[data-testid="stMain"]'  # what a part changes
GRAVE = {"serious", "critical"}
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


def is_streamlits(page: Page, rule: str, node: Mapping[str, Any]) -> bool:
    found: Locator = page.locator(node["target"][0]).first
    return any(
        rule == known and bool(found.evaluate("(e, s) => !!e.closest(s)", selector))
        for known, selector in STREAMLITS_OWN
    )


def grave_faults(page: Page, within: str = "body") -> list[str]:
    """List what breaks one of axe's rules seriously, Streamlit's own left out."""
    page.mouse.move(0, 0)
    answer = Axe().run(page, within, {"resultTypes": ["violations"]}).response
    return [
        f"{broken['id']}: {node['html'][:160]}: {node['failureSummary'][:200]}"
        for broken in answer["violations"]
        if broken["impact"] in GRAVE
        for node in broken["nodes"]
        if not is_streamlits(page, broken["id"], node)
    ]


def test_no_part_of_any_page_has_a_grave_fault(browser: Browser, address: str) -> None:
    page = screen(browser, WIDE)
    faults: list[object] = []
    for link in LINKS:
        visit(page, f"{address}/{link}")
        faults += grave_faults(page)
        further = islice(parts(page), 1, None)
        faults += [(link, part, fault) for part in further for fault in grave_faults(page, MAIN)]
    page.context.close()

    assert faults == []


def test_no_page_has_a_grave_fault_on_a_phone_in_the_dark(browser: Browser, address: str) -> None:
    page = screen(browser, NARROW, "dark")
    faults = []
    for link in LINKS:
        visit(page, f"{address}/{link}")
        faults += [(link, fault) for fault in grave_faults(page)]
    page.context.close()

    assert faults == []


def test_the_beginning_and_its_questions_have_no_grave_fault(
    browser: Browser, tmp_path: Path
) -> None:
    faults: list[object] = []
    with served(tmp_path, tmp_path / "none.sqlite") as address:
        page = screen(browser, WIDE)
        visit(page, address)
        faults += grave_faults(page)
        page.context.close()
        page = screen(browser, NARROW, "dark")
        visit(page, address)
        faults += [(part, fault) for part in parts(page) for fault in grave_faults(page)]
        page.context.close()

    assert faults == []


PLANTED = {
    "image-alt": "<img src='data:,'>",
    "button-name": "<button></button>",
    "label": "<input type='text'>",
    "color-contrast": "<span style='color: #777; background: #888'>faint</span>",
}


def test_planted_faults_of_ours_are_found(browser: Browser, address: str) -> None:
    page = screen(browser, NARROW, "dark")
    visit(page, f"{address}/log")
    assert grave_faults(page) == []
    heading = page.get_by_role("heading", level=1)
    heading.evaluate("(e, html) => e.innerHTML += html", "".join(PLANTED.values()))

    assert sorted(fault.partition(":")[0] for fault in grave_faults(page)) == sorted(PLANTED)
    page.context.close()
