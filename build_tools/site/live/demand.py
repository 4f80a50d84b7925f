"""A preview's pages, made when somebody opens them: after a save nothing waits for pages that nobody looks at.

It stands before the preview's server, which shows files of a folder: what is asked for and not there yet is put there first.
"""

from __future__ import annotations

import posixpath
from collections.abc import Callable, Iterable, Mapping
from threading import RLock
from typing import Any

from .stand_in import App

#: Makes what stands at a uri, and puts it into the server's folder.
Maker = Callable[[str], None]


class Demand:
    """What one preview's server can still be asked for."""

    def __init__(self) -> None:
        self.lock = RLock()
        """Held while pages are declared, made, or taken away."""
        self._waiting: dict[str, str] = {}
        self._make: Maker | None = None

    def wait(self, uris: Mapping[str, str], make: Maker) -> None:
        """From now on ``uris`` (path in the server's folder -> uri) are made when asked for."""
        self._waiting, self._make = dict(uris), make

    def fetch(self, path: str) -> None:
        """Make what stands at a path of the server (``exercises/seated-row/``), if it still waits."""
        plain = posixpath.normpath(path).lstrip("/.") if path else ""
        index = posixpath.join(plain, "index.html")
        with self.lock:
            for name in (plain, index):
                if self._make and name in self._waiting:
                    uri = self._waiting.pop(name)
                    try:
                        self._make(uri)
                    except Exception:
                        self._waiting[name] = uri  # to be told again, not called missing
                        raise

    def before(self, app: App, mount: str = "/") -> App:
        """A WSGI application that makes what is asked for before ``app`` looks for it below ``mount``."""

        def answer(environ: dict[str, Any], start: Callable[..., Any]) -> Iterable[bytes]:
            path = environ.get("PATH_INFO", "").encode("latin-1").decode("utf-8", "ignore")
            if path.startswith(mount) and not path.startswith("/livereload/"):
                self.fetch(path[len(mount) :])
            return app(environ, start)

        return answer
