"""Take the README's pictures anew: ``python -m tests.dashboard.take_pictures``."""

import tempfile
from pathlib import Path

from playwright.sync_api import Page, expect

from tests.dashboard.seeding import seeded
from tests.dashboard.serving import chromium, chromium_path, served

PICTURES = Path(__file__).parents[2] / "dashboard" / "pictures"
PLACES = {"": "spring", "this_week": "this_week", "winter": "winter"}
DAYS = {"spring": "Spring", "this_week": "Glut", "winter": "Midwinter"}


def settle(page: Page) -> None:
    """Wait until nothing is being worked out or drawn."""
    expect(page.get_by_role("heading", level=1)).to_be_visible(timeout=60_000)
    page.wait_for_timeout(1500)
    expect(page.get_by_test_id("stStatusWidget")).to_have_count(0, timeout=60_000)
    expect(page.get_by_test_id("stProgress")).to_have_count(0, timeout=60_000)
    page.wait_for_timeout(1500)


def main() -> None:
    """Take one picture of each place."""
    path = chromium_path()
    if path is None:
        raise SystemExit("no chromium on this machine")
    PICTURES.mkdir(exist_ok=True)
    with (
        tempfile.TemporaryDirectory() as folder,
        served(Path(folder), seeded(Path(folder) / "households.sqlite")) as address,
        chromium(path) as browser,
    ):
        page = browser.new_page(viewport={"width": 1280, "height": 800})
        for link, name in PLACES.items():
            page.goto(f"{address}/{link}")
            settle(page)
            page.get_by_role("button", name=DAYS[name]).first.click()
            settle(page)
            page.screenshot(path=PICTURES / f"{name}.png")
            print(f"{name}.png")


if __name__ == "__main__":
    main()
