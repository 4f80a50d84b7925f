"""The whole handbook as strings: every page as Markdown, every file as bytes. No page generator is known here."""

from __future__ import annotations

import json
from dataclasses import dataclass
from importlib import resources

from ..catalog import json_schema
from ..catalog.load import Catalog
from ..checks.profile import Profile
from ..evidence.model import Conclusions
from .addresses import Addresses
from .client import cue_sheet, handout_page, offline, redirects, share
from .context import Shelf
from .figures import file as figure_file
from .pages import (
    exercise,
    gaps,
    indexes,
    methods,
    muscle,
    programme,
    rules,
    styles,
    tour,
)
from .pages import (
    passages as markers,
)
from .pages import (
    plot_files as plot_file,
)
from .pages import (
    reference as source,
)
from .pages.citations import mentions
from .planner import files as planner
from .publication import UNPUBLISHED, Site
from .sections import care as care_view

#: Pages written by hand in the content folder, which generated pages may link to, with their anchors.
WRITTEN = {"index.md": [], "audits.md": [], care_view.URI: [care_view.ANCHOR], "methods.md": methods.ANCHORS}
#: Section -> uri of its index.
INDEXES = {"exercises": "exercises/index.md", "muscles": "muscles/index.md", "sources": "sources/index.md"}


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

    shelf: Shelf
    pages: list[Page]
    files: list[File]

    def fill(self, uri: str, text: str) -> str:
        """A hand-written page with its generated passages."""
        return markers.fill(self.shelf, uri, text)


def render(catalog: Catalog, conclusions: Conclusions, profile: Profile, site: Site = UNPUBLISHED) -> Book:
    """Render a catalog that passed its checks for one place. Same input, same bytes."""
    shelf = Shelf(catalog, conclusions, Addresses(), site)
    _declare(shelf)
    return Book(shelf, _pages(shelf, profile), _files(shelf))


def _pages(shelf: Shelf, profile: Profile) -> list[Page]:
    catalog, cited = shelf.catalog, mentions(shelf)
    return [
        *(Page(f"exercises/{id}.md", exercise.text(shelf, id), f"exercises/{id}.yaml") for id in catalog.exercises),
        *(Page(f"muscles/{id}.md", muscle.text(shelf, id), f"muscles/{id}.yaml") for id in catalog.muscles),
        *(Page(f"sources/{key}.md", source.text(shelf, key, cited.get(key, [])),
               f"studies/{key}.yaml" if key in catalog.studies else "references.bib") for key in catalog.references),
        Page(INDEXES["exercises"], indexes.exercises(shelf)),
        Page(INDEXES["muscles"], indexes.muscles(shelf)),
        Page(INDEXES["sources"], indexes.sources(shelf, cited)),
        Page(programme.URI, programme.text(shelf), "programme.yaml" if catalog.programme else None),
        *(Page(uri, text) for uri, text in planner.pages(shelf)),
        Page(tour.URI, tour.text(shelf), "example.yaml" if catalog.example else None),
        Page("gaps.md", gaps.text(shelf)),
        Page("rules.md", rules.text(profile)),
    ]


def _files(shelf: Shelf) -> list[File]:
    records = [File(f"sources/{key}.bib", reference.bibtex.encode()) for key, reference in shelf.catalog.references.items()]
    cited = {id: exercise.cited(shelf, id) for id in shelf.catalog.exercises}
    records += [File(share.bibtex_uri(id), share.bibtex(shelf, keys)) for id, keys in cited.items() if keys]
    assets = sorted((resources.files("build_tools.site") / "assets").iterdir(), key=lambda asset: asset.name)
    plots = [File(uri, content) for uri, content in plot_file.files(shelf)]
    postures = [File(figure_file.uri(id), figure_file.file(shelf, id)) for id in shelf.catalog.exercises]
    client = [file for id in shelf.catalog.exercises for file in cue_sheet.files(shelf, id)] + handout_page.files(shelf)
    kept = [File(uri, content) for uri, content in [*client, *offline.files(shelf, client)]]
    working = [File(uri, content) for uri, content in planner.files(shelf)]
    moved = [File(uri, content) for uri, content in redirects.files(shelf.catalog, shelf.site)]
    looks = [File(f"assets/{asset.name}", asset.read_bytes()) for asset in assets]
    looks += [File(uri, content) for uri, content in styles.files()]
    return [*records, *plots, *postures, *kept, *working, *moved, *_schemas(), *looks]


def _schemas() -> list[File]:
    """JSON Schema of each kind of catalog file, for editors and for whoever reads the data."""
    return [File(f"data/schema/{kind}.json", (json.dumps(json_schema.schema(kind), indent=2, ensure_ascii=False) + "\n").encode())
            for kind in json_schema.KINDS]


def _declare(shelf: Shelf) -> None:
    """Every page and anchor, before the first link is made."""
    catalog, add = shelf.catalog, shelf.addresses.add
    for uri, anchors in WRITTEN.items():
        add(uri, anchors)
    for uri in INDEXES.values():
        add(uri, ["top"])
    add(programme.URI, programme.anchors(shelf))
    add(tour.URI, tour.anchors(shelf))
    add("gaps.md", list(gaps.SECTIONS))
    add("rules.md", rules.anchors())
    for id in catalog.exercises:
        add(f"exercises/{id}.md", exercise.anchors(shelf, id))
    for id in catalog.muscles:
        add(f"muscles/{id}.md", muscle.anchors(shelf, id))
    for key in catalog.references:
        add(f"sources/{key}.md", source.anchors(shelf, key))
        add(f"sources/{key}.bib")
    add(share.SCRIPT)
    for id in catalog.exercises:
        if exercise.cited(shelf, id):
            add(share.bibtex_uri(id))
    for uri in [*plot_file.uris(shelf), *map(figure_file.uri, catalog.exercises), *handout_page.uris()]:
        add(uri)
    for id in catalog.exercises:
        for uri in cue_sheet.uris(id, shelf.site):
            add(uri)
    for uri in planner.uris():
        add(uri, ["top"] if uri.endswith(".md") else None)
    add(handout_page.PAGE, handout_page.anchors(catalog.exercises))
    add(offline.KEEP, list(catalog.exercises))
    add(offline.KEEP_SCRIPT)
    add(offline.WORKER)
    for kind in json_schema.KINDS:
        add(f"data/schema/{kind}.json")
