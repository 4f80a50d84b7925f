"""What has a name: the invented demo catalog, place by place."""

from __future__ import annotations

import shipped_made
from folders import DEMO
from site_building import render

from build_tools.catalog.load import load
from build_tools.site.book import Book
from build_tools.site.search.named import KINDS, NamedPlace, named_places
from build_tools.site.search.texts import page_text


def of_book(book: Book) -> list[NamedPlace]:
    return named_places(book.shelf, [page_text(page.uri, page.text) for page in book.pages])


def test_exercises_parts_muscles_pages_and_sources_are_places() -> None:
    places = {place.address: place for place in of_book(render(load(DEMO, "catalog")))}
    crate = places["exercises/crate-curl/"]
    assert (KINDS[crate.kind], crate.title) == ("Exercise", "Crate curl")
    assert "seated lamp curl" in crate.others and "wooden crate" in crate.note
    parts = [place for place in places.values() if KINDS[place.kind] == "Part"]
    assert "Long lamper; Lantern muscle" in [place.note for place in parts]
    assert KINDS[places["muscles/lantern/"].kind] == "Muscle"
    assert KINDS[places["sources/wick2030/"].kind] == "Source"
    assert places["gaps/#untested"].note == places["gaps/"].title
    assert KINDS[places["find/"].kind] == "Page"


def test_every_concern_of_the_shipped_catalog_has_its_place_on_the_page_of_cautions() -> None:
    book = shipped_made.book()
    addresses = {place.address for place in of_book(book) if KINDS[place.kind] == "Caution"}
    assert addresses == {f"cautions/#concern-{id}" for id in shipped_made.vocabulary().concerns}
    page = book.fill("cautions.md", book.written["cautions.md"])
    assert all(f'id="{address.partition("#")[2]}"' in page for address in addresses)


def test_rules_for_contributors_are_found_by_the_page_alone() -> None:
    addresses = [place.address for place in of_book(shipped_made.book())]
    assert "rules/" in addresses
    assert not [address for address in addresses if address.startswith("rules/#")]
