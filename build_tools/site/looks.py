"""The stylesheets of the handbook's theme, and assets that are published as they are."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial
from importlib import resources as package

from .context import RenderContext
from .resource import Resource, finished
from .templating import render

#: Stylesheet or its template in ``site/styles`` -> its uri, in the order that pages load them.
STYLES = {
    "handbook.css.jinja": "assets/handbook.css",
    "find-compare.css": "assets/find-compare.css",
    "lagging.css": "assets/lagging.css",
    "lesson.css": "assets/lesson.css",
    "map.css": "assets/map.css",
    "search.css": "assets/search.css",
    "taught.css": "assets/taught.css",
    "week.css": "assets/week.css",
}


def resources(shelf: RenderContext) -> Iterator[Resource]:
    """What stands in ``assets/`` of the site."""
    for asset in sorted(
        (package.files("build_tools.site") / "assets").iterdir(), key=lambda asset: asset.name
    ):
        yield finished(f"assets/{asset.name}", asset.read_bytes())
    for name, uri in STYLES.items():
        yield Resource(uri, partial(_style, name=name))


def _style(shelf: RenderContext, name: str) -> bytes:
    return render(name).encode()
