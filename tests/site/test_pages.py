"""The demo catalog's pages, word for word.

After a wanted change run ``GOLDEN=write pytest tests/site/test_pages.py`` and
read the difference before committing it.
"""

from __future__ import annotations

import os
import re
from pathlib import Path

import pytest

from build_tools.site.book import Book

GOLDEN = Path(__file__).with_name("golden")
PAGES = [
    "exercises/crate-curl.md",
    "exercises/cable-curl.md",
    "muscles/lantern.md",
    "muscles/lantern/long-head.md",
    "muscles/lantern/short-head.md",
    "sources/wick2030.md",
    "exercises/index.md",
    "muscles/index.md",
    "sources/index.md",
    "programme.md",
    "taught.md",
    "gaps.md",
]


@pytest.mark.parametrize("uri", PAGES)
def test_page_reads_as_expected(demo_book: Book, uri: str) -> None:
    text = next(page.text for page in demo_book.pages if page.uri == uri)
    path = GOLDEN / uri.replace("/", "-")
    if os.environ.get("GOLDEN") == "write":
        path.parent.mkdir(exist_ok=True)
        path.write_text(text, encoding="utf-8")
    assert text == path.read_text(encoding="utf-8")


def test_growth_and_activation_stand_apart(demo_book: Book) -> None:
    """No outcome section of any page speaks of both."""
    for page in demo_book.pages:
        for section in page.text.split('<section class="hb-outcome">')[1:]:
            section = section.partition("</section>")[0]
            kind = section.partition("</p>")[0]
            if "Activation in one session" in kind:
                assert "It does not show growth." in kind
                assert "Growth of" not in section
            if "Growth after weeks" in kind:
                assert "EMG" not in section and "ctivity of" not in section


def test_what_looks_like_a_heading_is_one(shipped_site: Path) -> None:
    """WCAG 2.2, 1.3.1: who goes from heading to heading hears each. On an exercise's page the lines inside a claim are none, as the claim is not."""
    lines = [
        (path.relative_to(shipped_site).parts[0], tag, role)
        for path in shipped_site.rglob("*.html")
        if path.relative_to(shipped_site).parts[0] != "exercises"
        for tag, role in re.findall(
            r'<(\w+) class="hb-subhead"( role="heading")?', path.read_text(encoding="utf-8")
        )
    ]
    assert {door for door, _, _ in lines} >= {"muscles", "gaps", "methods", "cautions"}
    assert [door for door, tag, role in lines if tag == "p" and not role] == []
