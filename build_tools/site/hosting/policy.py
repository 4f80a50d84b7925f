"""Content security policies (W3C, Content Security Policy Level 3): what a browser may load and run on a page, and nothing else.

Scripts and styles that stand in a page are named by their hashes, never allowed as such: what an author wrote could not run even if it
got into the markup.
"""

from __future__ import annotations

import base64
import hashlib
from collections.abc import Callable, Iterable, Sequence
from functools import cache
from html.parser import HTMLParser
from urllib.parse import urlsplit

from markupsafe import Markup

#: Begins every policy. The worker knows pages of ours by it (``sw.js``), those kept years ago among them.
MARK = "default-src 'none'"
SELF = "'self'"
#: In the policy of every page around which a theme stands, and of no page for clients, which bring no font.
THEME_MARK = f"font-src {SELF}"


def policy(**sources: Sequence[str]) -> Markup:
    """The policy of a page as the value of a header or attribute. ``sources``: directive, with ``_`` for ``-``, and what it allows."""
    allowed = [
        f"{name.replace('_', '-')} {' '.join(values)}" for name, values in sources.items() if values
    ]
    # Nothing in it needs an escape but the apostrophes, which attributes between quotes may hold.
    return Markup("; ".join([MARK, *allowed, "base-uri 'none'", "form-action 'none'"]))


def hashed(inline: str) -> str:
    """The source that allows one inline script or style, whose whole text is ``inline``."""
    digest = hashlib.sha256(inline.encode()).digest()
    return f"'sha256-{base64.b64encode(digest).decode()}'"


#: Kinds of text in a script's element that browsers run; all others are data to them.
_RUN = ("", "module", "text/javascript", "application/javascript")
_LOADED = ("stylesheet", "icon", "preload", "modulepreload", "manifest")


class _Page(HTMLParser):
    """What a policy has a say in: text that runs or styles, such attributes, and other hosts that the page asks."""

    def __init__(self, html: str) -> None:
        super().__init__()
        self.inline: list[tuple[str, str]] = []
        self.attributes: list[str] = []
        self.hosts: list[str] = []
        self._within = ""
        self.feed(html)
        self.close()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        given = {name: value or "" for name, value in attrs}
        self.attributes += [name for name in given if name == "style" or name.startswith("on")]
        loads = [given.get("src", "")]
        if tag == "link" and {*given.get("rel", "").lower().split()} & {*_LOADED}:
            loads.append(given.get("href", ""))
        self.hosts += [host for address in loads if (host := urlsplit(address).netloc)]
        runs = tag == "script" and "src" not in given and given.get("type", "").lower() in _RUN
        self._within = tag if runs or tag == "style" else ""

    def handle_endtag(self, tag: str) -> None:
        self._within = ""

    def handle_data(self, data: str) -> None:
        if self._within:
            self.inline.append((self._within, data))


def inline(html: str) -> list[str]:
    """The sources that allow what stands inline in a piece of a page."""
    return [hashed(text) for _, text in _Page(html).inline]


class Policies:
    """The policies of the pages around which a theme stands; ``inline`` gives the sources of what it needs inline, by the address of the
    home page from a page."""

    def __init__(self, inline: Callable[[str], Iterable[str]]) -> None:
        self._inline = cache(lambda base: tuple(inline(base)))

    def at(self, base: str) -> Markup:
        """The policy of a page that reaches the home page at ``base``, e.g. ``../..``."""
        return policy(
            script_src=(SELF, *self._inline(base)),
            style_src=(SELF,),
            img_src=(SELF, "data:", "blob:"),
            **{f"{kind}_src": (SELF,) for kind in ("font", "connect", "worker", "manifest")},
        )

    def refused(self, html: str, base: str, own: str = "") -> list[str]:
        """What that policy stops in a page of the host ``own``, in words."""
        page, allowed = _Page(html), self._inline(base)
        found = [
            f"a <{name}> in the page" for name, text in page.inline if hashed(text) not in allowed
        ]
        found += [f"the attribute `{name}`" for name in page.attributes]
        found += [f"a file of {host}" for host in page.hosts if host != own]
        return list(dict.fromkeys(found))
