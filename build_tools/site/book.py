"""The whole handbook as strings: every page as Markdown, every file as bytes. No page generator is known here.

A new page is a module with ``resources`` (see ``resource``), its template, and its line in ``PAGES``.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path

from ..catalog.load import Catalog
from ..checks.profile import Profile
from ..evidence.claims.conclusions import Conclusions
from ..evidence.wording.names import Names
from . import looks
from .addresses import Addresses, url
from .client import files as client_files
from .client import redirects
from .context import RenderContext
from .dataset import page as dataset
from .figures import file as figure_file
from .lessons import page as lessons
from .map import figure as map_file
from .map import told as map_told
from .pages import (
    data_files,
    exercise,
    indexes,
    methods,
    passages,
    plot_files,
    programme,
    reference,
    rules,
    tour,
)
from .pages.evidence import changes, feed, gaps, taught
from .pages.muscles import muscle, part
from .planner import files as planner_files
from .previews import composed as composed_previews
from .previews.preview import Preview
from .publication import UNPUBLISHED, Publication
from .resource import Room
from .search import files as search_files
from .sections import care as care_view

#: Pages written by hand in the content folder, with the anchors that generated pages link to.
WRITTEN = {
    "index.md": [],
    "audits.md": [],
    care_view.URI: [care_view.ANCHOR],
    "methods.md": methods.ANCHORS,
}
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
)
#: What makes files beside the pages.
FILES: tuple[Room, ...] = (data_files, feed, plot_files, figure_file, map_file, map_told, looks)


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
    pages: list[Page]
    files: list[File]
    previews: dict[str, Preview]
    """Uri of a page of the theme -> what a pasted link to it shows."""

    def fill(self, uri: str, text: str) -> str:
        """A hand-written page with its generated passages."""
        return passages.fill(self.shelf, uri, text)


def hand_written(content: Path) -> dict[str, str]:
    """Uri and Markdown of each hand-written page of a content folder."""
    found = {uri: content / uri for uri in WRITTEN}
    return {uri: path.read_text(encoding="utf-8") for uri, path in found.items() if path.is_file()}


def render(
    catalog: Catalog,
    conclusions: Conclusions,
    profile: Profile,
    site: Publication = UNPUBLISHED,
    written: Mapping[str, str] | None = None,
) -> Book:
    """Render a catalog that passed its checks for one place. Same input, same bytes. ``written`` are the hand-written pages as they
    stand, for the search alone."""
    shelf = RenderContext(catalog, conclusions, Addresses(), site, profile)
    resources = [resource for room in (*PAGES, *FILES) for resource in room.resources(shelf)]
    for uri, anchors in WRITTEN.items():
        more = care_view.anchors(shelf) if uri == care_view.URI else []
        shelf.addresses.add(uri, [*anchors, *more])
    for resource in resources:
        shelf.addresses.add(resource.uri, list(resource.anchors))
    pages, files = [], []
    for resource in resources:
        made = resource.make(shelf)
        if isinstance(made, str):
            pages.append(Page(resource.uri, made, resource.edit))
        else:
            files.append(File(resource.uri, made))
    texts = {uri: passages.fill(shelf, uri, text) for uri, text in (written or {}).items()}
    texts |= {page.uri: page.text for page in pages}
    files += [File(uri, content) for uri, content in search_files.files(shelf, texts)]
    composed = composed_previews.previews(shelf, texts)
    files += [File(uri, content) for uri, content in composed_previews.files(shelf, composed)]
    return Book(shelf, pages, files, {uri: page.preview for uri, page in composed.items()})


def answering(catalog: Catalog, content: Path | None = None) -> set[str]:
    """Every address that the catalog's site answers at, retired ones included, e.g. ``/exercises/seated-row/``. Nothing is made.

    Without the folder of hand-written pages those that every handbook has are taken to be there.
    """
    shelf = RenderContext(catalog, Conclusions(Names(catalog), {}, {}, []), Addresses())
    written = _pages_in(content) if content else WRITTEN
    uris = [*written, *(resource.uri for room in PAGES for resource in room.resources(shelf))]
    return {f"/{url(uri)}" for uri in uris if uri.endswith((".md", "/index.html"))}


def _pages_in(content: Path) -> Iterator[str]:
    """Uris of the pages that stand in a content folder, as MkDocs takes them: nothing hidden, no templates, a README as the index."""
    for path in sorted(content.rglob("*.md")):
        within = path.relative_to(content)
        if within.parts[0] == "templates" or any(part.startswith(".") for part in within.parts):
            continue
        if within.name == "README.md":
            within = within.with_name("index.md")
        yield within.as_posix()
