"""Every page and anchor of the handbook, and relative links between them.

Links in raw HTML are not checked by a page generator, so they are made here and
nowhere else: a link to a page or anchor that was never declared raises.
"""

from __future__ import annotations

import posixpath


class UnknownTarget(LookupError):
    """A link to a page or anchor that does not exist."""


class Addresses:
    """The address book: page uri (``exercises/seated-row.md``) -> its anchors; other files have none."""

    def __init__(self) -> None:
        self._anchors: dict[str, frozenset[str]] = {}
        self._urls: dict[str, tuple[str, list[str]]] = {}

    def add(self, uri: str, anchors: list[str] | None = None) -> None:
        """Declare a page or file. Two equal anchors on one page, or two equal pages, are refused."""
        given = anchors or []
        if uri in self._anchors or len(set(given)) != len(given):
            raise ValueError(
                f"declared twice: {uri} {sorted(a for a in given if given.count(a) > 1)}"
            )
        self._anchors[uri] = frozenset(given)

    def anchors(self, uri: str) -> frozenset[str]:
        """The anchors declared for a page."""
        return self._anchors[uri]

    def __contains__(self, uri: str) -> bool:
        """Whether a page or file was declared."""
        return uri in self._anchors

    def href(self, here: str, to: str, anchor: str | None = None) -> str:
        """The relative link from page ``here`` to page or file ``to``."""
        if to not in self._anchors:
            raise UnknownTarget(f"{here} links to {to}, which is no page of the handbook")
        if anchor is not None and anchor not in self._anchors[to]:
            raise UnknownTarget(f"{here} links to {to}#{anchor}, which that page does not have")
        fragment = f"#{anchor}" if anchor else ""
        if here == to and anchor:
            return fragment
        return self._relative(here, to) + fragment

    def _relative(self, here: str, to: str) -> str:
        target, way = self._url(to)
        start = self._url(here)[1]
        same = 0
        for one, other in zip(way, start, strict=False):
            if one != other:
                break
            same += 1
        steps = [*[".."] * (len(start) - same), *way[same:]] or ["."]
        return "/".join(steps) + ("/" if target.endswith("/") or not target else "")

    def _url(self, uri: str) -> tuple[str, list[str]]:
        """Where a source uri is served, whole and folder by folder."""
        if uri not in self._urls:
            served = url(uri)
            self._urls[uri] = served, list(filter(None, served.split("/")))
        return self._urls[uri]


def url(uri: str) -> str:
    """Where a source uri is served: ``exercises/x.md`` and ``exercises/x/index.html`` -> ``exercises/x/``, ``index.md`` -> empty,
    other files unchanged."""
    stem, ending = posixpath.splitext(uri)
    if posixpath.basename(stem) == "index" and ending in (".md", ".html"):
        folder = posixpath.dirname(stem)
        return f"{folder}/" if folder else ""
    return f"{stem}/" if ending == ".md" else uri


def above(uri: str) -> list[str]:
    """Where pages above a page may stand, the uppermost first: ``muscles/index.md`` and ``muscles/calf.md`` for ``muscles/calf/soleus.md``.

    The index of a folder stands above all in it, and ``calf.md`` above the folder of its name.
    """
    folders = url(uri).rstrip("/").split("/")[:-1]
    paths = ["/".join(folders[: n + 1]) for n in range(len(folders))]
    return [f"{path}{ending}" for path in paths for ending in ("/index.md", ".md")]
