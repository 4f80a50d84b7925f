"""Every link leads to a file and an id, in the demo site and in the shipped one."""

from __future__ import annotations

from pathlib import Path

from folders import DEMO
from site_reading import Reader, broken_links

from build_tools.catalog.load import load
from build_tools.site.addresses import url
from build_tools.site.book import Book


def test_demo_links(demo_site: Path) -> None:
    assert broken_links(demo_site) == []


def test_shipped_links(shipped_site: Path) -> None:
    assert broken_links(shipped_site) == []


def test_a_broken_link_would_be_seen(tmp_path: Path) -> None:
    (tmp_path / "index.html").write_text(
        '<a href="gone/">x</a><a href="#nowhere">y</a><a id="here" href="#here">z</a>'
    )
    assert broken_links(tmp_path) == ["index.html: gone/", "index.html: #nowhere"]


def test_declared_anchors_exist_once(demo_site: Path, demo_book: Book) -> None:
    for page in demo_book.pages:
        ids = Reader((demo_site / url(page.uri) / "index.html").read_text(encoding="utf-8")).ids
        assert len(ids) == len(set(ids)), page.uri
        assert demo_book.shelf.addresses.anchors(page.uri) <= set(ids), page.uri


def test_sources_link_back_to_everything_that_cites_them(demo_book: Book) -> None:
    catalog, pages = load(DEMO), {page.uri: page.text for page in demo_book.pages}
    for id, entry in catalog.exercises.items():
        for n, claim in enumerate(entry.data.emphasis):
            for citation in claim.cites:
                assert f"../../exercises/{id}/#claim-{n + 1}" in pages[f"sources/{citation.key}.md"]
                assert f"../../sources/{citation.key}/" in pages[f"exercises/{id}.md"]
