"""What the working pages share: their places, their scripts, and the way to the static indexes for browsers without scripts."""

from __future__ import annotations

from dataclasses import dataclass
from importlib import resources

from ..context import Link, Shelf
from ..templating import render


@dataclass(frozen=True)
class WorkingPage:
    """Everything a template shows."""

    script: str
    exercises: Link
    muscles: Link
    cautions: str
    notice: str
    others: list[Link]
    """The other working pages of this kind."""
    tour: str | None
    """The way to the tour, where there is one."""


def script_uri(name: str) -> str:
    """Where a module of the pages is."""
    return f"planner/{name}"


def scripts() -> list[tuple[str, bytes]]:
    """All modules of the working pages, as they are."""
    folder = resources.files(__package__) / "js"
    return [(script_uri(asset.name), asset.read_bytes()) for asset in sorted(folder.iterdir(), key=lambda asset: asset.name)
            if asset.name.endswith(".js")]


def text(shelf: Shelf, name: str, title: str, description: str, others: list[tuple[str, str]]) -> str:
    """One page as Markdown; ``others`` are titles and uris."""
    desk = shelf.at(f"{name}.md")
    page = WorkingPage(
        desk.href(script_uri(f"{name}.js")), Link("exercises", desk.href("exercises/index.md")),
        Link("muscles", desk.href("muscles/index.md")),
        desk.href("cautions.md"), shelf.handbook.notice.short, [Link(words, desk.href(uri)) for words, uri in others],
        desk.href("tour.md") if "tour.md" in shelf.addresses else None)
    return render(f"{name}.md.jinja", page=page, meta={"title": title, "description": description, "hide": ["navigation", "toc"]})
