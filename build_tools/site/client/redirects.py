"""Pages at retired addresses that lead on to the successor, for every id in ``moved.yaml``.

A host of plain files answers no request with a redirect of its own, so each is a
page: it moves on at once (a refresh without delay, W3C technique H76), names the
successor's address for search engines (RFC 6596) and shows a link for whoever
stays behind. No script.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial

from ...catalog.bibliography import apa as referencing
from ...catalog.fixed_words import fixed_words
from ...catalog.load import Catalog
from ...committed.addresses import FOLDERS
from ..context import RenderContext
from ..previews.preview import SOURCES, Preview, preview
from ..resource import Resource
from ..templating import render


def resources(shelf: RenderContext) -> Iterator[Resource]:
    """A page at every retired address whose successor lives."""
    moved = shelf.catalog.moved
    if moved is None:
        return
    for folder, (kind, collection) in FOLDERS.items():
        living = getattr(shelf.catalog, collection)
        for old, new in sorted(getattr(moved.data, kind).items()):
            if new in living:
                # A muscle's parts have pages below its own, and its lesson has slides.
                parts = living[new].data.parts if folder == "muscles" else ()
                slides = ("slides/",) if folder == "lessons" else ()
                for below in ("", *(f"{part}/" for part in parts), *slides):
                    yield Resource(
                        f"{folder}/{old}/{below}index.html",
                        partial(_page, kind=kind, folder=folder, new=new, below=below),
                    )


def _page(shelf: RenderContext, kind: str, folder: str, new: str, below: str) -> bytes:
    target = f"{'../' * (2 + below.count('/'))}{folder}/{new}/{below}"
    # Without a known address the canonical link is relative, which RFC 6596 allows.
    canonical = shelf.site.at(f"{folder}/{new}/{below}") or target
    name = _name(shelf.catalog, kind, new)
    return render(
        "redirect.html.jinja",
        words=fixed_words("client")["moved"],
        name=name,
        preview=_preview(shelf, folder, f"{new}/{below}".rstrip("/"), name),
        target=target,
        canonical=canonical,
    ).encode()


def _preview(shelf: RenderContext, folder: str, entry: str, name: str) -> Preview:
    """What the successor's page shows: some services do not follow a refresh."""
    is_file = folder == "cues" or entry.endswith("/slides")
    uri = f"{folder}/{entry}/index.html" if is_file else f"{folder}/{entry}.md"
    pictured = {
        "cues": f"exercises/{entry}.md",
        "lessons": f"muscles/{entry.partition('/')[0]}.md",
        "sources": SOURCES,
    }.get(folder)
    said = f"{name}, at its new address."
    return preview(shelf, uri, name, said, f"{name}, as its page is previewed.", pictured)


def _name(catalog: Catalog, kind: str, id: str) -> str:
    if kind == "sources":
        return referencing.short(catalog.references[id])
    return catalog.exercises[id].data.name if kind == "exercises" else catalog.muscles[id].data.name
