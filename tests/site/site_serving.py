"""Serves a built site on a local port, as a host of plain files does."""

from __future__ import annotations

import threading
from collections.abc import Iterator
from contextlib import contextmanager
from functools import partial
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from playwright.sync_api import BrowserContext, Page

#: Tells on the console what a content security policy stopped.
LISTEN = """addEventListener("securitypolicyviolation", (event) =>
    console.error(`violation: ${event.violatedDirective} ${event.blockedURI} ${event.sourceFile} ${event.sample}`));"""


class Quiet(SimpleHTTPRequestHandler):
    """Serves without a log."""

    def log_message(self, *args: object) -> None:
        pass


class Server(ThreadingHTTPServer):
    """Takes the many connections of a page at once, as a host does; the library's own queue holds five and drops the others."""

    request_queue_size = 128
    daemon_threads = True


@contextmanager
def serve(site: Path) -> Iterator[str]:
    """The address of ``site``, which ends with a slash."""
    with Server(("127.0.0.1", 0), partial(Quiet, directory=str(site))) as server:
        threading.Thread(target=server.serve_forever, daemon=True).start()
        yield f"http://127.0.0.1:{server.server_port}/"
        server.shutdown()


def watched(context: BrowserContext, address: str) -> tuple[Page, list[str]]:
    """A new page, and what goes wrong on it from now on: errors, dialogs, what a policy stops, requests of others than ``address``."""
    context.add_init_script(LISTEN)
    page, wrong = context.new_page(), []
    page.on("console", lambda said: wrong.append(said.text) if said.type == "error" else None)
    page.on("pageerror", lambda error: wrong.append(str(error)))
    page.on("dialog", lambda dialog: (wrong.append(dialog.message), dialog.dismiss()))
    known = (address, "data:", "blob:")
    page.on("request", lambda asked: asked.url.startswith(known) or wrong.append(asked.url))
    return page, wrong
