"""Links are relative, and a link to nowhere cannot be made."""

from __future__ import annotations

from urllib.parse import urljoin

import pytest

from build_tools.site.addresses import Addresses, UnknownTarget, above, url

URIS = [
    "index.md",
    "rules.md",
    "exercises/index.md",
    "exercises/a-curl.md",
    "muscles/ham.md",
    "sources/a2020.bib",
]


@pytest.mark.parametrize("here", [u for u in URIS if u.endswith(".md")])
@pytest.mark.parametrize("to", URIS)
def test_links_resolve_as_browsers_resolve_them(here: str, to: str) -> None:
    """Outside check: RFC 3986 resolution by the standard library's ``urljoin``."""
    addresses = Addresses()
    for uri in URIS:
        addresses.add(uri, ["top"] if uri.endswith(".md") else None)
    base = "https://example.org/book/"
    assert urljoin(base + url(here), addresses.href(here, to)) == base + url(to)


def test_unknown_pages_and_anchors_raise() -> None:
    addresses = Addresses()
    addresses.add("rules.md", ["top"])
    assert addresses.href("rules.md", "rules.md", "top") == "#top"
    with pytest.raises(UnknownTarget, match="no page"):
        addresses.href("rules.md", "exercises/none.md")
    with pytest.raises(UnknownTarget, match="rules.md#bottom"):
        addresses.href("rules.md", "rules.md", "bottom")
    with pytest.raises(ValueError, match="twice"):
        addresses.add("other.md", ["top", "top"])


@pytest.mark.parametrize(
    ("uri", "expected"),
    [
        ("index.md", []),
        ("rules.md", []),
        ("exercises/index.md", []),
        ("exercises/a-curl.md", ["exercises/index.md"]),
        ("muscles/calf/soleus.md", ["muscles/index.md", "muscles/calf.md"]),
    ],
)
def test_what_stands_above_a_page(uri: str, expected: list[str]) -> None:
    pages = {"index.md", "rules.md", "exercises/index.md", "muscles/index.md", "muscles/calf.md"}
    assert [found for found in above(uri) if found in pages] == expected
