"""The dashboard's pages run without a browser, and one real browser for the main path."""

import os
from collections.abc import Iterator
from importlib.resources import files

import pytest
from playwright.sync_api import Browser
from streamlit.testing.v1 import AppTest

from tests.dashboard.serving import chromium, chromium_path, served


@pytest.fixture
def app() -> AppTest:
    """Give the dashboard as it opens: the demo household in spring."""
    page = AppTest.from_file(str(files("dashboard") / "app.py"), default_timeout=60)
    return page.run()


@pytest.fixture(scope="session")
def address(tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    """Start the dashboard from a folder outside the project, as an installed program."""
    with served(tmp_path_factory.mktemp("elsewhere")) as address:
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
