"""Start the dashboard: ``python -m dashboard [--port N] [--no-browser] [--store FILE]``.

Everything Streamlit needs to know is set here, so that it is the same wherever it starts:
it listens on this machine only, sends nothing anywhere and asks for nothing.
"""

import argparse
import os
import socket
import sys
import threading
import webbrowser
from collections.abc import Sequence
from pathlib import Path

from streamlit.web import bootstrap

from dashboard.schemes import CHALK, DUSK, INK, LEAF, NIGHT, PAPER, SHADE, SPROUT
from model import PLACE_VARIABLE, usual_place

HOST, PORT = "127.0.0.1", 8501
MOST_UPLOAD_MB = 10


def main(arguments: Sequence[str] | None = None) -> int:
    """Serve the dashboard until it is stopped; gives 1 when the port is taken."""
    parser = argparse.ArgumentParser(prog="python -m dashboard", description="Open the dashboard.")
    parser.add_argument("--port", type=int, default=PORT, help=f"to listen on, else {PORT}")
    parser.add_argument("--no-browser", action="store_true", help="only print the address")
    parser.add_argument(
        "--store", type=Path, help=f"the file that keeps everything, else {usual_place()}"
    )
    given = parser.parse_args(arguments)
    if given.store is not None:
        os.environ[PLACE_VARIABLE] = str(given.store.absolute())
    if _taken(given.port):
        print(
            f"Port {given.port} is in use. Stop what runs there, or choose another: "
            f"python -m dashboard --port {given.port + 1}",
            file=sys.stderr,
        )
        return 1
    address = f"http://{HOST}:{given.port}"
    print(f"The dashboard is at {address} (stop it with Ctrl+C).", flush=True)
    if not given.no_browser and _has_screen():
        threading.Timer(1.5, webbrowser.open, [address]).start()
    options = _options(given.port)
    bootstrap.load_config_options(flag_options=options)
    bootstrap.run(str(Path(__file__).with_name("app.py")), False, [], options)  # noqa: FBT003
    return 0


def _taken(port: int) -> bool:
    with socket.socket() as probe:
        return probe.connect_ex((HOST, port)) == 0


def _has_screen() -> bool:
    on_desktop = sys.platform in ("darwin", "win32")
    return on_desktop or bool(os.environ.get("DISPLAY") or os.environ.get("WAYLAND_DISPLAY"))


def _options(port: int) -> dict[str, object]:
    return {
        "server_address": HOST,
        "server_port": port,
        "server_headless": True,
        "server_fileWatcherType": "none",
        "server_maxUploadSize": MOST_UPLOAD_MB,
        "browser_gatherUsageStats": False,
        "client_toolbarMode": "minimal",
        "client_showErrorDetails": "none",
        "theme_light_primaryColor": LEAF,
        "theme_light_backgroundColor": PAPER,
        "theme_light_secondaryBackgroundColor": SHADE,
        "theme_light_textColor": INK,
        "theme_dark_primaryColor": SPROUT,
        "theme_dark_backgroundColor": NIGHT,
        "theme_dark_secondaryBackgroundColor": DUSK,
        "theme_dark_textColor": CHALK,
    }


if __name__ == "__main__":
    sys.exit(main())
