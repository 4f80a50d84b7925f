"""The fixed words of client pages: all of them there, none beside them. Outside: Jinja's own reader of templates, and HTML's."""

from __future__ import annotations

import re
from html.parser import HTMLParser
from pathlib import Path
from typing import Any

import pytest
from folders import ROOT

from build_tools.catalog.fixed_words import LANGUAGE, fixed_words

WORDS = ROOT / "build_tools" / "catalog" / "fixed_words" / LANGUAGE
SITE = ROOT / "build_tools" / "site"
TEMPLATES = sorted((SITE / "templates" / "client").glob("*.html.jinja"))
SCRIPTS = [
    path
    for path in sorted((SITE / "scripts" / "handout").glob("*.js"))
    if not path.name.startswith("lean-qr")  # a library of others
]
#: What readers see or hear of an attribute.
SAID = {"aria-label", "alt", "title", "placeholder"}


class Text(HTMLParser):
    """Text and spoken attributes of a template whose places were taken out."""

    def __init__(self, template: str) -> None:
        super().__init__()
        self.found: list[str] = []
        self._inside = ""
        self.feed(re.sub(r"\{\{.*?\}\}|\{%.*?%\}|<#.*?#>", "", template, flags=re.DOTALL))

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self._inside = tag
        self.found += [value or "" for name, value in attrs if name in SAID]

    def handle_data(self, data: str) -> None:
        if self._inside not in ("style", "script"):
            self.found.append(data)


@pytest.mark.parametrize("path", TEMPLATES, ids=lambda path: path.name)
def test_a_template_holds_no_words_of_its_own(path: Path) -> None:
    told = " ".join(Text(path.read_text(encoding="utf-8")).found)
    assert re.findall(r"[^\W\d_]{2,}", told) == []


@pytest.mark.parametrize("path", SCRIPTS, ids=lambda path: path.name)
def test_a_script_holds_no_sentence_of_its_own(path: Path) -> None:
    text = re.sub(r"(?<!:)//.*", "", path.read_text(encoding="utf-8"))
    text = re.sub(r"/\*.*?\*/", "", text, flags=re.DOTALL)
    said = [a or b for a, b in re.findall(r'"([^"\\\n]*)"|`([^`\\]*)`', text)]
    plain = [re.sub(r"\$\{[^}]*\}", "", one) for one in said]
    assert [one for one in plain if re.search(r"[A-Z][a-z]+ [a-z]+|[a-z]{2}\.$", one)] == []


def used() -> set[str]:
    """Every word that a template, a script or a module of the client's pages names."""
    files = [
        *(SITE / "templates").rglob("*.jinja"),
        *SCRIPTS,
        *(SITE / "scripts" / "rules").glob("doses.js"),
        *(ROOT / "build_tools").rglob("*.py"),
    ]
    return set(re.findall(r"[\w-]+", "\n".join(path.read_text("utf-8") for path in files)))


#: Maps whose keys are data: a fault of a link, a field of a handout.
BY_DATA = ("problems", "fields", "ranges", "wrong")


def keys(words: Any) -> list[str]:
    if not isinstance(words, dict):
        return []
    return [
        *words,
        *(key for name, inner in words.items() if name not in BY_DATA for key in keys(inner)),
    ]


@pytest.mark.parametrize("kind", sorted(path.stem for path in WORDS.glob("*.yaml")))
def test_every_word_is_used_and_none_hides_a_method(kind: str) -> None:
    named = keys(dict(fixed_words(kind)))
    assert set(named) <= used()
    # A template asks for `words.copy`, and would get the method of that name.
    assert not set(named) & set(dir(dict))


def test_pages_say_their_language_from_one_place() -> None:
    for path in (SITE / "templates").rglob("*.jinja"):
        assert not re.search(r'lang="[a-z]{2}"(?!>\{)', path.read_text(encoding="utf-8")), path
