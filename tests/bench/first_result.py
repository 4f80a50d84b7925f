"""How long readers wait for the first result of the search, in Chromium."""

from __future__ import annotations

import os
import shutil
import threading
from functools import partial
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from statistics import median
from typing import TYPE_CHECKING, NamedTuple
from urllib.parse import urlsplit

from .weights import packed

if TYPE_CHECKING:
    from playwright.sync_api import Page

BROWSERS = ("chromium", "chromium-browser", "google-chrome")


class Waited(NamedTuple):
    """Milliseconds from the last letter to the first result, and packed kilobytes of what the first search loads."""

    first: float
    later: float
    """Median of the names after the first."""
    loaded: float


class _Quiet(SimpleHTTPRequestHandler):
    def log_message(self, *args: object) -> None:
        pass


def chromium() -> str | None:
    """Where there is one."""
    return os.environ.get("CHROMIUM") or next(filter(None, map(shutil.which, BROWSERS)), None)


def wait(site: Path, names: list[str]) -> Waited | None:
    """Type some names one after the other, the first with nothing loaded yet; ``None`` without a browser."""
    path = chromium()
    if path is None:
        return None
    from playwright.sync_api import sync_playwright

    with (
        ThreadingHTTPServer(("127.0.0.1", 0), partial(_Quiet, directory=str(site))) as server,
        sync_playwright() as playwright,
    ):
        threading.Thread(target=server.serve_forever, daemon=True).start()
        browser = playwright.chromium.launch(executable_path=path, args=["--no-sandbox"])
        page = browser.new_context(service_workers="block").new_page()
        asked: list[str] = []
        page.on("request", lambda request: asked.append(urlsplit(request.url).path))
        page.goto(f"http://127.0.0.1:{server.server_port}/methods/")
        page.wait_for_load_state("networkidle")
        times = [_type(page, name) for name in names]
        browser.close()
        server.shutdown()
    loaded = {site / path.lstrip("/") for path in asked if path.startswith("/search/")}
    return Waited(times[0], median(times[1:]), sum(map(packed, loaded)))


def _type(page: Page, name: str) -> float:
    page.keyboard.press("Escape")
    page.keyboard.press("Escape")
    page.keyboard.press("/")
    page.get_by_role("combobox", name="Search").fill("")
    start = page.evaluate("performance.now()")
    page.keyboard.insert_text(name)
    options = page.get_by_role("listbox", name="Search results").get_by_role("option")
    options.filter(has_text=name).first.wait_for()
    return float(page.evaluate("performance.now()")) - float(start)
