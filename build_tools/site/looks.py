"""The stylesheets of the handbook's theme, and its sign."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial

from . import sign
from .context import RenderContext
from .resource import Resource
from .templating import lean, render

#: The handbook's sign, as logo and in the browser's tab.
MARK = "assets/mark.svg"
#: Stylesheet or its template in ``site/styles`` -> its uri, in the order that pages load them: each page those that
#: have a rule for what stands on it (see ``ready.Sheets``).
STYLES = {
    "handbook.css.jinja": "assets/handbook.css",
    "find-compare.css": "assets/find-compare.css",
    "lagging.css": "assets/lagging.css",
    "taught.css": "assets/taught.css",
    "week.css": "assets/week.css",
    "lesson.css": "assets/lesson.css",
    "map.css": "assets/map.css",
}


def resources(shelf: RenderContext) -> Iterator[Resource]:
    """What stands in ``assets/`` of the site."""
    yield Resource(MARK, lambda shelf: sign.svg(shelf.palette.mark).encode())
    for name, uri in STYLES.items():
        yield Resource(uri, partial(_style, name=name))


def _style(shelf: RenderContext, name: str) -> bytes:
    return lean(render(name, palette=shelf.palette)).encode()
