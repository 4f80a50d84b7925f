"""Markdown for a summary: what the catalog holds stays text. Read by Python-Markdown and lxml, which know nothing of us."""

from __future__ import annotations

import re
from pathlib import Path

import lxml.html
import markdown
import pytest
from repositories import Clone

from build_tools.revisions import difference
from build_tools.revisions.difference import CatalogDifference, FileDifference
from build_tools.revisions.history import History
from build_tools.revisions.reports import markdown as report
from build_tools.revisions.reports import render
from build_tools.revisions.snapshot import NOW, Snapshot

#: All that a summary consists of.
ELEMENTS = {"div", "h3", "h4", "ul", "li", "p", "strong", "em", "details", "summary"}
#: GitHub's documentation, "Adding a job summary": a step's summary holds at most 1 MiB.
LIMIT = 1024 * 1024

HOSTILE = [
    "<script>alert(1)</script>",
    "</details><img src=x onerror=alert(1)>",
    "**bold** _it_ ~~out~~ `code`",
    "[link](https://evil.example) ![i](https://evil.example/i.png)",
    "https://evil.example www.evil.example a@evil.example",
    "1. one",
    "- item",
    "# heading",
    "> quote",
    "---",
    "| a | b |",
    "::error file=x::stop",
    "::stop-commands::x",
    "##[error]stop",
    "&lt;b&gt; &#60;b&#62;",
    "@everyone #1 GH-1",
    "\\*escaped\\*",
    "a\u202eb\u200bc\x1b[31m",
    "{{ 7*7 }} ${{ secrets.X }}",
    "*" * 300,
]


def read(text: str) -> lxml.html.HtmlElement:
    """The summary as HTML; what is folded is read as Markdown, too, as GitHub does after an empty line."""
    opened = text.replace("<details>", '<details markdown="1">')
    html = markdown.markdown(opened, extensions=["md_in_html", "tables", "fenced_code"])
    return lxml.html.fragment_fromstring(html, create_parent="div")


@pytest.fixture
def clone(demo: Path) -> Clone:
    return Clone(demo.parent)


def compared(clone: Clone, target: Path) -> CatalogDifference:
    history = History.around(clone.catalog)
    revision = history.revision("HEAD")
    history.unpack(revision, target)
    return difference.authored(Snapshot(target, str(revision)), Snapshot(clone.catalog, NOW))


@pytest.mark.parametrize("text", HOSTILE)
def test_hostile_text_stays_text(clone: Clone, tmp_path: Path, text: str) -> None:
    """In a name, a cue, a title and the name of a file, added and changed; these catalogs pass no check."""
    quoted = "'" + text.replace("'", "''") + "'"
    if not text.isprintable():
        quoted = '"' + text.encode("unicode_escape").decode().replace('"', '\\"') + '"'
    clone.edit("exercises/crate-curl.yaml", ("name: Crate curl", f"name: {quoted}"))
    clone.edit("exercises/cable-curl.yaml", ("do: Stand close to the post.", f"do: {quoted}"))
    (clone.catalog / "exercises" / "new-curl.yaml").write_text(
        f"name: {quoted}\n", encoding="utf-8"
    )
    clone.edit("references.bib", ("title = {Slumped and standing curls}", f"title = {{{text}}}"))
    found = compared(clone, tmp_path / "old")
    found.files.append(FileDifference(text, (text,)))
    found.notes.append(text)
    shown = render(found, "markdown")
    tree = read(shown)
    assert {element.tag for element in tree.iter()} <= ELEMENTS
    assert not [element for element in tree.iter() if element.attrib]
    plain = text if text.isprintable() else "c\\x1b[31m"
    if text not in ("*" * 300,):
        assert " ".join(plain.split()) in " ".join(tree.text_content().split())
    # A runner reads a line that begins with :: as a command, and ##[ anywhere (actions/runner, ActionCommand.cs).
    for lines in (shown, render(found, "text")):
        assert not re.search(r"^\s*::|##\[", lines, re.MULTILINE)
    assert "www." not in shown and "://" not in shown


def test_the_parser_would_have_seen_markup(tmp_path: Path) -> None:
    """The same texts unescaped: what the test above shows is not that the parser is blind."""
    seen = {element.tag for text in HOSTILE for element in read(f"- {text}\n").iter()}
    assert seen >= {"script", "img", "a", "code", "ol", "h1", "blockquote", "hr"}


def test_a_huge_difference_fits_and_says_that_it_was_cut(clone: Clone, tmp_path: Path) -> None:
    found = compared(clone, tmp_path / "old")
    many = [f"/exercises/e{number}/" for number in range(5000)]
    found.notes += ["ü" * 200] * 5000
    found.new_addresses = many
    shown = render(found, "markdown")
    assert len(shown.encode()) <= report.MAX_BYTES + 200 < LIMIT
    assert "`handbook diff`" in shown
    found.notes.clear()
    shown = render(found, "markdown")
    assert "And 4,960 more." in shown and "/exercises/e39/" in shown and "e40/" not in shown


def test_what_breaks_comes_first_and_the_rest_is_folded(clone: Clone, tmp_path: Path) -> None:
    clone.edit("exercises/cable-curl.yaml", ("do: Stand close to the post.", "do: Stand near."))
    found = compared(clone, tmp_path / "old")
    difference.compare_addresses(found, {"/"})
    tree = read(render(found, "markdown"))
    first = tree.find("h4")
    assert first is not None and first.text == "Addresses that would die"
    folded = [summary.text for summary in tree.iter("summary")]
    assert "Exercises: 1" in folded
    [item] = [li for li in tree.iter("li") if "Standing cable curl" in (li.text_content())]
    assert "Stand close to the post. → Stand near." in item.text_content()
