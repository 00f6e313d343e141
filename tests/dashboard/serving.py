"""The dashboard as an installed program, and the machine's Chromium to look at it."""

import os
import shutil
import socket
import subprocess
import sys
import time
import urllib.request
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path

from playwright.sync_api import Browser, sync_playwright

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


@contextmanager
def served(folder: Path, store: Path) -> Iterator[str]:
    """Start the dashboard from a folder outside the project on a store; give its address."""
    own = {"HOME": str(folder), "HARVEST_TO_PANTRY_STORE": str(store)}
    with answering(["dashboard", "--no-browser", "--port"], folder, own) as address:
        yield address


@contextmanager
def answering(module: list[str], folder: Path, own: dict[str, str]) -> Iterator[str]:
    """Start a module that takes its port last, with environment of its own; give its address."""
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        port = probe.getsockname()[1]
    command = [sys.executable, "-m", *module, str(port)]
    server = subprocess.Popen(command, cwd=folder, env={**os.environ, **own})
    try:
        _wait_until_healthy(f"http://127.0.0.1:{port}/_stcore/health", server)
        yield f"http://127.0.0.1:{port}"
    finally:
        server.terminate()
        server.wait(timeout=20)


def _wait_until_healthy(health: str, server: subprocess.Popen[bytes]) -> None:
    began = time.monotonic()
    while time.monotonic() - began < START_SECONDS:
        if server.poll() is not None:
            raise RuntimeError("the server ended instead of starting")
        with suppress(OSError), urllib.request.urlopen(health, timeout=2) as answer:  # noqa: S310
            if answer.read() == b"ok":
                return
        time.sleep(0.1)
    raise RuntimeError(f"the server did not answer within {START_SECONDS} s")


def chromium_path() -> str | None:
    """Give the machine's Chromium, or None."""
    return shutil.which("chromium") or shutil.which("chromium-browser")


@contextmanager
def chromium(path: str) -> Iterator[Browser]:
    """Start Chromium without a screen."""
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=path, args=CHROMIUM_FLAGS)
        yield browser
        browser.close()
