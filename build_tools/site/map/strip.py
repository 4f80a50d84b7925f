"""One exercise's strip of the map: the parts that a set counts for, muscle by muscle, each with its mark."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Literal

from markupsafe import Markup

from ...evidence_map.marks import LEGEND, Cell, Mark
from ..context import Link, PageContext
from ..templating import render
from . import mark as marks
from .cell import CellView, PartHead, cell_view, part_head


@dataclass(frozen=True)
class StripPart:
    """One part on the strip."""

    head: PartHead
    cell: CellView
    counts: Literal["direct", "indirect"] | None


@dataclass(frozen=True)
class StripLine:
    """One muscle: its parts that a set counts for, those of whole sets first."""

    muscle: Link
    alone: bool
    """Whether the muscle's name says no more than its part's."""
    parts: list[StripPart]


@dataclass(frozen=True)
class Strip:
    """One exercise's row of the map."""

    counted: list[StripLine]
    """Muscles with a part that a whole set counts for first."""
    measured: list[StripLine]
    """Other parts, that studies measured in it; one step below."""
    key: list[Mark]
    """The marks that it shows, as the legend has them."""
    untested: bool
    """Whether a part has none."""

    @property
    def also(self) -> int:
        """How many parts were measured that no set counts for."""
        return sum(len(line.parts) for line in self.measured)


def strip(desk: PageContext, exercise: str) -> Markup:
    """The strip of one exercise; empty where no set counts for any part and nobody measured one."""
    return Markup(render("strip.html.jinja", strip=view(desk, exercise), marks=marks))


def view(desk: PageContext, exercise: str) -> Strip:
    """What the strip shows."""
    cells = desk.shelf.evidence_map.strip(exercise)
    counted = sorted((c for c in cells if c.counts), key=lambda cell: cell.counts != "direct")
    drawn = {cell.mark for cell in cells}
    return Strip(
        _lines(desk, counted),
        _lines(desk, (cell for cell in cells if not cell.counts)),
        [mark for mark in LEGEND if mark in drawn],
        any(cell.mark is None for cell in counted),
    )


def _lines(desk: PageContext, cells: Iterable[Cell]) -> list[StripLine]:
    found: dict[str, list[StripPart]] = {}
    for cell in cells:
        shown = StripPart(part_head(desk, cell.part), cell_view(desk, cell), cell.counts)
        found.setdefault(cell.part.partition("/")[0], []).append(shown)
    return [
        StripLine(
            desk.muscle(muscle), len(desk.shelf.catalog.muscles[muscle].data.parts) == 1, parts
        )
        for muscle, parts in found.items()
    ]
