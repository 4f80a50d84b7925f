"""The whole map as the home page shows it: regions, their muscles' blocks, the legend, and the form that narrows it."""

from __future__ import annotations

from dataclasses import dataclass

from markupsafe import Markup

from ...catalog import care
from ...evidence_map.marks import LEGEND, Fill, Mark
from ...planning import kits
from ..client import scripts
from ..context import PageContext
from ..templating import render
from . import mark as marks
from .block import BlockView, picture, view
from .figure import WHOLE

#: What the inside of a square or a circle says, in as few words as the legend has room for.
_INSIDES: dict[Fill, str] = {
    "found": "more, found",
    "hinted": "leans to more",
    "wider": "more, of several parts",
    "no more": "not shown to be more",
}
#: Share of a region's rows from which its largest block counts as nearly all of it.
_MOSTLY = 0.75


@dataclass(frozen=True)
class MapRegion:
    """A region of the body with its muscles' blocks, those with most marks first."""

    name: str
    anchor: str
    blocks: list[BlockView]

    @property
    def wide(self) -> bool:
        """Whether its blocks fill two columns; else one of them would stand mostly empty."""
        rows = [len(block.rows) for block in self.blocks]
        return len(rows) > 1 and max(rows) < _MOSTLY * sum(rows)


@dataclass(frozen=True)
class MapPage:
    """Everything the template shows."""

    regions: list[MapRegion]
    kits: list[tuple[str, str]]
    """Name and the values that it ticks, joined by commas."""
    equipment: dict[str, str]
    """Id and name; ``none`` is the body alone."""
    concerns: dict[str, str]
    """Id and name of those that some caution names."""
    script: str
    figures: dict[str, str]
    """Muscle -> its block as a file; under ``whole`` the whole map."""


def passage(desk: PageContext) -> Markup:
    """The map, its legend and its form."""
    return Markup(
        render(
            "whole.html.jinja",
            page=model(desk),
            marks=marks,
            legend=LEGEND,
            insides=[
                (Mark("growth", fill), Mark("activation", fill), words)
                for fill, words in _INSIDES.items()
            ],
        )
    )


def model(desk: PageContext) -> MapPage:
    """What the page shows."""
    shelf = desk.shelf
    words, muscles = shelf.vocabulary, shelf.catalog.muscles
    regions = []
    for id, region in words.regions.items():
        blocks = [view(desk, key) for key, entry in muscles.items() if entry.data.region == id]
        if blocks:
            blocks.sort(key=lambda block: (-block.marked, block.link.text))
            regions.append(MapRegion(region.name, f"in-{id}", blocks))
    named = {
        concern for entry in shelf.catalog.exercises.values() for concern in care.named(entry.data)
    }
    return MapPage(
        regions,
        [(name, ",".join(things) or "none") for name, things in kits.kits(words.equipment)],
        {id: term.name for id, term in words.equipment.items()},
        {id: term.name for id, term in words.concerns.items() if id in named},
        desk.href(scripts.uri("map/map.js")),
        {key: desk.href(picture(key)) for key in (*muscles, WHOLE)},
    )
