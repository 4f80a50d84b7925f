"""The whole handbook as strings: every page as Markdown, every file as bytes. No page generator is known here.

A new page is a module with ``resources`` (see ``resource``), its template, and its line in ``PAGES``.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property

from ..catalog.load import Catalog
from ..checks.profile import Profile
from ..evidence.claims.conclusions import Conclusions
from ..evidence.wording.names import Names
from . import hand_written, looks
from .addresses import Addresses, url
from .client import files as client_files
from .client import redirects, retired
from .context import RenderContext
from .dataset import page as dataset
from .lessons import page as lessons
from .map import figure as map_file
from .map import told as map_told
from .pages import (
    data_files,
    exercise,
    indexes,
    passages,
    programme,
    reference,
    rules,
    tour,
)
from .pages.evidence import changes, feed, gaps, taught
from .pages.muscles import muscle, part
from .pages.passages import UnfitPage
from .planner import files as planner_files
from .previews import composed as composed_previews
from .previews.preview import Preview
from .publication import UNPUBLISHED, Publication
from .resource import Room
from .search import files as search_files

#: What makes pages, in the order that the search meets them. Where they stand follows from the catalog's ids alone.
PAGES: tuple[Room, ...] = (
    exercise,
    muscle,
    part,
    lessons,
    reference,
    indexes,
    programme,
    planner_files,
    tour,
    taught,
    gaps,
    changes,
    dataset,
    rules,
    client_files,
    redirects,
    retired,
)
#: What makes files beside the pages.
FILES: tuple[Room, ...] = (data_files, feed, map_file, map_told, looks)


@dataclass(frozen=True)
class Page:
    """One generated page."""

    uri: str
    """Below the content folder, e.g. ``exercises/seated-row.md``."""
    text: str
    """Markdown with front matter."""
    edit: str | None = None
    """The catalog file it comes from, relative to the catalog folder."""


@dataclass(frozen=True)
class File:
    """One generated file that is not a page."""

    uri: str
    content: bytes


@dataclass(frozen=True)
class Book:
    """All pages and files, and what hand-written pages need to be completed."""

    shelf: RenderContext
    written: Mapping[str, str]
    """Uri and Markdown of the pages written by hand, those that the engine lends among them."""
    pages: list[Page]
    files: list[File]
    previews: dict[str, Preview]
    """Uri of a page of the theme -> what a pasted link to it shows."""

    @cached_property
    def uris(self) -> frozenset[str]:
        """Where its pages are."""
        return frozenset(page.uri for page in self.pages)

    def fill(self, uri: str, text: str) -> str:
        """A hand-written page with its generated passages."""
        return passages.fill(self.shelf, uri, text)


def render(
    catalog: Catalog,
    conclusions: Conclusions,
    profile: Profile,
    site: Publication = UNPUBLISHED,
    written: Mapping[str, str] | None = None,
) -> Book:
    """Render a catalog that passed its checks for one place. Same input, same bytes. ``written`` are the hand-written pages as they
    stand; without them those that the engine lends. Raises ``UnfitPage`` where two pages have one name, or a passage is unknown."""
    written = (
        {uri: hand_written.lent(uri) for uri in hand_written.LENT} if written is None else written
    )
    shelf = RenderContext(catalog, conclusions, Addresses(), site, profile)
    resources = [resource for room in (*PAGES, *FILES) for resource in room.resources(shelf)]
    for resource in resources:
        if resource.uri in written:
            raise UnfitPage(
                f"{resource.uri} stands in the content folder, and the handbook makes a page of that name; rename one"
            )
    for uri in {hand_written.HOME: "", **written}:
        shelf.addresses.add(uri, hand_written.anchors(shelf, uri))
    for resource in resources:
        shelf.addresses.add(resource.uri, list(resource.anchors))
    pages, files = [], []
    for resource in resources:
        made = resource.make(shelf)
        if isinstance(made, str):
            pages.append(Page(resource.uri, made, resource.edit))
        else:
            files.append(File(resource.uri, made))
    texts = {uri: passages.fill(shelf, uri, text) for uri, text in written.items()}
    texts |= {page.uri: page.text for page in pages}
    files += [File(uri, content) for uri, content in search_files.files(shelf, texts)]
    composed = composed_previews.previews(shelf, texts)
    files += [File(uri, content) for uri, content in composed_previews.files(shelf, composed)]
    return Book(shelf, written, pages, files, {uri: page.preview for uri, page in composed.items()})


def answering(catalog: Catalog, written: Mapping[str, str] | None = None) -> set[str]:
    """Every address that the site of a catalog and its hand-written pages answers at, retired ones included, e.g.
    ``/exercises/seated-row/``. Nothing is made."""
    shelf = RenderContext(catalog, Conclusions(Names(catalog), {}, {}, []), Addresses())
    made = (resource.uri for room in PAGES for resource in room.resources(shelf))
    uris = [*hand_written.addresses(written or {}), *made]
    return {f"/{url(uri)}" for uri in uris if uri.endswith((".md", "/index.html"))}
