"""How fast each page opens with twenty years of records, against the household without one.

``python -m tests.benchmarks.old_record`` (needs Chromium). Both are served at once and asked in
turn; what is timed is the page that comes up once its plan is known, as in ``pages``.
"""

import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from importlib.resources import files
from pathlib import Path

import numpy as np
from playwright.sync_api import Page

from model.intake.folder import read_tables
from model.intake.tables import SeasonTables
from model.store.store import Store
from tests.benchmarks.measuring import say
from tests.benchmarks.pages import MOST, PLACES, Taken, at_rest, middle, opened
from tests.benchmarks.record import with_years, without_record
from tests.dashboard.seeding import FIRST, begin
from tests.dashboard.serving import chromium, chromium_path, served

TIMES = 20


@contextmanager
def both() -> Iterator[tuple[Page, Page]]:
    """Give the dashboard open on the household without a record, and on the one with many."""
    path = chromium_path()
    if path is None:
        raise SystemExit("no chromium on this machine")
    demo = read_tables(str(files("demo_data") / "alder_lane"))
    households = without_record(demo), with_years(demo, np.random.default_rng(1))
    with tempfile.TemporaryDirectory() as place:
        folders = [Path(place) / name for name in ("bare", "long")]
        stores = [
            _seeded(folder, tables) for folder, tables in zip(folders, households, strict=True)
        ]
        with (
            served(folders[0], stores[0]) as bare,
            served(folders[1], stores[1]) as long,
            chromium(path) as browser,
        ):
            yield at_rest(browser, bare), at_rest(browser, long)


def _seeded(folder: Path, tables: SeasonTables) -> Path:
    folder.mkdir()
    store = folder / "households.sqlite"
    begin(Store(store, FIRST), "Invented", tables)
    return store


def main() -> None:
    """Print how long each page takes with the record, as a ratio to the one without."""
    with both() as pages:
        for page in pages:
            for link in (*PLACES[1:], PLACES[0]):
                opened(page, link)
        for link in (*PLACES[1:], PLACES[0]):
            taken: tuple[list[Taken], list[Taken]] = [], []
            for _ in range(TIMES):
                for page, own in zip(pages, taken, strict=True):
                    opened(page, PLACES[PLACES.index(link) - 1])
                    own.append(opened(page, link))
            without, with_it = map(middle, taken)
            ratio = with_it / without
            told = f"{without:.0f} to {with_it:.0f} ms, {ratio:.2f}x"
            say(f"going to {link or 'spring'}", told, f"<= {MOST:g}x", reached=ratio <= MOST)


if __name__ == "__main__":
    main()
