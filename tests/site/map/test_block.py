"""A block is a real table: every cell has its two heads and says something, as WCAG 1.3.1 (technique H63) asks."""

from __future__ import annotations

import pytest
import shipped_made
from table_reading import ReadTable

from build_tools.site.map.block import block, view
from build_tools.site.map.cell import part_head
from build_tools.site.map.mark import words

MUSCLES = list(shipped_made.catalog().muscles)


@pytest.mark.parametrize("muscle", MUSCLES)
def test_every_cell_has_its_heads_and_says_what_its_mark_says(muscle: str) -> None:
    shelf = shipped_made.book().shelf
    desk = shelf.at(f"muscles/{muscle}.md")
    read, shown = ReadTable(str(block(desk, muscle))), view(desk, muscle)
    data = shelf.catalog.muscles[muscle].data
    assert len(read.captions) == 1 and data.name.casefold() in read.captions[0].casefold()
    assert None not in read.scopes
    assert len(read.cells) == len(shown.rows) * len(shown.parts)
    for cell in read.cells:
        assert cell.said and cell.row and cell.column
        if cell.href:
            assert cell.said.startswith(f"{cell.row}, ")
        else:
            assert cell.said in (
                "nobody compared it",
                "only versions of it compared",
                "only its parts compared",
                "no set counts",
            )
    for row, found in zip(shown.rows, shelf.evidence_map.block(muscle).rows, strict=True):
        for seen, cell in zip(row.cells, found.cells, strict=True):
            assert seen.counts == (cell.counts is not None)
            assert seen.mark is None or seen.label.endswith(words(seen.mark))


@pytest.mark.parametrize("muscle", MUSCLES)
def test_a_head_carries_both_names_of_its_part(muscle: str) -> None:
    desk = shipped_made.book().shelf.at("index.md")
    heads = ReadTable(str(block(desk, muscle))).heads
    for id, part in shipped_made.catalog().muscles[muscle].data.parts.items():
        head = part_head(desk, f"{muscle}/{id}")
        assert {(part.coaches or part.name).casefold(), part.name.casefold()} <= {
            head.name.casefold(),
            head.other.casefold(),
        } | {part.name.casefold() if head.name == part.name else ""}
        assert not heads or ", ".join(filter(None, [head.name, head.other])) in heads[0]


def test_a_block_brings_the_symbols_that_it_draws_and_no_others() -> None:
    desk = shipped_made.book().shelf.at("muscles/forearm.md")
    html = str(block(desk, "forearm"))
    assert html.count("<symbol ") == 1 and '<symbol id="sign-taught"' in html
    assert '<use href="#sign-taught"/>' in html


def test_what_nobody_compared_is_folded_with_a_link_each() -> None:
    desk = shipped_made.book().shelf.at("muscles/forearm.md")
    html, shown = str(block(desk, "forearm")), view(desk, "forearm")
    folded = html.partition("<details")[2]
    assert shown.blank and all(f'<li data-exercise="{id}">' in folded for id, _ in shown.blank)
    assert f">{len(shown.blank)}</span></summary>" in folded
