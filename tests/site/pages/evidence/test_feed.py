"""The feed of moved statements: read by feedparser, held to the grammar of RFC 4287 by lxml."""

from __future__ import annotations

import shutil
from dataclasses import replace
from pathlib import Path
from urllib.parse import urlsplit
from uuid import UUID

import feedparser
import markdown
import pytest
import yaml
from folders import DEMO
from hostile import HOSTILE
from hypothesis import given, settings
from lxml import etree, html

from build_tools.catalog.load import Catalog, load
from build_tools.checks.profile import load_profile
from build_tools.committed import record
from build_tools.evidence.claims.conclude import conclude
from build_tools.site import book
from build_tools.site.book import Book
from build_tools.site.context import RenderContext
from build_tools.site.pages.evidence import changes, feed
from build_tools.site.publication import Publication

GRAMMAR = etree.RelaxNG(etree.parse(Path(__file__).with_name("atom.rng")))
ATOM = "{http://www.w3.org/2005/Atom}"


def content(made: Book) -> bytes:
    return next(file.content for file in made.files if file.uri == changes.FEED)


@pytest.fixture(scope="module")
def demo() -> Catalog:
    return load(DEMO, "catalog")


def published(catalog: Catalog, address: str | None) -> bytes:
    made = book.render(catalog, conclude(catalog), load_profile(), Publication(address))
    return content(made)


@pytest.mark.parametrize("address", [None, "https://handbook.example/", "https://e.example/a/b"])
def test_the_grammar_of_the_standard_holds(demo: Catalog, address: str | None) -> None:
    GRAMMAR.assertValid(etree.fromstring(published(demo, address)))


def test_the_grammar_can_fail(demo: Catalog) -> None:
    """Section 4.1.1: a feed has one id, one title and one day; so has an entry (4.1.2)."""
    for missing in ("id", "title", "updated"):
        for at in ("", f"{ATOM}entry/"):
            tree = etree.fromstring(published(demo, None))
            element = tree.find(f"{at}{ATOM}{missing}")
            element.getparent().remove(element)
            assert not GRAMMAR.validate(tree)


def test_a_reader_finds_each_day_newest_first(demo: Catalog) -> None:
    read = feedparser.parse(published(demo, "https://handbook.example/"))
    assert not read.bozo and read.version == "atom10"
    assert [(e.title, e.updated) for e in read.entries] == [
        ("1 statement moved on 1 November 2026: 1 weaker.", "2026-11-01T00:00:00Z"),
        ("1 statement moved on 1 October 2026: 1 firmer.", "2026-10-01T00:00:00Z"),
    ]
    assert read.feed.updated == "2026-11-01T00:00:00Z"
    assert read.entries[0].link == "https://handbook.example/changes/#day-2026-11-01"
    assert [(link.rel, link.href) for link in read.feed.links] == [
        ("self", "https://handbook.example/changes.atom"),
        ("alternate", "https://handbook.example/changes/"),
    ]
    told = read.entries[0].content[0].value
    assert "The crate curl may grow the long head more." in told and "lamps" in told


def test_links_are_absolute_or_absent(demo: Catalog) -> None:
    for address in (None, "https://handbook.example/a/"):
        tree = etree.fromstring(published(demo, address))
        links = [link.get("href") for link in tree.iter(f"{ATOM}link")]
        for entry in tree.iter(f"{ATOM}content"):
            links += html.fromstring(f"<div>{entry.text}</div>").xpath("//a/@href")
        assert bool(links) == bool(address)
        assert all(urlsplit(link)[:2] == ("https", "handbook.example") for link in links)


def ids(xml: bytes) -> list[str]:
    return [element.text or "" for element in etree.fromstring(xml).iter(f"{ATOM}id")]


def test_ids_are_the_same_wherever_it_is_published(demo: Catalog, tmp_path: Path) -> None:
    """RFC 4287, 4.2.6: an id stays when the feed moves; ours are UUIDs of version 5 (RFC 4122, 4.3)."""
    found = ids(published(demo, None))
    assert found == ids(published(demo, "https://other.example/")) and len(set(found)) == 3
    assert {UUID(id).version for id in found} == {5}
    root = Path(shutil.copytree(DEMO, tmp_path / "catalog"))
    text = (root / record.FILE).read_text()
    (root / record.FILE).write_text(text + '  - day: "2026-11-20"\n    note: "Another day."\n')
    assert set(found) < set(ids(published(load(root, "catalog"), None)))


def test_a_feed_without_days_is_a_feed(tmp_path: Path) -> None:
    """Its day is then that of the last review, as one is demanded."""
    root = Path(shutil.copytree(DEMO, tmp_path / "catalog"))
    (root / record.FILE).unlink()
    tree = etree.fromstring(published(load(root, "catalog"), None))
    GRAMMAR.assertValid(tree)
    assert tree.findtext(f"{ATOM}updated") == "2026-11-01T00:00:00Z"
    assert tree.find(f"{ATOM}entry") is None


def test_an_entry_is_no_longer_than_its_limit(
    demo: Catalog, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(feed, "STATEMENTS", 0)
    monkeypatch.setattr(feed, "DAYS", 1)
    [entry] = feedparser.parse(published(demo, None)).entries
    assert "And 1 more." in entry.content[0].value


def with_text(shelf: RenderContext, folder: Path, text: str) -> RenderContext:
    """The demo's shelf over a record whose sentences hold a text."""
    kept = yaml.safe_load((DEMO / record.FILE).read_text())
    for day in kept["days"]:
        for move in day["moved"]:
            for told in (move["before"], move["now"]):
                told["sentence"] = f"a{text}z {told['sentence']}"
    (folder / record.FILE).write_text(yaml.safe_dump(kept))
    shutil.copy(DEMO / "addresses.txt", folder)
    catalog = replace(shelf.catalog, root=folder)
    assert record.read(catalog) and record.find(catalog) == []
    return replace(shelf, catalog=catalog, _worked_out={})


def structure(element: html.HtmlElement) -> list[tuple[str, list[str]]]:
    return [(one.tag, sorted(one.keys())) for one in element.iter()]


def shown(shelf: RenderContext) -> list[list[tuple[str, list[str]]]]:
    """The elements of every entry and of the page."""
    tree = etree.fromstring(feed.feed(shelf))
    GRAMMAR.assertValid(tree)
    page = markdown.markdown(
        changes.text(shelf).split("\n---\n", 1)[1], extensions=["attr_list", "toc"]
    )
    texts = [*(entry.text for entry in tree.iter(f"{ATOM}content")), page]
    return [structure(html.fromstring(f"<div>{text}</div>")) for text in texts]


@settings(max_examples=60, deadline=None)
@given(text=HOSTILE)
def test_hostile_text_stays_text(
    demo_book: Book, tmp_path_factory: pytest.TempPathFactory, text: str
) -> None:
    """In the feed, in the HTML that a reader shows of it, and on the page: the elements are those of a harmless text."""
    folder = tmp_path_factory.mktemp("hostile")
    harmless = shown(with_text(demo_book.shelf, folder, "a"))
    assert shown(with_text(demo_book.shelf, folder, text)) == harmless
