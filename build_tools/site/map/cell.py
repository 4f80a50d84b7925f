"""What one cell and one head of the map show, with links from the page that it stands on."""

from __future__ import annotations

from dataclasses import dataclass

from ...english import upper_first
from ...evidence_map.marks import Aside, Cell, Mark
from ..context import PageContext
from . import mark as marks

#: What a cell without a mark says to whoever hears it. A study of ranges, holds or parts of one exercise compares it with no other.
_COUNTED, _UNCOUNTED = "nobody compared it", "no set counts"
_ASIDE: dict[Aside, str] = {
    "versions": "only versions of it compared",
    "parts": "only its parts compared",
}


@dataclass(frozen=True)
class PartHead:
    """A part by both its names, and where it is told."""

    ref: str
    name: str
    """What a coach says."""
    other: str
    """The name of the catalog where coaches have another one, else what a client would call it; empty where it says no more."""
    href: str


@dataclass(frozen=True)
class CellView:
    """One exercise on one part as it is shown."""

    mark: Mark | None
    label: str
    """With a mark the exercise, the part and what the mark says; else why there is none."""
    href: str | None
    """The place of the best statement; None without a mark."""
    counts: bool
    """Whether a set of the exercise counts for the part."""


def part_head(desk: PageContext, ref: str) -> PartHead:
    """A part by both its names."""
    named = desk.shelf.catalog.part(ref)
    assert named is not None, ref
    name = named.coaches or named.name
    other = named.name if named.coaches else named.everyday
    same = name.casefold() == other.casefold()
    return PartHead(ref, upper_first(name), "" if same else other, desk.part(ref).href)


def cell_view(desk: PageContext, cell: Cell) -> CellView:
    """What a cell shows."""
    counts = cell.counts is not None
    if cell.mark is None:
        label = _ASIDE[cell.aside] if cell.aside else _COUNTED if counts else _UNCOUNTED
        return CellView(None, label, None, counts)
    names = desk.shelf.names
    exercise = desk.shelf.catalog.exercises[cell.exercise].data.name
    part = names.part(cell.part).removeprefix("the ")
    return CellView(
        cell.mark,
        f"{exercise}, {part}: {marks.words(cell.mark)}",
        place(desk, cell.reasons[0].address),
        counts,
    )


def place(desk: PageContext, address: str) -> str:
    """The link to an address from the top of the site, such as ``exercises/back-squat/#claim-2``."""
    path, _, anchor = address.partition("#")
    return desk.href(f"{path.rstrip('/')}.md", anchor or None)
