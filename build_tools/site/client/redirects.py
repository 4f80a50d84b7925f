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
    for old, new in sorted(moved.data.parts.items()):
        if shelf.catalog.part(new):
            yield _leading(f"muscles/{old}/", "parts", "muscles", new, "")
    for folder, (kind, collection) in FOLDERS.items():
        living = getattr(shelf.catalog, collection)
        for old, new in sorted(getattr(moved.data, kind).items()):
            if new in living:
                # A muscle's parts have pages below its own, and its lesson has slides.
                parts = living[new].data.parts if folder == "muscles" else ()
                slides = ("slides/",) if folder == "lessons" else ()
                for below in ("", *(f"{part}/" for part in parts), *slides):
                    if f"{old}/{below}".rstrip("/") not in moved.data.parts:
                        yield _leading(f"{folder}/{old}/{below}", kind, folder, new, below)


def _leading(at: str, kind: str, folder: str, new: str, below: str) -> Resource:
    return Resource(
        f"{at}index.html", partial(_page, at=at, kind=kind, folder=folder, new=new, below=below)
    )


def led_on(at: str, to: str, name: str) -> Resource:
    """A page at the address ``at`` that leads on to ``to``, both below the site's own address and with a slash at their end."""

    def make(shelf: RenderContext) -> bytes:
        return _leads(
            shelf, at, to, name, preview(shelf, f"{to.rstrip('/')}.md", name, name, name, SOURCES)
        )

    return Resource(f"{at}index.html", make)


def _page(shelf: RenderContext, at: str, kind: str, folder: str, new: str, below: str) -> bytes:
    name = _name(shelf.catalog, kind, new)
    said = _preview(shelf, folder, f"{new}/{below}".rstrip("/"), name)
    return _leads(shelf, at, f"{folder}/{new}/{below}", name, said)


def _leads(shelf: RenderContext, at: str, to: str, name: str, said: Preview) -> bytes:
    target = f"{'../' * at.count('/')}{to}"
    # Without a known address the canonical link is relative, which RFC 6596 allows.
    return render(
        "redirect.html.jinja",
        words=fixed_words("client")["moved"],
        name=name,
        preview=said,
        target=target,
        canonical=shelf.site.at(to) or target,
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
    if kind == "exercises":
        return catalog.exercises[id].data.name
    named = catalog.part(id)
    assert named is not None, id
    return named.name
