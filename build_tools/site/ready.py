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
#: Where blanks show, and where they may mean something.
_VERBATIM = re.compile(r"(<(pre|textarea|script)\b.*?</\2>)", re.DOTALL)
_BLANKS = re.compile(r"\s*\n\s*")
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
    """A whole page without the blanks that only its templates needed: a seventh of it. Every line that is left begins with a sign."""
    pieces = _VERBATIM.split(html)
    return "".join(
        piece if n % 3 == 1 else _BLANKS.sub("\n", piece)
        for n, piece in enumerate(pieces)
        if n % 3 != 2
    )
