"""A muscle's block as a drawn file with its legend, its credit and its licence, and the whole map as one."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator
from dataclasses import dataclass
from functools import partial

from ...evidence_map.marks import LEGEND, Mark
from ..context import RenderContext
from ..escape import xml_text
from ..resource import Resource
from ..templating import render
from . import mark as marks
from .block import BlockView, picture, view

WHOLE = "whole"
#: Pixels: the margin, the columns of names and of marks, a row, a line of words, and what a letter is wide at each size.
EDGE, NAMES, COLUMN, ROW, LINE, LETTER, SMALL = 20, 250, 36, 20, 17, 7, 5.9
#: Columns of the whole map; the least width, in which the credit fits.
SIDE_BY_SIDE, NARROWEST = 4, 560


@dataclass(frozen=True)
class BlockDrawing:
    """One block, laid out from its own corner; sizes in pixels."""

    block: BlockView
    head: int
    """Height of the columns' heads, which stand on end."""
    blank: list[str]
    """Lines that name what nobody compared."""

    @property
    def width(self) -> int:
        """Width of the table."""
        return NAMES + COLUMN * len(self.block.parts)

    @property
    def top(self) -> int:
        """Where the first row begins."""
        return 24 + self.head

    @property
    def height(self) -> int:
        """Height with the lines below the table."""
        return self.top + ROW * len(self.block.rows) + LINE * len(self.blank) + 8


@dataclass(frozen=True)
class MapFile:
    """Everything the template of a file shows."""

    title: str
    says: str
    drawings: list[tuple[int, int, BlockDrawing]]
    """Each with its left and upper edge."""
    legend: list[tuple[Mark, str]]
    foot: list[str]
    width: int
    below: int
    """Where the legend begins."""

    @property
    def height(self) -> int:
        """Height of the whole file."""
        return self.below + ROW * (len(self.legend) + 1) + LINE * len(self.foot) + EDGE

    edge, names, column, row, line, side = EDGE, NAMES, COLUMN, ROW, LINE, marks.SIDE
    headed = True
    """Each block with the names of its muscle."""


def resources(shelf: RenderContext) -> Iterator[Resource]:
    """A file for each muscle, and the whole map."""
    for muscle in shelf.catalog.muscles:
        yield Resource(picture(muscle), partial(file, muscle=muscle))
    yield Resource(picture(WHOLE), whole)


def file(shelf: RenderContext, muscle: str) -> bytes:
    """The stand-alone SVG of one muscle's block."""
    drawn = drawing(view(shelf.at("index.md"), muscle))
    return _written(
        shelf,
        f"{drawn.block.link.text}: exercises by parts",
        [(EDGE, 48, drawn)],
        muscle,
    )


def whole(shelf: RenderContext) -> bytes:
    """The stand-alone SVG of the whole map: blocks in columns, each where least stands above it."""
    regions = list(shelf.vocabulary.regions)
    muscles = sorted(
        shelf.catalog.muscles,
        key=lambda id: regions.index(shelf.catalog.muscles[id].data.region),
    )
    drawings = [drawing(view(shelf.at("index.md"), muscle)) for muscle in muscles]
    wide = max(drawn.width for drawn in drawings) + EDGE
    bottoms, placed = [48] * min(SIDE_BY_SIDE, len(drawings)), []
    for drawn in drawings:
        column = bottoms.index(min(bottoms))
        placed.append((EDGE + wide * column, bottoms[column], drawn))
        bottoms[column] += drawn.height + EDGE
    return _written(shelf, "Exercises by parts of muscles", placed, None)


def drawing(block: BlockView) -> BlockDrawing:
    """A block laid out."""
    longest = max(max(LETTER * len(p.name), SMALL * len(p.other)) for p in block.parts)
    names = ", ".join(link.text for _, link in block.blank)
    characters = int((NAMES + COLUMN * len(block.parts)) / SMALL)
    return BlockDrawing(
        block,
        round(longest) + 8 if block.rows else 0,
        textwrap.wrap(f"Nobody compared: {names}.", characters) if names else [],
    )


def _written(
    shelf: RenderContext,
    says: str,
    drawings: list[tuple[int, int, BlockDrawing]],
    muscle: str | None,
) -> bytes:
    book = shelf.handbook
    drawn = {mark for _, _, one in drawings for mark in one.block.drawn}
    address = shelf.site.at(f"#map-{muscle}" if muscle else "")
    paragraphs = [
        "One mark tells the best evidence on whether an exercise does more for a part than another. "
        "Tinted: a set counts for the part. Tinted and empty: nobody compared it with another exercise. Activity in one session is not growth.",
        f"From: {book.title}, {book.owner.name}. Licence: {book.licence}.",
        *([address] if address else []),
    ]
    width = max(NARROWEST, EDGE + max(left + one.width for left, _, one in drawings))
    characters = int((width - 2 * EDGE) / SMALL)
    made = MapFile(
        "Which exercise for which part",
        f"{says}. The mark of each cell tells the best kind of evidence.",
        drawings,
        [(mark, marks.words(mark)) for mark in LEGEND if mark in drawn],
        [line for paragraph in paragraphs for line in textwrap.wrap(paragraph, characters)],
        width,
        max(top + one.height for _, top, one in drawings) + EDGE // 2,
    )
    return xml_text(
        render("map_file.svg.jinja", file=made, marks=marks, palette=shelf.palette)
    ).encode()
