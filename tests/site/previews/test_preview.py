"""Open Graph in the head of every page, read by lxml (libxml2's HTML reader, independent of the writer).

The properties are those of https://ogp.me, as pages that quote it have them: title, type, image and url are required of every page;
an image has the structured properties type, width, height and alt; site_name and description are optional.
"""

from __future__ import annotations

from pathlib import Path
from urllib.parse import urlsplit

import pytest
from folders import DEMO
from lxml import html
from PIL import Image
from site_building import build, configuration

ADDRESS = "https://lantern.example/handbook/"
REQUIRED = {"og:title", "og:type", "og:image", "og:url"}
KNOWN = REQUIRED | {
    "og:description",
    "og:site_name",
    "og:image:type",
    "og:image:width",
    "og:image:height",
    "og:image:alt",
}


@pytest.fixture(scope="module")
def published(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The demo site, built for a known address."""
    return build(configuration(tmp_path_factory.mktemp("previews"), DEMO, site_url=ADDRESS))


def heads(site: Path) -> dict[str, tuple[dict[str, str], list[str]]]:
    """Page -> its Open Graph properties, each once, and its canonical addresses."""
    found = {}
    for path in sorted(site.rglob("*.html")):
        # What scripts fill is no page, and slides are a file to take along.
        if path.name == "404.html" or path.parent.name in ("data", "slides"):
            continue
        page = html.fromstring(path.read_text(encoding="utf-8"))
        tags = [(e.get("property"), e.get("content")) for e in page.xpath("//head/meta[@property]")]
        assert len(dict(tags)) == len(tags), path
        links = page.xpath("//head/link[@rel='canonical']/@href")
        found[path.relative_to(site).as_posix()] = dict(tags), links
    return found


def test_every_page_has_what_the_protocol_requires_and_nothing_it_does_not_know(
    published: Path,
) -> None:
    made = heads(published)
    assert {
        "index.html",
        "cues/crate-curl/index.html",
        "handout/index.html",
        "keep/index.html",
    } <= set(made)
    for page, (tags, canonical) in made.items():
        assert set(tags) >= REQUIRED and set(tags) <= KNOWN, page
        assert all(value.strip() for value in tags.values()), page
        assert tags["og:type"] in ("website", "article")
        assert [tags["og:url"]] == canonical == [ADDRESS + page.removesuffix("index.html")]
        assert urlsplit(tags["og:image"]).scheme == "https"
        image = Image.open(published / tags["og:image"].removeprefix(ADDRESS))
        assert [str(n) for n in image.size] == [tags["og:image:width"], tags["og:image:height"]]
        assert tags["og:image:type"] == Image.MIME[str(image.format)]
        assert tags["og:site_name"] == "Lantern Yard handbook"


def test_entries_are_articles_told_in_their_own_words(published: Path) -> None:
    made = heads(published)
    curl, sheet = made["exercises/crate-curl/index.html"][0], made["cues/crate-curl/index.html"][0]
    assert curl["og:type"] == "article" and curl["og:title"] == "Crate curl"
    assert curl["og:description"].startswith("Trains ")
    assert sheet["og:image"] == curl["og:image"] and sheet["og:title"] == "Crate curl: how to do it"
    part = made["muscles/lantern/long-head/index.html"][0]
    assert part["og:description"].startswith("Choose: crate curl.")
    assert (
        made["index.html"][0]["og:type"] == made["exercises/index.html"][0]["og:type"] == "website"
    )


def test_without_an_address_nothing_claims_to_be_absolute(demo_site: Path) -> None:
    assert not (demo_site / "previews").exists()
    for page, (tags, _) in heads(demo_site).items():
        assert {"og:title", "og:type", "og:description"} <= set(tags), page
        assert not {name for name in tags if name == "og:url" or name.startswith("og:image")}, page
