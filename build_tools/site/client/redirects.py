"""Pages at retired addresses that lead on to the successor, for every id in ``moved.yaml``.

A host of plain files answers no request with a redirect of its own, so each is a
page: it moves on at once (a refresh without delay, W3C technique H76), names the
successor's address for search engines (RFC 6596) and shows a link for whoever
stays behind. No script.
"""

from __future__ import annotations

from collections.abc import Iterator

from ...catalog.bibliography import apa as referencing
from ...catalog.load import Catalog
from ..publication import Site
from ..templating import render

#: List in moved.yaml -> the folders in which its ids have a page.
FOLDERS = {"exercises": ("exercises", "cues"), "muscles": ("muscles",), "sources": ("sources",)}


def files(catalog: Catalog, site: Site) -> list[tuple[str, bytes]]:
    """Where each page stands, and the page."""
    return [(f"{folder}/{old}/index.html", _page(catalog, site, kind, folder, new)) for kind, folder, old, new in _retired(catalog)]


def _retired(catalog: Catalog) -> Iterator[tuple[str, str, str, str]]:
    """List, folder, retired id and successor."""
    if catalog.moved is None:
        return
    for kind, folders in FOLDERS.items():
        for old, new in sorted(getattr(catalog.moved.data, kind).items()):
            for folder in folders:
                yield kind, folder, old, new


def _page(catalog: Catalog, site: Site, kind: str, folder: str, new: str) -> bytes:
    target = f"../../{folder}/{new}/"
    # Without a known address the canonical link is relative, which RFC 6596 allows.
    canonical = site.at(f"{folder}/{new}/") or target
    return render("redirect.html.jinja", name=_name(catalog, kind, new), target=target, canonical=canonical).encode()


def _name(catalog: Catalog, kind: str, id: str) -> str:
    if kind == "sources":
        return referencing.short(catalog.references[id])
    return catalog.exercises[id].data.name if kind == "exercises" else catalog.muscles[id].data.name
