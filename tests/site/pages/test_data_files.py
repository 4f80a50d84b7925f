"""The records of all sources as files that other programs read: pybtex BibTeX, rispy RIS, the json module CSL-JSON."""

from __future__ import annotations

import json

import rispy
from pybtex.database import parse_string

from build_tools.site.book import Book
from build_tools.site.pages import data_files


def content(book: Book, uri: str) -> str:
    return next(file.content for file in book.files if file.uri == uri).decode()


def keys(book: Book) -> list[list[str]]:
    """The keys that each form holds, as its reader finds them."""
    bib, ris, csl = (content(book, data_files.uri(form)) for form in ("bib", "ris", "json"))
    return [
        list(parse_string(bib, "bibtex").entries),
        [record["id"] for record in rispy.loads(ris)],
        [item["id"] for item in json.loads(csl)],
    ]


def test_every_form_holds_every_record(demo_book: Book) -> None:
    references = sorted(demo_book.shelf.catalog.references)
    assert [sorted(found) for found in keys(demo_book)] == [references] * 3


def test_pages_offer_them_and_tell_the_licence(demo_book: Book) -> None:
    index, source = (
        next(page.text for page in demo_book.pages if page.uri == uri)
        for uri in ("sources/index.md", "sources/wick2030.md")
    )
    for form in data_files.FORMS:
        assert f'href="../data/references.{form}" download' in index
        link = f'href="../../data/references.{form}" download="wick2030.{form}" data-records="wick2030"'
        assert link in source
    assert f"Licence: {demo_book.shelf.handbook.licence}." in index
