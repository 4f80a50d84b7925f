"""The JSON-LD: expanded by pyld without a network, every term one of schema.org's, every link within the set or a page."""

from __future__ import annotations

import json
import re
from collections import Counter
from collections.abc import Iterator
from html.parser import HTMLParser
from typing import Any

import markdown
import pytest
import schema_org
from folders import DEMO
from hostile import HOSTILE, poisoned
from hypothesis import given, settings
from pyld import jsonld
from site_building import render

from build_tools.catalog.load import load
from build_tools.checks.profile import load_profile
from build_tools.evidence.claims.conclude import conclude
from build_tools.site import book
from build_tools.site.book import Book
from build_tools.site.dataset import edition, linked, whole
from build_tools.site.publication import Publication

SITE = "https://handbook.example/a/"


def offline(url: str, _: object) -> dict[str, Any]:
    """The one context that the data name."""
    assert url == "https://schema.org/", "nothing else may be loaded"
    return {
        "contextUrl": None,
        "documentUrl": url,
        "contentType": "application/ld+json",
        "document": schema_org.context(),
    }


def expanded(document: object, base: str) -> list[dict[str, Any]]:
    found: list[dict[str, Any]] = jsonld.expand(document, {"base": base, "documentLoader": offline})
    return found


@pytest.fixture(scope="module")
def published() -> Book:
    catalog = load(DEMO, "catalog")
    return book.render(catalog, conclude(catalog), load_profile(), Publication(SITE))


def graph(made: Book) -> list[dict[str, Any]]:
    text = next(file.content for file in made.files if file.uri == linked.FILE)
    return expanded(json.loads(text), f"{SITE}{linked.FILE}")


def nodes(value: Any) -> Iterator[dict[str, Any]]:
    if isinstance(value, list):
        for item in value:
            yield from nodes(item)
    elif isinstance(value, dict):
        if "@value" not in value:
            yield value
        for item in value.values():
            yield from nodes(item)


def keys(value: Any) -> int:
    """How many names a document has, the context and JSON-LD's own apart."""
    if isinstance(value, list):
        return sum(map(keys, value))
    if not isinstance(value, dict):
        return 0
    own = {k: v for k, v in value.items() if k != "@context"}
    return sum(not k.startswith("@") for k in own) + sum(map(keys, own.values()))


def test_no_name_is_lost_in_the_expansion(published: Book) -> None:
    """JSON-LD 1.1, API, 5.1: a name that the context does not know is dropped. So each one is in the list of schema.org's."""
    document = json.loads(next(f.content for f in published.files if f.uri == linked.FILE))
    found = expanded(document, SITE)
    assert keys(found) == keys(document["@graph"]) > 50


def test_a_name_that_schema_org_has_not_is_seen() -> None:
    document = {"@context": "https://schema.org/", "@type": "Claim", "text": "a", "grade": "b"}
    assert keys(expanded(document, SITE)) == 1


def test_every_property_belongs_to_its_type(published: Book) -> None:
    for node in nodes(graph(published)):
        for type in node.get("@type", []):
            name = type.removeprefix(schema_org.VOCABULARY)
            own = {key.removeprefix(schema_org.VOCABULARY) for key in node if key[0] != "@"}
            assert own <= schema_org.TYPES[name], name


def test_it_holds_the_whole_catalog(published: Book) -> None:
    catalog = published.shelf.catalog
    count = Counter(type for node in nodes(graph(published)) for type in node.get("@type", []))
    told = {name.removeprefix(schema_org.VOCABULARY): number for name, number in count.items()}
    parts = sum(len(entry.data.parts) for entry in catalog.muscles.values())
    assert told["DefinedTerm"] == len(catalog.exercises)
    assert (told["Muscle"], told["AnatomicalStructure"]) == (len(catalog.muscles), parts)
    assert told["Claim"] == sum(len(entry.data.emphasis) for entry in catalog.exercises.values())
    assert told["ScholarlyArticle"] == len(catalog.references)
    assert "Rating" not in told and "ClaimReview" not in told


