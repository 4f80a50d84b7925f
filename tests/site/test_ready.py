"""A page made ready is what Python-Markdown, an independent reader of Markdown, makes of all its text."""

from __future__ import annotations

import re

import markdown
import shipped_made

from build_tools.site.ready import HeadingConverter, Sheets, squeezed

EXTENSIONS = ["toc", "tables", "fenced_code", "attr_list", "md_in_html"]
CONFIGS = {"toc": {"toc_depth": 3}}


def same(text: str) -> str:
    return re.sub(r"\n+", "\n", text)


def test_every_generated_page_is_what_markdown_makes_of_it() -> None:
    book = shipped_made.book()
    converter = HeadingConverter(EXTENSIONS, CONFIGS)
    for page in book.pages:
        text = page.text.split("---\n", 2)[2]
        reader = markdown.Markdown(extensions=EXTENSIONS, extension_configs=CONFIGS)
        whole, ready = reader.convert(text), converter.convert(text)
        assert same(ready.html) == same(whole), page.uri
        assert list(ready.toc) == reader.toc_tokens, page.uri
        assert ready.anchors == set(re.findall(r'\bid="([^"]+)"', whole)), page.uri


def test_a_comment_in_an_example_is_no_heading() -> None:
    text = "# Lamps {#top}\n\n<pre>\n# a comment\n</pre>\n"
    ready = HeadingConverter(EXTENSIONS, CONFIGS).convert(text)
    assert ready.html == '<h1 id="top">Lamps</h1>\n\n<pre>\n# a comment\n</pre>'
    assert [token["name"] for token in ready.toc] == ["Lamps"]


def test_a_squeezed_page_shows_the_same() -> None:
    """HTML's white space: outside of `pre` any run of blanks shows as one (CSS Text 3, 4.1.1)."""
    page = (
        "<p>\n   a <b>b</b>\n\n  c</p>\n<pre>\n  x\n\n  y</pre>\n\n<script>\n  let a;\n</script>\n"
    )
    assert squeezed(page) == (
        "<p>\na <b>b</b>\nc</p>\n<pre>\n  x\n\n  y</pre>\n<script>\n  let a;\n</script>\n"
    )


def test_a_page_keeps_the_stylesheets_that_have_a_rule_for_it() -> None:
    """In Chromium every page type is held against the rules that it does not load (``whole/test_weight.py``)."""
    sheets = Sheets(
        {
            "assets/first.css": ".hb-lamp { color: red } .hb-wick {}",
            "assets/lamps.css": "/* .hb-wick */ @media print { .hb-lamp[hidden], .hb-lamp > .hb-oil:not(.hb-dry) {} }",
            "assets/wicks.css": ".md-typeset :is(.hb-any, .hb-thing) { color: blue } .hb-wick--long { top: 0 }",
        }
    )
    links = [
        f'<link rel="stylesheet" href="{address}">'
        for address in (
            "../assets/first.css",
            "../assets/lamps.css",
            "../assets/wicks.css",
            "mine.css",
        )
    ]

    def kept(body: str) -> list[int]:
        lean = sheets.lean("\n".join([*links, body]))
        return [n for n, link in enumerate(links) if link in lean]

    assert kept("<p>") == [0, 3]
    assert kept('<p class="hb-lamp hb-wick">') == [0, 3]
    assert kept('<p class="hb-lamp"><b class="a hb-oil">') == [0, 1, 3]
    assert kept('<p class="hb-wick hb-wick--long">') == [0, 2, 3]
