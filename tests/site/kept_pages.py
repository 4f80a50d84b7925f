"""The client's pages under a worker, and what is asked of both in the tests."""

from __future__ import annotations

from http.server import SimpleHTTPRequestHandler
from typing import TYPE_CHECKING

import pytest
from folders import DEMO

from build_tools.catalog.load import Catalog, load

if TYPE_CHECKING:
    from playwright.sync_api import Page

#: Paths of what is kept.
KEPT = """async () => (await Promise.all((await caches.keys()).map(async name =>
    (await (await caches.open(name)).keys()).map(kept => new URL(kept.url).pathname)))).flat().sort()"""


def catalog(says: str = "Sit tall on the crate.") -> Catalog:
    """The demo catalog, its crate curl beginning with another cue."""
    made = load(DEMO, "catalog")
    entry = made.exercises["crate-curl"]
    cues = entry.data.cues
    first = cues.set_up[0].model_copy(update={"do": says})
    object.__setattr__(
        entry,
        "data",
        entry.data.model_copy(update={"cues": cues.model_copy(update={"set_up": [first]})}),
    )
    return made


class Quiet(SimpleHTTPRequestHandler):
    """Serves without a log, and always whole: its dates count seconds, and a test builds anew within one."""

    def send_head(self) -> object:
        del self.headers["If-Modified-Since"]
        return super().send_head()

    def log_message(self, *args: object) -> None:
        pass


def status(page: Page) -> str:
    """What the page that keeps sheets says in the end."""
    page.wait_for_selector("[role=status] p:not([hidden]):not([data-state=busy])")
    return page.inner_text("[role=status]")


def keep(page: Page, id: str = "crate-curl") -> str:
    page.goto("about:blank")  # else a change of the fragment alone would load nothing
    page.goto(f"keep/#{id}")
    return status(page)


def until(page: Page, holds: str, given: object = None) -> None:
    """Wait until a function of JavaScript, whose promise is awaited, gives true."""
    for _ in range(100):
        if page.evaluate(holds, given):
            return
        page.wait_for_timeout(50)
    pytest.fail(f"never: {holds}")


#: One cache is left, and it is another than before.
RENEWED = "before => caches.keys().then(now => now.length === 1 && now[0] !== before)"
