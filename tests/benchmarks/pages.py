"""How fast pages and numbers change in a browser, against an empty page of the same library.

``python -m tests.benchmarks.pages`` (needs Chromium). The two are asked in turn, so that
whatever else the machine does slows both. The clock runs from the click to the last change of
the page; a page is at rest when its script has ended and nothing changed for a while.
"""

import statistics
import tempfile
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, replace
from pathlib import Path

from playwright.sync_api import Browser, Page

import model
from tests.benchmarks.measuring import SPRING, best_of, demo, say
from tests.dashboard.seeding import seeded
from tests.dashboard.serving import answering, chromium, chromium_path, served

TIMES, MOST = 20, 2.0
SETTLE_MS = 60_000
PLACES = ("", "this_week", "preserving_day", "log", "larder", "winter", "review")
EMPTY = """
import streamlit as st

def one() -> None:
    st.title("one")
    st.write(st.number_input("Number", key="number"))

def two() -> None:
    st.title("two")

st.navigation([st.Page(one), st.Page(two)]).run()
"""
START = """
() => {
  const root = document.querySelector('[data-testid="stApp"]');
  const clock = window.clock = {began: null, first: null, last: null, ran: false};
  const begin = () => { clock.began ??= performance.now(); };
  for (const kind of ['click', 'keydown']) addEventListener(kind, begin, {capture: true});
  // A short run may be over before the page says that it runs: its new words tell it too.
  const words = change => change.type !== 'attributes'
    && change.target.parentElement?.closest('[data-testid="stMain"]');
  new MutationObserver(changes => {
    if (clock.began === null) return;
    clock.last = performance.now();
    clock.first ??= clock.last;
    clock.ran ||= root.getAttribute('data-test-script-state') === 'running'
      || changes.some(words);
  }).observe(root, {subtree: true, childList: true, attributes: true, characterData: true});
}
"""
AT_REST = """
() => {
  const root = document.querySelector('[data-testid="stApp"]');
  const clock = window.clock;
  return clock.ran && root.getAttribute('data-test-script-state') === 'notRunning'
    && performance.now() - clock.last > 250;
}
"""


@dataclass(frozen=True)
class Taken:
    """Milliseconds from the click to the first and to the last change of the page."""

    first: float
    last: float


def timed(page: Page, act: Callable[[], None]) -> Taken:
    """Do one thing on a page at rest and wait until it is at rest again."""
    page.evaluate(START)
    act()
    page.wait_for_function(AT_REST, timeout=SETTLE_MS)
    clock = page.evaluate("() => window.clock")
    return Taken(clock["first"] - clock["began"], clock["last"] - clock["began"])


def opened(page: Page, link: str) -> Taken:
    """Go to a place by its link."""
    return timed(page, page.locator(f'[data-testid="stSidebarNav"] a[href$="/{link}"]').click)


def typed(page: Page, label: str, number: float) -> Taken:
    """Type a number and let it take effect."""
    box = page.get_by_label(label).first
    box.fill(f"{number:g}")
    return timed(page, lambda: box.press("Enter"))


def middle(taken: list[Taken]) -> float:
    """Give the median of the last changes, in ms."""
    return statistics.median(one.last for one in taken)


@contextmanager
def pages() -> Iterator[tuple[Page, Page]]:
    """Give an empty page and the dashboard, both open in one browser."""
    path = chromium_path()
    if path is None:
        raise SystemExit("no chromium on this machine")
    with tempfile.TemporaryDirectory() as place:
        folder = Path(place)
        (folder / "empty.py").write_text(EMPTY)
        empty = ["streamlit", "run", "empty.py", "--server.headless=true", "--server.port"]
        with (
            answering(empty, folder, {}) as bare,
            served(folder, seeded(folder / "households.sqlite")) as ours,
            chromium(path) as browser,
        ):
            yield at_rest(browser, bare), at_rest(browser, ours)


def at_rest(browser: Browser, address: str) -> Page:
    """Open a page of its own and wait until it stands."""
    page = browser.new_page()
    page.goto(address)
    page.get_by_role("heading", level=1).wait_for(timeout=SETTLE_MS)
    page.wait_for_selector('[data-test-script-state="notRunning"]', timeout=SETTLE_MS)
    return page


def change_of_page(bare: Page, ours: Page) -> float:
    """Measure every place, once its plan and answers are known; gives an empty page's, in ms."""
    for link in PLACES:
        opened(ours, link)
    empty: list[Taken] = []
    found: dict[str, list[Taken]] = {link: [] for link in PLACES}
    for _ in range(TIMES):
        for link in (*PLACES[1:], PLACES[0]):
            found[link].append(opened(ours, link))
        empty += [opened(bare, "two"), opened(bare, "")]
    reference = middle(empty)
    print(f"an empty page: {reference:.0f} ms")
    for link, taken in found.items():
        ratio = middle(taken) / reference
        told = f"{middle(taken):.0f} ms, {ratio:.2f}x"
        say(f"going to {link or 'spring'}", told, f"<= {MOST:g}x", reached=ratio <= MOST)
    return reference


def change_of_number(bare: Page, ours: Page) -> None:
    """Measure one number on the page of the glut, which plans nothing anew."""
    opened(ours, "this_week")
    ours.get_by_role("button", name="Glut").first.click()
    ours.wait_for_timeout(500)
    ours.wait_for_function("() => !document.querySelector('[data-testid=stProgress]')")
    ours.get_by_text("A glut on the table", exact=True).first.click()
    ours.get_by_label("Free hours for it").first.wait_for(timeout=SETTLE_MS)
    numbers = [1 + n / 2 for n in range(TIMES)]
    empty = middle([typed(bare, "Number", number) for number in numbers])
    taken = middle([typed(ours, "Free hours for it", number) for number in numbers])
    told = f"{taken:.0f} ms, {taken / empty:.2f}x"
    say("free hours on this week's page", told, f"<= {MOST:g}x", reached=taken <= MOST * empty)


def new_plan(ours: Page, empty: float) -> None:
    """Measure a choice that asks for a new plan against the planner alone and an empty page."""
    opened(ours, "")
    ours.get_by_role("button", name="Spring").first.click()
    ours.get_by_text("as of 15 Mar").wait_for(timeout=SETTLE_MS)
    ours.wait_for_function(AT_REST, timeout=SETTLE_MS)
    season = demo()
    others = [way for way in model.PLAN_FOR if way != season.plan_for]
    for way in others:
        own = replace(season, plan_for=way)
        alone = 1000 * best_of(2, lambda own=own: model.plan_season(own, SPRING)).seconds
        taken = timed(ours, ours.get_by_text(way, exact=True).first.click)
        say(
            f"first sign of a plan for {way}",
            f"{taken.first:.0f} ms",
            f"<= {empty:.0f} ms, an empty page",
            reached=taken.first <= empty,
        )
        say(
            f"a plan for {way}",
            f"{taken.last:.0f} ms",
            f"<= {alone:.0f} + {MOST * empty:.0f} ms",
            reached=taken.last <= alone + MOST * empty,
        )


def main() -> None:
    """Print how long each change takes."""
    with pages() as (bare, ours):
        empty = change_of_page(bare, ours)
        change_of_number(bare, ours)
        new_plan(ours, empty)


if __name__ == "__main__":
    main()
