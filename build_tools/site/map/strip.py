"""One exercise's strip of the map: the parts that it trains or was measured on, by their marks, with both names of each."""

from __future__ import annotations

from dataclasses import dataclass

from markupsafe import Markup

from ...evidence_map.marks import LEGEND, Mark
from ..context import PageContext
from ..templating import render
from . import mark as marks
from .cell import CellView, PartHead, cell_view, part_head


@dataclass(frozen=True)
class StripGroup:
    """The parts of one mark, as the catalog has them."""

    mark: Mark | None
    """None: a set counts for them, and nobody tested it."""
    parts: list[tuple[PartHead, CellView]]


def strip(desk: PageContext, exercise: str) -> Markup:
    """The strip of one exercise; empty where no set counts for any part and nobody measured one."""
    return Markup(render("strip.html.jinja", groups=groups(desk, exercise), marks=marks))


def groups(desk: PageContext, exercise: str) -> list[StripGroup]:
    """Its parts by marks, in the order of the legend; untested ones last."""
    cells = desk.shelf.evidence_map.strip(exercise)
    made = [
        StripGroup(
            mark,
            [
                (part_head(desk, cell.part), cell_view(desk, cell))
                for cell in cells
                if cell.mark == mark
            ],
        )
        for mark in (*LEGEND, None)
    ]
    return [group for group in made if group.parts]
