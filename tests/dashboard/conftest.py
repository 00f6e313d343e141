"""The dashboard's pages run without a browser, and one real browser for the main path."""

import os
import shutil
import socket
import subprocess
import sys
import time
import urllib.request
from collections.abc import Iterator
from contextlib import suppress
from importlib.resources import files
from pathlib import Path

import pytest
from playwright.sync_api import Browser, sync_playwright
from streamlit.testing.v1 import AppTest

CHROMIUM_FLAGS = [
    "--headless",
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
]
START_SECONDS = 60


@pytest.fixture
def app() -> AppTest:
    """Give the dashboard as it opens: the demo household in spring."""
    page = AppTest.from_file(str(files("dashboard") / "app.py"), default_timeout=60)
    return page.run()


@pytest.fixture(scope="session")
def address(tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    """Start the dashboard from a folder outside the project, as an installed program."""
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        port = probe.getsockname()[1]
    folder = tmp_path_factory.mktemp("elsewhere")
    command = [sys.executable, "-m", "dashboard", "--port", str(port), "--no-browser"]
    server = subprocess.Popen(command, cwd=folder, env={**os.environ, "HOME": str(folder)})
    try:
        _wait_until_healthy(f"http://127.0.0.1:{port}/_stcore/health", server)
        yield f"http://127.0.0.1:{port}"
    finally:
        server.terminate()
        server.wait(timeout=20)


def _wait_until_healthy(health: str, server: subprocess.Popen[bytes]) -> None:
    began = time.monotonic()
    while time.monotonic() - began < START_SECONDS:
        assert server.poll() is None, "the dashboard ended instead of starting"
        with suppress(OSError), urllib.request.urlopen(health, timeout=2) as answer:  # noqa: S310
            if answer.read() == b"ok":
                return
    pytest.fail(f"the dashboard did not answer within {START_SECONDS} s")


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    """Start the machine's Chromium; on the build machine its absence is a failure."""
    found = shutil.which("chromium") or shutil.which("chromium-browser")
    if found is None:
        reason = "no chromium on this machine: install it to test the real pages"
        if os.environ.get("CI") == "true":
            pytest.fail(reason)
        pytest.skip(reason)
    with sync_playwright() as playwright:
        chromium = playwright.chromium.launch(executable_path=Path(found), args=CHROMIUM_FLAGS)
        yield chromium
        chromium.close()
