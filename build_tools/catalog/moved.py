"""What becomes of an id that was published: it has an entry, a successor or a reason, and never nothing."""

from __future__ import annotations

from .. import clock
from .load import Catalog

FILE = "moved.yaml"
#: List of moved.yaml -> the folders of the pages that its ids have.
_PAGES = {"exercises": "exercises", "muscles": "muscles", "parts": "muscles", "sources": "sources"}


def was_published(catalog: Catalog, kind: str, id: str) -> bool:
    """Whether the list of published addresses has a page of this id; ``kind`` is a list of moved.yaml."""
    return f"/{_PAGES[kind]}/{id}/" in published_lines(catalog)


def published_lines(catalog: Catalog) -> frozenset[str]:
    """The lines of the list of published addresses; none while it cannot be read."""
    try:
        return frozenset((catalog.root / "addresses.txt").read_text(encoding="utf-8").splitlines())
    except (OSError, UnicodeDecodeError):
        return frozenset()


def instead(catalog: Catalog, kind: str, id: str) -> str | None:
    """What to write where an id without an entry is mentioned; ``None`` for one that was never published. ``kind`` is a list of moved.yaml."""
    moved = catalog.moved.data if catalog.moved else None
    if moved and id in getattr(moved, kind):
        return f"it has another id now: write `{getattr(moved, kind)[id]}`"
    if moved and id in getattr(moved.retired, kind):
        gone = getattr(moved.retired, kind)[id]
        return f"it was taken out on {gone.day} ({gone.because.rstrip('.')}): name another, or leave it out"
    return what_to_write(kind, id, catalog.label) if was_published(catalog, kind, id) else None


def what_to_write(kind: str, id: str, folder: str) -> str:
    """The remedy for a published id without an entry: one of two things, in moved.yaml, which may not be there yet."""
    file = f"{folder}/{FILE}" if folder else FILE
    return (
        f"it was published, so its address must answer: in {file} write `{kind}: {{{id}: its-new-id}}` if it goes on under another id, "
        f"or `retired: {{{kind}: {{{id}: {{name: Its name, day: {clock.today()}, because: Why it went.}}}}}}` if it was taken out; "
        "or bring the entry back"
    )
