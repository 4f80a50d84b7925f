"""The words of a page: what a reader sees, word by word (UAX 29's simple case: letters and digits), and nothing that is left out."""

from __future__ import annotations

import re
from html.parser import HTMLParser

import markdown
import shipped_made

from build_tools.site.search.texts import page_text, shown, words

PAGE = """---
title: Lamps
description: Of lamps.
section: muscles
---

# Lamps {#top}

<dl><div><dt>Kind</dt> <dd>Wooden<b>Crate</b></dd></div></dl>
<aside data-search-exclude><p>unheard <b>of</b></p><aside>still</aside></aside>
<svg><text>drawn</text></svg>

## How to light it {#light}

[Wicks](wicks.md) and &amp; 45° <!-- handbook: hidden --> Übung.
"""


def test_a_page_is_read_section_by_section() -> None:
    page = page_text("lamps.md", PAGE)
    assert (page.title, page.description, page.is_entry) == ("Lamps", "Of lamps.", True)
    found = {section.heading: (section.anchor, section.words) for section in page.sections}
    assert found["How to light it"] == (
        "light",
        ("how", "to", "light", "it", "wicks", "and", "45", "ubung"),
    )
    assert found[""] == (None, ("kind", "wooden", "crate"))


def test_elements_part_words_and_apostrophes_do_not() -> None:
    assert words(shown("<li>seated</li><li>row</li> the farmer’s <i>walk</i>")) == (
        "seated",
        "row",
        "the",
        "farmers",
        "walk",
    )


def test_words_do_not_run_together_in_the_shipped_pages() -> None:
    joined = {
        word
        for page in shipped_made.book().pages[::9]
        for word in re.findall(r"\b[a-z]{3,}[A-Z][a-z]{2,}", shown(page.text))
    }
    assert joined <= {"joinMap"}, joined


class Excluded(HTMLParser):
    """Tags that stand inside an element of their own tag which the search leaves out."""

    def __init__(self, html: str) -> None:
        super().__init__()
        self.open: list[tuple[str, bool]] = []
        self.left_open: set[str] = set()
        self.feed(html)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        if tag not in ("br", "hr", "img", "input"):
            self.open.append((tag, "data-search-exclude" in dict(attrs)))

    def handle_endtag(self, tag: str) -> None:
        if self.open.pop()[0] != tag:
            self.left_open.add(tag)


def test_every_element_of_a_page_is_closed() -> None:
    """Else what is left out would go on to the end of the page."""
    for page in shipped_made.book().pages[::9]:
        html = markdown.markdown(page.text.split("\n---\n", 1)[1], extensions=["attr_list", "toc"])
        assert Excluded(html).left_open == set(), page.uri
