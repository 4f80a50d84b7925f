"""The page of rules: what every build checks, from the rules' own manuals."""

from __future__ import annotations

from collections.abc import Iterator

from ...checks.manuals.manual import Manual
from ...checks.manuals.numbers import NUMBERS
from ...checks.manuals.register import rule_manuals
from ...checks.profile import severity_of
from ...english import upper_first
from ..client import scripts
from ..context import RenderContext
from ..resource import Resource
from ..templating import render
from .indexes import NarrowingField


def resources(shelf: RenderContext) -> Iterator[Resource]:
    """The page."""
    yield Resource("rules.md", text, anchors())


def anchors() -> list[str]:
    """The anchors of the page."""
    return ["top", *(f"rule-{id}" for id in _manuals())]


def text(shelf: RenderContext) -> str:
    """The page as Markdown."""
    rules = [(id, severity_of(id, shelf.profile), manual) for id, manual in _manuals().items()]
    severities = sorted({severity for _, severity, _ in rules})
    return render(
        "rules.md.jinja",
        rules=rules,
        fields=[NarrowingField("severity", "Severity", [(s, upper_first(s)) for s in severities])],
        script=shelf.at("rules.md").href(scripts.uri(scripts.NARROW)),
        meta={
            "title": "Rules",
            "description": "What every build of this handbook checks, why, and what to write instead.",
            "hide": ["navigation"],
            "audience": "contributors",
        },
    )


def _manuals() -> dict[str, Manual]:
    """The manuals of what is checked on each entry, and of what only the numbers show."""
    return {**rule_manuals(), **NUMBERS}
