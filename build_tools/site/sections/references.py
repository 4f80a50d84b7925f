"""References as pages show them."""

from __future__ import annotations

from dataclasses import dataclass

from ...catalog.bibliography import apa as referencing
from ...catalog.bibliography.apa import StyledText
from ..context import Link, PageContext, RenderContext
from .labels import read_of


@dataclass(frozen=True)
class Formatted:
    """One reference: the way to its page, its full form, and how much of it was read."""

    here: Link
    segments: list[StyledText]
    title: str
    journal: str
    read: str


def formatted(desk: PageContext, key: str) -> Formatted:
    """The reference ``key`` as seen from one page."""
    reference = desk.shelf.catalog.references[key]
    return Formatted(
        desk.source(key),
        referencing.segments(reference, desk.shelf.letters[key]),
        reference.title.rstrip("."),
        reference.journal,
        read_of(reference.read),
    )


def cited_on(shelf: RenderContext, keys: list[str]) -> list[str]:
    """The keys without repeats, in the order of a reference list."""
    return sorted(set(keys), key=lambda key: referencing.sort_key(shelf.catalog.references[key]))
