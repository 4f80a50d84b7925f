"""Catalog text is data: whatever it holds, a page has the elements and attributes its template wrote, and no others."""

from __future__ import annotations

import xml.etree.ElementTree as ET
from typing import Any, get_args

import markdown
import pytest
import yaml
from folders import DEMO, ROOT
from hypothesis import given, settings
from hypothesis import strategies as st
from pydantic import BaseModel
from site_building import render
from site_reading import Reader

from build_tools.catalog import entries
from build_tools.catalog.load import Catalog, load
from build_tools.site.escape import front_matter, heading, plain
from build_tools.site.templating import render as render_template

# Pieces that mean something to HTML, Markdown, attribute lists, Jinja or front matter.
PIECES = [
    "<script>alert(1)</script>",
    "<img src=x onerror=alert(1)>",
    "</p>",
    "</details>",
    "-->",
    "<!--",
    "</pre>",
    "&lt;b&gt;",
    "&#60;",
    '"',
    "'",
    "`",
    "```",
    "~~~",
    "# ",
    "\n# ",
    "\n\n## x {#y}",
    "{: onclick=x }",
    "{#top}",
    "[x](javascript:1)",
    "![x](y)",
    "{{ 7*7 }}",
    "{% raw %}",
    "---",
    "\n---\n",
    "|",
    "*",
    "__",
    "\\",
    "\t",
    "<!-- handbook: notice -->",
    "\x02wzxhzdk:0\x03",
    "https://example.org",
    "é",
    "漢",
    "\U0001f600",
    "a",
    " ",
]
HOSTILE = st.lists(
    st.sampled_from(PIECES) | st.text(st.characters(exclude_categories=["Cs"]), max_size=5),
    min_size=1,
    max_size=6,
).map("".join)


def poisoned(catalog: Catalog, text: str) -> Catalog:
    """The catalog with ``text`` added to every free text in it (ids, keys and places of files stay)."""
    vocabulary = catalog.vocabulary.data
    ids = {
        *vocabulary.regions,
        *vocabulary.concerns,
        *vocabulary.equipment,
        *vocabulary.positions,
        *vocabulary.joints,
        *vocabulary.load_points,
        *vocabulary.designs,
        *vocabulary.measures,
        *catalog.exercises,
        *catalog.references,
        *catalog.part_refs(),
        "growth",
        "activation",
        "cable",
        "machine",
        "both",
        "one",
        "direct",
        "indirect",
        "of",
        "against",
        "neither",
        "strength",
        *(arm for study in catalog.studies.values() for arm in study.data.arms),
        *get_args(entries.Test),
        *get_args(entries.Allocation),
        "part",
        "together",
        "whole",
        *vocabulary.versions,
        "foot",
        "shank",
        "thigh",
        "trunk",
        "up",
        "down",
        "this",
        "other",
        "side",
        "front",
        "above",
        "low",
        "mid",
        "high",
        "free-weight",
        "band",
        "body-weight",
        "linear",
    }

    def poison(value: Any) -> Any:
        if isinstance(value, str):
            return value if value in ids else value + text
        if isinstance(value, list):
            return [poison(item) for item in value]
        if isinstance(value, dict):
            return {key: poison(item) for key, item in value.items()}
        if isinstance(value, BaseModel):
            return value.model_copy(
                update={name: poison(getattr(value, name)) for name in type(value).model_fields}
            )
        return value

    for group in (catalog.muscles, catalog.exercises, catalog.studies):
        for entry in group.values():
            object.__setattr__(entry, "data", poison(entry.data))
    for single in (catalog.handbook, catalog.vocabulary, catalog.programme):
        object.__setattr__(single, "data", poison(single.data))
    for reference in catalog.references.values():
        for name in ("title", "journal", "volume", "pages", "readat", "recheck", "bibtex"):
            object.__setattr__(reference, name, getattr(reference, name) + text)
    return catalog


def elements(text: str) -> list[tuple[str, tuple[str, ...]]]:
    body = text.split("\n---\n", 1)[1]
    return Reader(markdown.markdown(body, extensions=["attr_list", "toc"])).elements


@pytest.fixture(scope="module")
def expected() -> dict[str, list[tuple[str, tuple[str, ...]]]]:
    """Structure of each page when the added text is harmless."""
    return {
        page.uri: elements(page.text)
        for page in render(poisoned(load(DEMO), "a")).pages
        if page.uri != "rules.md"
    }


@settings(max_examples=40)
@given(text=HOSTILE)
def test_no_text_becomes_structure(
    expected: dict[str, list[tuple[str, tuple[str, ...]]]], text: str
) -> None:
    for page in render(poisoned(load(DEMO), "a" + text + "a")).pages:
        if page.uri in expected:
            assert elements(page.text) == expected[page.uri]


def written(
    catalog: Catalog,
) -> tuple[list[tuple[str, tuple[str, ...]]], dict[str, list[tuple[str, tuple[str, ...]]]]]:
    """Structure of the Methods page and of every plot's file."""
    made = render(catalog)
    methods = made.fill("methods.md", (ROOT / "content" / "methods.md").read_text(encoding="utf-8"))
    # An XML parser accepts less than a browser does, so it also proves the files well-formed.
    files = {
        f.uri: [
            (e.tag, tuple(e.keys()))
            for e in ET.fromstring(f.content).iter()
            if not e.tag.endswith("}text")
        ]
        for f in made.files
        if f.uri.endswith(".svg") and f.uri.startswith("figures/")
    }
    return elements(methods), files


@settings(max_examples=25)
@given(text=HOSTILE)
def test_methods_and_plot_files_hold_their_text(text: str) -> None:
    assert written(poisoned(load(DEMO), "a" + text + "a")) == written(poisoned(load(DEMO), "a"))


@given(text=HOSTILE)
def test_headings_are_one_heading_and_nothing_else(text: str) -> None:
    html = markdown.markdown(
        f"# {heading('a' + text + 'a')} {{#top}}\n", extensions=["attr_list", "toc"]
    )
    assert Reader(html).elements == [("h1", ("id",))]


@given(title=HOSTILE, description=HOSTILE)
def test_front_matter_reads_back(title: str, description: str) -> None:
    written = str(front_matter({"title": title, "description": description}))
    assert yaml.safe_load(written.removeprefix("---\n").removesuffix("---")) == {
        "title": plain(title),
        "description": plain(description),
    }
    assert not set('<>"&\n') & set(plain(title))


@given(line=HOSTILE)
def test_notice_passage_holds_its_text(line: str) -> None:
    from build_tools.catalog.entries import Notice

    notice = Notice.model_construct(short=line, help_at_once=line, long=[line])
    html = render_template("notice.html.jinja", notice=notice, heading="Call for help if")
    assert [tag for tag, _ in Reader(html).elements] == [
        "div",
        "p",
        "b",
        "div",
        "p",
        "b",
        "ul",
        "li",
        "p",
        "ul",
        "li",
    ]
