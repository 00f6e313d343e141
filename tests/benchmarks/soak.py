"""Many people at once for a while: no error, no lost entry, and memory that stays flat.

``python -m tests.benchmarks.soak [--users 30] [--minutes 10]`` (needs Chromium and Linux).
Each user is a page of its own that walks from place to place and writes pickings down, with a
pause between; every picking changes the plan of all who look at the same household.
"""

import argparse
import asyncio
import re
import tempfile
import time
from pathlib import Path
from urllib.parse import urlparse

import numpy as np
from playwright.async_api import Error, Locator, Page, async_playwright

from model.store.store import Store
from tests.benchmarks.measuring import say
from tests.dashboard.seeding import FIRST, seeded
from tests.dashboard.serving import CHROMIUM_FLAGS, chromium_path, served

PLACES = ("", "this_week", "preserving_day", "log", "larder", "winter", "review")
PAUSE_S = 10.0
WAIT_MS = 180_000
PICKS = 0.1
# A person looks for so long before the next click, by when a run has begun.
SEEN_S = 1.0
AT_REST = '[data-testid="stApp"][data-test-script-state="notRunning"]'
MOST_GROWTH = 1.1
ALDER_LANE = 2


class User:
    """One page, what it saw go wrong, and how many entries it was told were kept."""

    def __init__(self, page: Page) -> None:
        """Listen for what goes wrong on the page."""
        self._page, self.saved, self.steps, self.faults = page, 0, 0, list[str]()
        page.set_default_timeout(WAIT_MS)
        page.on("pageerror", lambda error: self.faults.append(f"script: {error}"))

    async def live(self, address: str, until: float, generator: np.random.Generator) -> None:
        """Walk about and write down until a moment; what fails is kept as a fault."""
        await asyncio.sleep(float(generator.uniform(0, PAUSE_S)))
        await self._page.goto(address)
        await self._page.get_by_role("heading", level=1).wait_for()
        while time.monotonic() < until:
            try:
                await self._act(generator)
                self.steps += 1
            except Error as error:
                self.faults.append(f"{type(error).__name__}: {error}".splitlines()[0])
            for box in await self._page.get_by_test_id("stException").all():
                self.faults.append((await box.inner_text())[:200])
            await asyncio.sleep(float(generator.exponential(PAUSE_S)))

    async def _act(self, generator: np.random.Generator) -> None:
        pick = generator.random() < PICKS
        link = "log" if pick else str(generator.choice(PLACES))
        await self._press(self._page.locator(f'[data-testid="stSidebarNav"] a[href$="/{link}"]'))
        if pick:
            await self._pick()

    async def _press(self, target: Locator) -> None:
        """Press something and wait, as a person does, until the page has done what it does."""
        await target.click()
        await asyncio.sleep(SEEN_S)
        await self._page.wait_for_selector(AT_REST)

    async def _pick(self) -> None:
        main = self._page.get_by_test_id("stMain")
        groups = main.get_by_test_id("stButtonGroup")
        await self._press(groups.nth(1).locator("button").first)
        await self._press(main.get_by_text("2", exact=True))
        await self._press(main.get_by_role("button", name=re.compile("^Save: ")))
        await main.get_by_text(re.compile("^Picked 2 ")).first.wait_for()
        self.saved += 1


def memory_mb(port: int) -> float:
    """Give the resident memory of the server that listens on a port."""
    for process in Path("/proc").glob("[0-9]*"):
        words = (process / "cmdline").read_bytes().split(b"\0")
        if b"dashboard" in words and str(port).encode() in words:
            held = (process / "status").read_text().partition("VmRSS:")[2].split()[0]
            return int(held) / 1024
    raise LookupError(f"no server on port {port}")


async def soak(address: str, users: int, minutes: float) -> tuple[list[User], list[float]]:
    """Let users live on the pages; gives them, and the server's memory every ten seconds."""
    port = urlparse(address).port or 0
    until = time.monotonic() + 60 * minutes
    memory = []
    async with async_playwright() as playwright:
        browser = await playwright.chromium.launch(
            executable_path=chromium_path(), args=CHROMIUM_FLAGS
        )
        people = [User(await (await browser.new_context()).new_page()) for _ in range(users)]
        draws = np.random.default_rng(3).spawn(users)
        lives = [
            asyncio.create_task(one.live(address, until, own))
            for one, own in zip(people, draws, strict=True)
        ]
        while not all(life.done() for life in lives):
            memory.append(memory_mb(port))
            await asyncio.sleep(10)
        await asyncio.gather(*lives)
        await browser.close()
    return people, memory


def main() -> None:
    """Print what came of it."""
    parser = argparse.ArgumentParser(description="Let many people use the dashboard at once.")
    parser.add_argument("--users", type=int, default=30)
    parser.add_argument("--minutes", type=float, default=10.0)
    given = parser.parse_args()
    with tempfile.TemporaryDirectory() as place:
        folder = Path(place)
        store = seeded(folder / "households.sqlite")
        before = len(Store(store, FIRST).rows(ALDER_LANE, "harvest_log.csv"))
        with served(folder, store) as address:
            people, memory = asyncio.run(soak(address, given.users, given.minutes))
        after = len(Store(store, FIRST).rows(ALDER_LANE, "harvest_log.csv"))
    told, faults = sum(one.saved for one in people), [f for one in people for f in one.faults]
    steps = sum(one.steps for one in people)
    print(f"{given.users} users, {given.minutes:g} minutes, {steps} steps, {told} pickings")
    for fault in dict.fromkeys(faults):
        print(f"  {faults.count(fault)} x {fault}")
    say("errors", f"{len(faults)}", "none", reached=not faults)
    lost = told - (after - before)
    say("entries told as kept and lost", f"{lost}", "none", reached=lost <= 0)
    thirds = np.array_split(np.array(memory), 3)
    grown = float(np.median(thirds[2]) / np.median(thirds[1]))
    held = f"{np.median(thirds[1]):.0f} to {np.median(thirds[2]):.0f} MB"
    say(
        "memory, last third over middle third",
        f"{held}, {grown:.2f}x",
        "1.1x",
        reached=grown <= MOST_GROWTH,
    )


if __name__ == "__main__":
    main()
