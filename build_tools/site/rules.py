"""The page of rules: what every build checks, from the rules' own manuals, and the conventions of this handbook."""

from __future__ import annotations

from ..checks.manual import read_manual
from ..checks.profile import Profile, severity_of
from ..checks.rule import all_rules
from .shelf import Shelf
from .templating import render


def anchors() -> list[str]:
    """The anchors of the page."""
    return ["top", "conventions", *(f"rule-{id}" for id in all_rules())]


def text(shelf: Shelf, profile: Profile) -> str:
    """The page as Markdown."""
    desk = shelf.at("rules.md")
    rules = [(id, severity_of(id, profile), read_manual(module.__doc__ or "")) for id, module in all_rules().items()]
    conventions = [(id, c, desk.grounds(c)) for id, c in shelf.handbook.conventions.items()]
    return render("rules.md.jinja", rules=rules, conventions=conventions,
                  meta={"title": "Rules", "description": "What every build of this handbook checks, why, and what to write instead.",
                        "hide": ["navigation"], "search": {"boost": 0.2}})
