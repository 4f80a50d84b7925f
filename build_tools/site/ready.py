"""A generated page as finished HTML: its headings go through Markdown, its bodies are HTML already and pass as they are.

Markdown reads HTML tag by tag only to hand it on unchanged, which took a third of a build. What comes out is what Markdown makes of the
whole page, blank lines aside; the tests compare the two on every page.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from markdown import Markdown

#: A heading of our own always carries its anchor; a comment in an example does not.
_HEADING = re.compile(r"^#{1,6} .*\{[^{}\n]*\}$", re.MULTILINE)
#: What only XML needs: in a page every drawing is one.
_NAMESPACE = ' xmlns="http://www.w3.org/2000/svg"'
#: Where blanks show, and where they may mean something.
_VERBATIM = re.compile(r"(<(pre|textarea|script)\b.*?</\2>)", re.DOTALL)
_BLANKS = re.compile(r"\s*\n\s*")
#: A link to a stylesheet as the theme writes it.
_SHEET = re.compile(r'<link rel="stylesheet" href="([^"]*)">\n?')
_COMMENT = re.compile(r"/\*.*?\*/", re.DOTALL)
_BRACKETS = re.compile(r"\([^()]*(?:\([^()]*\)[^()]*)*\)")
_SELECTORS = re.compile(r"([^{};]+)\{")
_STYLED = re.compile(r"\.(hb-[\w-]+)")
_CLASSES = re.compile(r'\sclass="([^"]*)"')
_ID = re.compile(r"<[^<>]*\sid=\"([^\"]+)\"")


@dataclass(frozen=True)
class ReadyPage:
    """What a page generator needs of a page."""

    html: str
    toc: Sequence[dict[str, Any]]
    """Its headings as the ``toc`` extension of Markdown tells them."""
    anchors: frozenset[str]


class HeadingConverter:
    """Turns pages whose only Markdown is their headings into HTML. ``extensions`` and ``configs`` as Markdown takes them."""

    def __init__(self, extensions: Sequence[Any], configs: Mapping[str, Mapping[str, Any]]) -> None:
        self._markdown = Markdown(extensions=list(extensions), extension_configs=dict(configs))

    def convert(self, text: str) -> ReadyPage:
        """A page's Markdown, without front matter, as HTML."""
        self._markdown.reset()
        written = _HEADING.findall(text)
        made = self._markdown.convert("\n\n".join(written)).split("\n") if written else []
        assert len(made) == len(written), written
        remaining = iter(made)
        html = _HEADING.sub(lambda _: next(remaining), text).strip()
        return ReadyPage(
            html, getattr(self._markdown, "toc_tokens", []), frozenset(_ID.findall(html))
        )


def squeezed(html: str) -> str:
    """A whole page without namespaces and the blanks that only its templates needed: a seventh. Every line that is left begins with a sign."""
    pieces = _VERBATIM.split(html)
    return "".join(
        piece if n % 3 == 1 else _BLANKS.sub("\n", piece).replace(_NAMESPACE, "")
        for n, piece in enumerate(pieces)
        if n % 3 != 2
    )


class Sheets:
    """Which stylesheets a page needs beside the first: those with a selector of their own whose classes all stand on it.

    ``texts``: address below the site -> text. The first is on every page: what it has a rule for decides nothing about the others.
    """

    def __init__(self, texts: Mapping[str, str]) -> None:
        general = {frozenset(), *_selectors(next(iter(texts.values()), ""))}
        self._own = {uri: _selectors(text) - general for uri, text in list(texts.items())[1:]}

    def lean(self, html: str) -> str:
        """A whole page without its links to the others."""
        there = {name for names in _CLASSES.findall(html) for name in names.split()}
        idle = tuple(
            uri for uri, own in self._own.items() if not any(names <= there for names in own)
        )
        return _SHEET.sub(lambda link: "" if link[1].endswith(idle) else link[0], html)


def _selectors(sheet: str) -> set[frozenset[str]]:
    """The handbook's classes that each selector of a stylesheet asks for; what stands in brackets only adds to them."""
    heads = _SELECTORS.findall(_BRACKETS.sub("", _COMMENT.sub("", sheet)))
    return {
        frozenset(_STYLED.findall(one))
        for head in heads
        if not head.strip().startswith("@")
        for one in head.split(",")
    }
