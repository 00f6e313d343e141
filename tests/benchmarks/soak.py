"""Many people at once for a while: no error, no lost entry, and memory that stays flat.

``python -m tests.benchmarks.soak [--users 30] [--minutes 10]`` (needs Linux).
Each user walks from place to place, opens what a place holds, and writes pickings down, with a
pause between; every picking changes the plan of all who look at the same household.
"""

import argparse
import asyncio
import tempfile
import time
from pathlib import Path
from urllib.parse import urlparse

import numpy as np
from websockets.exceptions import WebSocketException

from model.store.store import Store
from tests.benchmarks.measuring import say
from tests.benchmarks.visitor import Visitor, visiting
from tests.dashboard.seeding import FIRST, seeded
from tests.dashboard.serving import served

PLACES = ("", "this_week", "preserving_day", "log", "larder", "winter", "review", "household")
PAUSE_S = 10.0
LONGEST_S = 180.0
PICKS = 0.1
MOST_GROWTH = 1.1
ALDER_LANE = 2


class User:
    """One who walks about, what went wrong, how long it took, and how many entries were kept."""

    def __init__(self, generator: np.random.Generator) -> None:
        """Begin with nothing done."""
        self._generator = generator
        self.saved, self.waits_s, self.faults = 0, list[float](), list[str]()

    async def live(self, address: str, until: float) -> None:
        """Walk about and write down until a moment; what fails is kept as a fault."""
        await asyncio.sleep(float(self._generator.uniform(0, PAUSE_S)))
        try:
            async with visiting(address) as visitor:
                while time.monotonic() < until:
                    began = time.monotonic()
                    async with asyncio.timeout(LONGEST_S):
                        await self._act(visitor)
                    self.waits_s.append(time.monotonic() - began)
                    self.faults += visitor.errors
                    await asyncio.sleep(float(self._generator.exponential(PAUSE_S)))
        except (LookupError, TimeoutError, WebSocketException) as error:
            self.faults.append(f"{type(error).__name__}: {error}")

    async def _act(self, visitor: Visitor) -> None:
        if self._generator.random() < PICKS:
            await self._pick(visitor)
        else:
            await visitor.go(str(self._generator.choice(PLACES)))

    async def _pick(self, visitor: Visitor) -> None:
        await visitor.go("log")
        await visitor.choose("Crop", str(self._generator.choice(visitor.options("Crop"))))
        await visitor.choose("How many", "2")
        await visitor.press("Save: ")
        if visitor.says("Picked 2 "):
            self.saved += 1
        else:
            self.faults.append("a picking was not told as written")


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
    until = time.monotonic() + 60 * minutes
    people = [User(own) for own in np.random.default_rng(3).spawn(users)]
    lives = [asyncio.create_task(one.live(address, until)) for one in people]
    memory = []
    while not all(life.done() for life in lives):
        memory.append(memory_mb(urlparse(address).port or 0))
        await asyncio.sleep(10)
    await asyncio.gather(*lives)
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
    waits_s = np.array([wait for one in people for wait in one.waits_s])
    print(f"{given.users} users, {given.minutes:g} minutes, {len(waits_s)} steps, {told} pickings")
    print(
        "waited for a step: {:.2f} s (median), {:.1f} s (nine of ten), {:.0f} s (longest)".format(
            *np.percentile(waits_s, [50, 90, 100])
        )
    )
    for fault in dict.fromkeys(faults):
        print(f"  {faults.count(fault)} x {fault}")
    say("errors", f"{len(faults)}", "none", reached=not faults)
    lost = told - (after - before)
    say("entries told as kept and lost", f"{lost}", "none", reached=lost == 0)
    print("memory by half minutes:", *(f"{held:.0f}" for held in memory[::3]), "MB")
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
