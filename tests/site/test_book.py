"""The book collects what the modules of the site make: none is forgotten, and every page can link to every other, and every address is known."""

from __future__ import annotations

import importlib
import pkgutil
from inspect import isfunction
from pathlib import Path
from types import SimpleNamespace

import pytest
from folders import DEMO
from site_building import render

import build_tools.site
from build_tools.catalog.load import Catalog, load
from build_tools.site import book
from build_tools.site.addresses import url
from build_tools.site.book import Book, answering
from build_tools.site.resource import Resource


def test_every_module_that_makes_something_is_asked() -> None:
    names = [
        module.name
        for module in pkgutil.walk_packages(build_tools.site.__path__, "build_tools.site.")
        if not module.ispkg
    ]
    makers = {
        name
        for name in names
        if isfunction(getattr(importlib.import_module(name), "resources", None))
    }
    assert makers == {room.__name__ for room in (*book.PAGES, *book.FILES)}  # type: ignore[attr-defined]  # rooms are modules


def test_a_new_page_links_and_is_linked_to(monkeypatch: pytest.MonkeyPatch) -> None:
    """The first page is made before the second is reached, and still knows its anchor."""
    first = Resource("lamps.md", lambda shelf: shelf.at("lamps.md").href("wicks.md", "trimmed"))
    second = Resource("wicks.md", lambda shelf: shelf.at("wicks.md").href("lamps.md"), ["trimmed"])
    monkeypatch.setattr(
        book, "PAGES", (SimpleNamespace(resources=lambda shelf: [first, second]), *book.PAGES)
    )
    made = render(load(DEMO, "catalog"))
    assert [page.text for page in made.pages[:2]] == ["../wicks/#trimmed", "../lamps/"]
    assert {"/lamps/", "/wicks/"} <= book.answering(load(DEMO))


def test_nothing_stands_twice(monkeypatch: pytest.MonkeyPatch) -> None:
    twice = SimpleNamespace(resources=lambda shelf: [Resource("gaps.md", lambda shelf: "")])
    monkeypatch.setattr(book, "FILES", (*book.FILES, twice))
    with pytest.raises(ValueError, match=r"declared twice: gaps\.md"):
        render(load(DEMO, "catalog"))


def test_costly_drawings_are_worked_out_once(monkeypatch: pytest.MonkeyPatch) -> None:
    from build_tools.site.figures import file

    drawn: list[str] = []
    real = file.figure
    monkeypatch.setattr(
        file,
        "figure",
        lambda id, exercise, *others: drawn.append(exercise.name) or real(id, exercise, *others),
    )
    catalog = load(DEMO, "catalog")
    render(catalog)
    assert sorted(drawn) == sorted(entry.data.name for entry in catalog.exercises.values())


def test_it_knows_every_page_that_is_made(demo_site: Path) -> None:
    made = {
        f"/{path.parent.relative_to(demo_site).as_posix()}/".replace("/./", "/")
        for path in demo_site.rglob("index.html")
    }
    assert made == answering(load(DEMO))


def test_a_retired_address_answers(moved: Catalog, moved_book: Book) -> None:
    pages = {url(page.uri) for page in moved_book.pages} | {
        "",
        *(url(uri) for uri in moved_book.written),
    }
    files = {
        file.uri.removesuffix("index.html")
        for file in moved_book.files
        if file.uri.endswith("/index.html")
    }
    assert answering(moved) == {f"/{address}" for address in pages | files}
    assert {
        "/exercises/lamp-curl/",
        "/cues/lamp-curl/",
        "/muscles/lamp/",
        "/muscles/lamp/long-head/",
        "/muscles/lamp/short-head/",
        "/sources/wick2029/",
    } <= answering(moved)
