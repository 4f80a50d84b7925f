"""What the page generator must be set to, as plain values: looks, extensions, and the doors. ``plugin`` sets it.

Everything stands here, so that a handbook's own settings name it, its address and its plugin, and nothing can be forgotten.
"""

from __future__ import annotations

from collections.abc import Collection
from pathlib import Path
from typing import Any

from jinja2 import Environment, TemplateNotFound

from ..catalog.fixed_words import fixed_words
from . import looks
from .hosting import policy

#: The templates that complete the theme's own.
TEMPLATES = Path(__file__).parent / "theme"
THEME = "material"
#: Markdown extension -> its settings.
EXTENSIONS: dict[str, dict[str, Any]] = {
    "attr_list": {},
    "md_in_html": {},  # tables that fold in pages written by hand
    "tables": {"use_align_attribute": True},  # else a column's side would be a style in the page
    "toc": {"toc_depth": 3, "title": "On this page"},
}
#: Plugins that do again what the handbook does, and ask other hosts or add what no page uses.
INSTEAD = {
    "search": "the handbook has a search of its own",
    "social": "the handbook draws the pictures of links itself, and asks no other host",
}
#: The theme's templates whose scripts would stand in its pages. Ours have none, as ``scripts/theme.js`` does their work; a handbook may
#: have put its own into their place.
INLINE = (
    "partials/javascripts/base.html",
    "partials/javascripts/content.html",
    "partials/javascripts/announce.html",
)
#: Settings that the theme prints as they stand, so that markup in them would be markup.
PRINTED = ("site_name", "site_author", "site_description")
#: Door -> its page, or the pages behind it by name. No entries: with all of them in the navigation, builds and pages would grow with the
#: square of the catalog.
_DOORS: dict[str, str | dict[str, str]] = {
    "Map": "index.md",
    "Exercises": {"Exercises": "exercises/index.md", "Muscles": "muscles/index.md"},
    "Plan": {
        "Find": "find.md",
        "Compare": "compare.md",
        "What lags": "lagging.md",
        "Week": "week.md",
        "Tour": "tour.md",
        "Sets and loads": "programme.md",
    },
    "Evidence": {
        "Taught and tested": "taught.md",
        "Gaps": "gaps.md",
        "Since last time": "changes.md",
        "Lessons": "lessons/index.md",
        "Sources": "sources/index.md",
        "Methods": "methods.md",
        "Audits": "audits.md",
        "Data": "data.md",
    },
    "For clients": {"Cautions": "cautions.md", "Handout": "handout/index.html"},
    "Contribute": {"Rules": "rules.md"},
}
#: Pages that are told as steps in the line under a title; the others of their section stand after them.
STEPS = ("find.md", "compare.md", "lagging.md", "week.md", "tour.md")
#: The door of pages written by hand that no other one names.
_MORE = "More"


def theme(given: Collection[str]) -> dict[str, Any]:
    """Settings of the theme; ``given``: the features that a handbook asks for."""
    return {
        "language": fixed_words("client")["lang"],
        "font": False,  # no request leaves the site
        "features": list(dict.fromkeys([*given, "navigation.tabs"])),
        "palette": {
            "primary": "custom",
            "accent": "custom",
        },  # `scripts/theme.js` offers the choice
    }


def inline(env: Environment, config: Any, base: str) -> list[str]:
    """The sources of a policy that allow what the theme needs inline on pages that reach the home page at ``base``."""
    found = []
    for name in INLINE:
        try:
            template = env.get_template(name)
        except TemplateNotFound:  # another version of the theme: what it has instead is refused
            continue
        features = config.theme["features"]
        found += policy.inline(template.render(config=config, base_url=base, features=features))
    return found


def styles() -> list[str]:
    """Uris of the stylesheets."""
    return list(looks.STYLES.values())


def doors(made: Collection[str], written: Collection[str]) -> list[Any]:
    """The navigation over the pages that there are: ``made`` and ``written`` are the uris of pages."""
    there = {*made, *written}
    found: list[Any] = []
    named = set()
    for door, behind in _DOORS.items():
        pages = {door: behind} if isinstance(behind, str) else behind
        kept = [{name: uri} for name, uri in pages.items() if uri in there]
        named |= {*pages.values()}
        if kept:
            found.append(kept[0] if isinstance(behind, str) else {door: kept})
    others = sorted(set(written) - named)
    return [*found, {_MORE: others}] if others else found
