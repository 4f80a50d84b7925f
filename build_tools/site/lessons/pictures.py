"""The drawings of a lesson: the muscle's block of the map, the bars of its statements, its exercises. Each is told in words, too.

A picture is only a drawing in colours by name. The page that offers it puts it in a frame with its title, credit and licence, wide
or square, light or dark (``scripts/rules/frame.js``), so that one drawing stands for all of them.
"""

from __future__ import annotations

import re
import textwrap
from collections.abc import Iterator
from dataclasses import dataclass

from markupsafe import Markup

from ...english import upper_first
from ...evidence_map.marks import LEGEND, Mark
from ..context import PageContext, RenderContext
from ..figures import file as figure_file
from ..figures.file import FigureFile
from ..map import block as map_block
from ..map import figure as map_figure
from ..map import mark as marks
from ..map.block import BlockView, MapRowView
from ..map.figure import BlockDrawing
from ..plots import gain_bars
from ..plots.gain_bars import GainBars
from ..templating import render

#: Width of two bars, pixels: their words then stand large on a slide.
BARS_WIDE = 420
#: Rows of the map in a column, and columns on a slide. Convention.
ROWS, COLUMNS = 13, 2
#: Widths of the names of exercises and of the legend, pixels, and characters in a line of the legend.
NAMES, _LEGEND, _LEGEND_CHARACTERS = 200, 250, 36


@dataclass(frozen=True)
class Picture:
    """One drawing."""

    name: str
    """Its file's name without an ending, unique over all lessons."""
    title: str
    """The heading of its slide."""
    alt: str
    """All that it shows, in words."""
    credit: str
    """What it rests on; empty where that stands in its title."""
    drawing: Markup
    """SVG, with its own size in pixels."""
    size: tuple[int, int]
    file: str | None = None
    """The uri of a drawn file, or of a page, that shows the same, where there is one."""


@dataclass(frozen=True)
class MapDrawing:
    """A page of a block; sizes as in ``map.figure``."""

    columns: list[tuple[int, BlockDrawing]]
    """Each with its left edge."""
    legend: list[tuple[Mark, list[str], int]]
    """Each with its words in lines, and its height."""
    legend_at: tuple[int, int]
    size: tuple[int, int]

    names, column, row, line, side = (
        NAMES,
        map_figure.COLUMN,
        map_figure.ROW,
        map_figure.LINE,
        marks.SIDE,
    )
    headed = False


def of_map(desk: PageContext, muscle: str) -> list[Picture]:
    """The muscle's block, over as many pictures as its rows ask for; none where nothing compares any exercise."""
    view = map_block.view(desk, muscle)
    pages = [_even(page, ROWS) for page in _even(view.rows, ROWS * COLUMNS)]
    made = []
    for n, page in enumerate(pages, 1):
        drawn = _map_page(view, page)
        of = f", {n} of {len(pages)}" if len(pages) > 1 else ""
        made.append(
            Picture(
                f"{muscle}-map-{n}",
                f"{view.everyday}: which exercise for which part{of}",
                " ".join(_rows_told(page)),
                "A mark tells the best evidence on whether an exercise does more for a part than another. Activity in one session is not growth.",
                Markup(render("lesson_map.svg.jinja", file=drawn, marks=marks, id=f"map{n}")),
                drawn.size,
                map_block.picture(muscle),
            )
        )
    return made


def of_bars(drawn: GainBars, name: str, title: str, credit: str) -> Picture:
    """The two bars of a statement; its sentence is the title."""
    return Picture(
        name,
        title,
        f"{drawn.title}. {drawn.says}",
        credit,
        Markup(
            f'<svg width="{BARS_WIDE}" height="{drawn.height + 4}">{_unnamed(gain_bars.svg(drawn))}</svg>'
        ),
        (BARS_WIDE, drawn.height + 4),
    )


def of_exercise(shelf: RenderContext, id: str, muscle: str) -> Picture:
    """Start and finish of an exercise."""
    figure = figure_file.posture(shelf, id, f"{muscle}-{id}")
    laid = FigureFile(figure)
    return Picture(
        f"{muscle}-{id}",
        figure.name,
        f"{figure.name}. {figure.says}",
        " ".join(figure_file.grounds(shelf, id)),
        Markup(render("lesson_posture.svg.jinja", file=laid)),
        (laid.width, laid.height),
        f"exercises/{id}.md",
    )


def _unnamed(svg: str) -> str:
    """A drawing without its name and words, which the picture around it has."""
    return re.sub(
        r' role="img" aria-labelledby="[^"]*"|<title.*?</desc>\n', "", svg, flags=re.DOTALL
    )


def _map_page(view: BlockView, chunks: list[list[MapRowView]]) -> MapDrawing:
    drawings = [
        map_figure.drawing(BlockView(**{**view.__dict__, "rows": rows, "blank": []}))
        for rows in chunks
    ]
    found = {mark for drawn in drawings for mark in drawn.block.drawn}
    width = NAMES + map_figure.COLUMN * len(view.parts)
    columns = [(n * (width + map_figure.EDGE), drawn) for n, drawn in enumerate(drawings)]
    right = columns[-1][0] + width + 2 * map_figure.EDGE
    legend, y = [], 0
    for mark in LEGEND:
        if mark in found:
            lines = textwrap.wrap(upper_first(marks.words(mark)), _LEGEND_CHARACTERS)
            legend.append((mark, lines, y))
            y += map_figure.LINE * len(lines) + 8
    top = drawings[0].top
    return MapDrawing(
        columns,
        legend,
        (right, top),
        (right + _LEGEND, max(drawings[0].height, top + y + 2 * map_figure.LINE)),
    )


def _even(rows: list[MapRowView], most: int) -> list[list[MapRowView]]:
    """The rows in as few groups as hold at most so many, of about one length."""
    groups = -(-len(rows) // most)
    each = -(-len(rows) // groups) if groups else 1
    return [rows[n : n + each] for n in range(0, len(rows), each)]


def _rows_told(chunks: list[list[MapRowView]]) -> Iterator[str]:
    for row in (row for rows in chunks for row in rows):
        told = [cell.label.partition(": ") for cell in row.cells if cell.mark]
        parts = "; ".join(f"{name.rpartition(', ')[2]}: {says}" for name, _, says in told)
        yield f"{row.link.text}: {parts}."
