"""The search index holds whole words: terms and values of a list never run together."""

from __future__ import annotations

import json
import re
from html.parser import HTMLParser
from pathlib import Path

import markdown
import shipped_made


def test_words_do_not_run_together(demo_site: Path) -> None:
    docs = json.loads((demo_site / "search" / "search_index.json").read_text(encoding="utf-8"))[
        "docs"
    ]
    run_together = {
        word
        for doc in docs
        for word in re.findall(r"\b[A-Z]?[a-z]+[A-Z][a-z]+", re.sub(r"<[^>]*>", " ", doc["text"]))
    }
    assert run_together <= {"PubMed", "BibTe", "JavaScript"}


def test_other_names_equipment_and_parts_stand_in_the_first_section(demo_site: Path) -> None:
    docs = json.loads((demo_site / "search" / "search_index.json").read_text(encoding="utf-8"))[
        "docs"
    ]
    text = next(doc["text"] for doc in docs if doc["location"] == "exercises/crate-curl/")
    for words in ("seated lamp curl", "Wooden crate", "Lantern muscle", "back of the lamp"):
        assert words in text


class Excluded(HTMLParser):
    """Tags that stand inside an element of their own tag which the search leaves out."""

    def __init__(self, html: str) -> None:
        super().__init__()
        self.open: list[tuple[str, bool]] = []
        self.confusing: set[str] = set()
        self.feed(html)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        if (tag, True) in self.open:
            self.confusing.add(tag)
        if tag not in ("br", "hr", "img", "input"):
            self.open.append((tag, "data-search-exclude" in dict(attrs)))

    def handle_endtag(self, tag: str) -> None:
        self.open.pop()


def test_what_the_search_leaves_out_holds_none_of_its_own_kind() -> None:
    """The theme's search plugin (its ``Element`` compares by tag) would go on inside it, and may stop the build."""
    for page in shipped_made.book().pages:
        html = markdown.markdown(page.text.split("\n---\n", 1)[1], extensions=["attr_list", "toc"])
        assert Excluded(html).confusing == set(), page.uri
