"""One muscle's block of the map: a table of exercises by its parts, and below it those that nobody compared."""

from __future__ import annotations

from dataclasses import dataclass

from markupsafe import Markup

from ...english import upper_first
from ...evidence_map.marks import LEGEND, Mark
from ..client import scripts
from ..context import Link, PageContext
from ..templating import render
from . import mark as marks
from .cell import CellView, PartHead, cell_view, part_head


@dataclass(frozen=True)
class MapRowView:
    """One exercise."""

    id: str
    link: Link
    cells: list[CellView]


@dataclass(frozen=True)
class BlockView:
    """Everything the template of a block shows."""

    id: str
    everyday: str
    link: Link
    """The muscle's page, by the muscle's name."""
    coaches: str | None
    parts: list[PartHead]
    rows: list[MapRowView]
    blank: list[tuple[str, Link]]
    """Ids and links of exercises that train it and that nobody compared."""

    @property
    def others(self) -> list[str]:
        """The muscle's other names: what coaches say, and the catalog's where that is not the everyday one."""
        return [
            name
            for name in (self.coaches, self.link.text)
            if name and name.casefold() != self.everyday.casefold()
        ]

    @property
    def marked(self) -> int:
        """How many marks it holds."""
        return sum(cell.mark is not None for row in self.rows for cell in row.cells)

    @property
    def drawn(self) -> list[Mark]:
        """The marks that occur, as the legend has them."""
        found = {cell.mark for row in self.rows for cell in row.cells}
        return [mark for mark in LEGEND if mark in found]


def block(desk: PageContext, muscle: str) -> Markup:
    """One muscle's block for its own page, with the symbols that it draws: one such block a page."""
    return Markup(
        render(
            "block.html.jinja",
            block=view(desk, muscle),
            marks=marks,
            script=desk.href(scripts.uri("map/block.js")),
            picture=desk.href(picture(muscle)),
        )
    )


def picture(muscle: str) -> str:
    """Where the drawn file of a muscle's block is."""
    return f"figures/map/{muscle}.svg"


def view(desk: PageContext, muscle: str) -> BlockView:
    """What a block shows."""
    found, data = desk.shelf.evidence_map.block(muscle), desk.shelf.catalog.muscles[muscle].data
    return BlockView(
        muscle,
        upper_first(data.everyday),
        desk.part(muscle),
        data.coaches,
        [part_head(desk, ref) for ref in found.parts],
        [
            MapRowView(
                row.exercise,
                desk.exercise(row.exercise),
                [cell_view(desk, cell) for cell in row.cells],
            )
            for row in found.rows
        ],
        [(row.exercise, desk.exercise(row.exercise)) for row in found.blank],
    )
