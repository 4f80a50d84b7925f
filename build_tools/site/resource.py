"""A page or file of the handbook before it is made.

A module that makes some has ``resources(shelf)``, which yields them. Addresses and anchors are known first, so that
every page can link to every other; what stands there is made when all of them are.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from typing import Protocol

from .context import RenderContext


@dataclass(frozen=True)
class Resource:
    """Where something stands, what links can point at in it, and how it is made."""

    uri: str
    """Below the content folder, e.g. ``exercises/seated-row.md``."""
    make: Callable[[RenderContext], str | bytes]
    """Text is a page: Markdown with front matter. Bytes are a file of any other kind."""
    anchors: Sequence[str] = ()
    edit: str | None = None
    """The catalog file that a page comes from, relative to the catalog folder."""

    def text(self, shelf: RenderContext) -> str:
        """Make a page."""
        made = self.make(shelf)
        assert isinstance(made, str), self.uri
        return made

    def content(self, shelf: RenderContext) -> bytes:
        """Make a file."""
        made = self.make(shelf)
        assert isinstance(made, bytes), self.uri
        return made


def finished(uri: str, content: bytes) -> Resource:
    """A file that is the same in every handbook."""
    return Resource(uri, lambda shelf: content)


class Room(Protocol):
    """A module that makes pages or files."""

    def resources(self, shelf: RenderContext) -> Iterable[Resource]:
        """What the module makes of a catalog."""