def test_every_link_leads_to_a_page_or_a_file(published: Book) -> None:
    pages = {
        page.uri.removesuffix("index.md").removesuffix(".md") + "/" for page in published.pages
    }
    pages = {page.replace("//", "/") for page in pages}
    files = {file.uri for file in published.files}
    found = [node["@id"] for node in nodes(graph(published)) if "@id" in node]
    ours = {id.partition("#")[0].removeprefix(SITE) for id in found if id.startswith(SITE)}
    assert len(ours) > 10 and ours <= pages | files
    assert not [id for id in found if ":" not in id], "nothing stays relative"
    outside = {id for id in found if not id.startswith(SITE)}
    assert all(re.match(r"https://(doi\.org|creativecommons\.org)/", id) for id in outside)


def test_without_an_address_links_are_from_where_the_file_is(demo_book: Book) -> None:
    """JSON-LD 1.1, 4.1.3: a relative base is resolved against the document's address, here that of a server nobody told us of."""
    text = next(f.content for f in demo_book.files if f.uri == linked.FILE)
    found = expanded(json.loads(text), f"http://127.0.0.1/sub/{linked.FILE}")
    ids = {node["@id"] for node in nodes(found) if "@id" in node}
    assert "http://127.0.0.1/sub/exercises/crate-curl/" in ids


def test_a_claim_is_about_its_exercise_and_cites_what_was_weighed(published: Book) -> None:
    claims = {claim["claim"]: claim for claim in whole.claims(published.shelf)}
    node = next(n for n in graph(published) if n["@id"] == f"{SITE}exercises/crate-curl/#claim-1")

    def ids(name: str) -> list[str]:
        return [one["@id"] for one in node[f"{schema_org.VOCABULARY}{name}"]]

    assert ids("about") == [
        f"{SITE}exercises/crate-curl/",
        f"{SITE}muscles/lantern/long-head/",
    ]
    assert ids("citation") == [f"{SITE}sources/wick2030/"]
    [text] = node[f"{schema_org.VOCABULARY}text"]
    assert text["@value"] == claims["crate-curl/1"]["sentence"]


class Scripts(HTMLParser):
    """The elements of a page, and what its scripts hold, as a browser's parser takes them apart."""

    def __init__(self, text: str) -> None:
        super().__init__()
        self.tags: list[str] = []
        self.held: list[str] = []
        self._inside = False
        self.feed(text)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append(tag)
        self._inside = tag == "script" and ("type", "application/ld+json") in attrs

    def handle_endtag(self, tag: str) -> None:
        self._inside = False

    def handle_data(self, data: str) -> None:
        if self._inside:
            self.held.append(data)


def on_page(made: Book) -> Scripts:
    text = next(page.text for page in made.pages if page.uri == edition.URI)
    return Scripts(
        markdown.markdown(text.split("\n---\n", 1)[1], extensions=["attr_list", "md_in_html"])
    )


def test_the_page_carries_the_set(published: Book) -> None:
    [text] = on_page(published).held
    [node] = expanded(json.loads(text), f"{SITE}data/")
    [listed] = [n for n in graph(published) if n["@id"] == f"{SITE}data/"]
    assert node == listed


@settings(max_examples=15, deadline=None)
@given(text=HOSTILE)
def test_hostile_text_stays_text(text: str) -> None:
    """No text ends the element around it, and it comes back as it was."""
    text = "a" + text + "a</script><script>alert(1)</script><!--"
    made = render(poisoned(load(DEMO), text))
    page = on_page(made)
    assert page.tags == on_page(render(poisoned(load(DEMO), "a"))).tags
    [held] = page.held
    assert json.loads(held)["description"] == made.shelf.handbook.tagline
    assert json.loads(held)["description"].endswith(text)
    graph = json.loads(next(f.content for f in made.files if f.uri == linked.FILE))["@graph"]
    assert graph[0]["description"].endswith(text)
