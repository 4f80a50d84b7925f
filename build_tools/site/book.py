"""The whole handbook as strings: every page as Markdown, every file as bytes. No page generator is known here.

A new page is a module with ``resources`` (see ``resource``), its template, and its line in ``PAGES``.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cached_property

from ..catalog.load import Catalog
from ..checks.profile import Profile
from ..evidence.claims.conclusions import Conclusions
from ..evidence.wording.names import Names
from ..movement.course import Courses
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
from .resource import Resource, Room
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
    """All pages and files, each made when it is asked for, and what hand-written pages need to be completed.

    Raises ``UnfitPage`` where a passage of a hand-written page is unknown.
    """

    shelf: RenderContext
    written: Mapping[str, str]
    """Uri and Markdown of the pages written by hand, those that the engine lends among them."""
    resources: Mapping[str, Resource]
    """Uri -> page or file of the catalog before it is made; a page's ends in ``.md``."""

    @cached_property
    def pages(self) -> list[Page]:
        """Every generated page."""
        return [
            Page(uri, self.make(uri), resource.edit)
            for uri, resource in self.resources.items()
            if is_page(uri)
        ]

    @cached_property
    def files(self) -> list[File]:
        """Every file."""
        made = [
            File(uri, resource.content(self.shelf))
            for uri, resource in self.resources.items()
            if not is_page(uri)
        ]
        return [*made, *self.search, *self._composed[1]]

    @cached_property
    def search(self) -> list[File]:
        """The files that the search reads, made from all pages."""
        return [File(uri, content) for uri, content in search_files.files(self.shelf, self._texts)]

    @property
    def previews(self) -> dict[str, Preview]:
        """Uri of a page of the theme -> what a pasted link to it shows."""
        return self._composed[0]

    @property
    def answers(self) -> set[str]:
        """Every address that it answers at, as ``answering``."""
        return _answering([*hand_written.addresses(self.written), *self.resources])

    def make(self, uri: str) -> str:
        """One generated page: Markdown with front matter."""
        return self.resources[uri].text(self.shelf)

    def make_all(self) -> None:
        """Make everything now. Raises ``UnfitPage``."""
        for kind in ("pages", "files"):
            getattr(self, kind)

    def fill(self, uri: str, text: str) -> str:
        """A hand-written page with its generated passages."""
        return passages.fill(self.shelf, uri, text)

    @cached_property
    def _texts(self) -> dict[str, str]:
        texts = {uri: self.fill(uri, text) for uri, text in self.written.items()}
        return texts | {page.uri: page.text for page in self.pages}

    @cached_property
    def _composed(self) -> tuple[dict[str, Preview], list[File]]:
        composed = composed_previews.previews(self.shelf, self._texts)
        files = [File(uri, data) for uri, data in composed_previews.files(self.shelf, composed)]
        return {uri: page.preview for uri, page in composed.items()}, files


def is_page(uri: str) -> bool:
    """Whether a page stands there, not a file."""
    return uri.endswith(".md")


def bind(
    catalog: Catalog,
    conclusions: Conclusions,
    profile: Profile,
    site: Publication = UNPUBLISHED,
    written: Mapping[str, str] | None = None,
    courses: Courses | None = None,
) -> Book:
    """The book of a catalog that passed its checks, with every address declared and nothing made yet.

    ``written`` are the hand-written pages as they stand; without them those that the engine lends. ``courses`` are those of an earlier
    state of the catalog. Raises ``UnfitPage`` where two pages have one name.
    """
    written = (
        {uri: hand_written.lent(uri) for uri in hand_written.LENT} if written is None else written
    )
    shelf = RenderContext(catalog, conclusions, Addresses(), site, profile, courses)
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
    return Book(shelf, written, {resource.uri: resource for resource in resources})


def render(
    catalog: Catalog,
    conclusions: Conclusions,
    profile: Profile,
    site: Publication = UNPUBLISHED,
    written: Mapping[str, str] | None = None,
) -> Book:
    """The book of a catalog with everything made. Same input, same bytes. As ``bind``, and ``UnfitPage`` for an unknown passage."""
    bound = bind(catalog, conclusions, profile, site, written)
    bound.make_all()
    return bound


def answering(catalog: Catalog, written: Mapping[str, str] | None = None) -> set[str]:
    """Every address that the site of a catalog and its hand-written pages answers at, retired ones included, e.g.
    ``/exercises/seated-row/``. Nothing is made."""
    shelf = RenderContext(catalog, Conclusions(Names(catalog), {}, {}, []), Addresses())
    made = (resource.uri for room in PAGES for resource in room.resources(shelf))
    return _answering([*hand_written.addresses(written or {}), *made])


def _answering(uris: Iterable[str]) -> set[str]:
    return {f"/{url(uri)}" for uri in uris if uri.endswith((".md", "/index.html"))}
