"""What a preview answers while its pages cannot be made: what to mend, at every address, until they are whole again.

A server that waits for its next build leaves a browser waiting too. So this stands before the server: without
anything to mend it hands every request on; else it answers requests for pages itself, at once.
"""

from __future__ import annotations

import hashlib
from collections.abc import Callable, Iterable, Sequence
from pathlib import Path
from typing import Any

from ...catalog.invocation import typed
from ...checks.runner import GradedFinding
from ..templating import render

App = Callable[[dict[str, Any], Callable[..., Any]], Iterable[bytes]]
"""A WSGI application (PEP 3333)."""

#: Told first: what stops the pages.
_ORDER = ("error", "warning", "notice")


class StandIn:
    """One preview's page of what to mend."""

    def __init__(self) -> None:
        self._asked: dict[str, Any] | None = None

    @property
    def is_needed(self) -> bool:
        """Whether there is anything to mend."""
        return self._asked is not None

    def show(self, found: Sequence[GradedFinding], catalog: str) -> None:
        """Answer with these findings from now on; commands are named for the catalog in that folder."""
        ordered = sorted(found, key=lambda graded: _ORDER.index(graded.severity))
        self._asked = {
            "findings": [(graded, typed(graded.finding.help, catalog)) for graded in ordered],
            "told": "",
        }

    def tell(self, text: str) -> None:
        """Answer with this sentence from now on."""
        self._asked = {"findings": [], "told": text}

    def clear(self) -> None:
        """Hand requests on again."""
        self._asked = None

    def write(self, folder: Path) -> None:
        """The page as files that any server shows at the first address and at all that are not there. Nothing renews them."""
        if self._asked is not None:
            for name in ("index.html", "404.html"):
                page = render("stand_in.html.jinja", **self._asked, mark="")
                (folder / name).write_text(page, encoding="utf-8")

    def before(self, app: App) -> App:
        """A WSGI application that answers in place of ``app`` while there is anything to mend."""

        def answer(environ: dict[str, Any], start: Callable[..., Any]) -> Iterable[bytes]:
            asked = self._asked
            if asked is None or not _is_page(environ.get("PATH_INFO", "")):
                return app(environ, start)
            # The page looks by itself whether its mark still stands; the real page has none.
            mark = hashlib.sha256(repr(asked).encode("utf-8", "replace")).hexdigest()[:16]
            page = render("stand_in.html.jinja", **asked, mark=mark).encode("utf-8", "replace")
            headers = [
                ("Content-Type", "text/html; charset=utf-8"),
                ("Content-Length", str(len(page))),
                ("Cache-Control", "no-store"),
                ("ETag", f'"{mark}"'),
            ]
            # Any other status is a warning in the terminal, which fails a strict build that goes on meanwhile.
            start("200 OK", headers)
            return [page]

        return answer


def _is_page(path: str) -> bool:
    """Whether an address is one of a page, not of a file beside it, nor where a preview asks for news."""
    last = path.rpartition("/")[2]
    return not path.startswith("/livereload/") and ("." not in last or last.endswith(".html"))
