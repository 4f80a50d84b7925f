"""What the working pages share: their scripts, and the way to the static indexes for browsers without scripts."""

from __future__ import annotations

import json
from dataclasses import dataclass

from ...handout.successors import moved_on
from ..client import scripts
from ..context import Link, RenderContext
from ..templating import render


@dataclass(frozen=True)
class WorkingPage:
    """Everything a template shows."""

    script: str
    exercises: Link
    muscles: Link
    map: str
    """The way to the evidence map."""
    cautions: str
    notice: str
    others: list[Link]
    """The other working pages of this kind."""
    tour: str | None
    """The way to the tour, where there is one."""
    moved: str | None
    """Old ids that an address may name, with the living ones, as JSON; None where nothing moved."""


def text(
    shelf: RenderContext,
    name: str,
    title: str,
    description: str,
    others: list[tuple[str, str]],
    **more: object,
) -> str:
    """One page as Markdown; ``others`` are titles and uris, ``more`` what its template shows further."""
    desk, moved = shelf.at(f"{name}.md"), moved_on(shelf.catalog)
    page = WorkingPage(
        desk.href(scripts.uri(f"planner/{name}.js")),
        Link("exercises", desk.href("exercises/index.md")),
        Link("muscles", desk.href("muscles/index.md")),
        desk.href("index.md"),
        desk.href("cautions.md"),
        shelf.handbook.notice.short,
        [Link(words, desk.href(uri)) for words, uri in others],
        desk.href("tour.md") if "tour.md" in shelf.addresses else None,
        json.dumps(moved, sort_keys=True) if any(moved.values()) else None,
    )
    return render(
        f"{name}.md.jinja",
        page=page,
        **more,
        meta={
            "title": title,
            "description": description,
            "hide": ["navigation", "toc"],
        },
    )
