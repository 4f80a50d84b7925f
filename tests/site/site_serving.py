"""Serves a built site on a local port, as a host of plain files does."""

from __future__ import annotations

import threading
from collections.abc import Iterator
from contextlib import contextmanager
from functools import partial
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path


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
