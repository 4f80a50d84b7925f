"""The stylesheets of the handbook's theme, and where they are published."""

from __future__ import annotations

from ..templating import render

#: Stylesheet or its template in ``site/styles`` -> its uri, which ``extra_css`` of mkdocs.yml names.
STYLES = {"find-compare.css": "assets/find-compare.css", "handbook.css.jinja": "assets/handbook.css", "week.css": "assets/week.css"}


def files() -> list[tuple[str, bytes]]:
    """Uri and bytes of each."""
    return [(uri, render(name).encode()) for name, uri in STYLES.items()]
