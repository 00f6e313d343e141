"""The dashboard's pages run without a browser, and one real browser for the main path."""

import os
from collections.abc import Iterator
from importlib.resources import files
from pathlib import Path

import pytest
from playwright.sync_api import Browser
from streamlit.testing.v1 import AppTest

from tests.dashboard.seeding import seeded
from tests.dashboard.serving import chromium, chromium_path, served


@pytest.fixture
def store_path(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Give where the dashboard keeps things in a test: a place of its own."""
    path = tmp_path / "households.sqlite"
    monkeypatch.setenv("HARVEST_TO_PANTRY_STORE", str(path))
    return path


@pytest.fixture
def app(store_path: Path) -> AppTest:
    """Give the dashboard as it opens on the demo household in spring."""
    seeded(store_path)
    page = AppTest.from_file(str(files("dashboard") / "app.py"), default_timeout=60)
    return page.run()


@pytest.fixture(scope="session")
def address(tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    """Start the dashboard from a folder outside the project, as an installed program."""
    folder = tmp_path_factory.mktemp("elsewhere")
    with served(folder, seeded(folder / "households.sqlite")) as address:
        yield address


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    """Start the machine's Chromium; on the build machine its absence is a failure."""
    path = chromium_path()
    if path is None:
        reason = "no chromium on this machine: install it to test the real pages"
        if os.environ.get("CI") == "true":
            pytest.fail(reason)
        pytest.skip(reason)
    with chromium(path) as running:
        yield running
