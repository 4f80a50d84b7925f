"""The home page's map: all muscles and exercises, both names of every part, few words before the first mark, and light."""

from __future__ import annotations

import gzip
import re
from html.parser import HTMLParser

import shipped_made
from folders import ROOT
from table_reading import ReadTable

from build_tools.evidence_map.marks import LEGEND
from build_tools.site.book import Book
from build_tools.site.map.mark import symbol
from build_tools.site.map.whole import model, passage

HOME = (ROOT / "content" / "index.md").read_text(encoding="utf-8")


def shipped() -> str:
    return str(passage(shipped_made.book().shelf.at("index.md")))


class Words(HTMLParser):
    """What stands between tags."""

    def __init__(self, html: str) -> None:
        super().__init__()
        self.text = ""
        self.feed(html)

    def handle_data(self, data: str) -> None:
        self.text += f" {data}"


def test_every_exercise_that_a_block_holds_can_be_found() -> None:
    shelf = shipped_made.book().shelf
    html = shipped()
    for muscle in shelf.catalog.muscles:
        block = shelf.evidence_map.block(muscle)
        for row in (*block.rows, *block.blank):
            assert f'data-exercise="{row.exercise}"' in html
        assert html.count(f'id="map-{muscle}"') == 1


def test_what_a_coach_types_into_find_in_page_is_there() -> None:
    text = Words(shipped()).text.casefold()
    for words in (
        "rectus femoris",
        "lats",
        "latissimus dorsi",
        "soleus",
        "triceps",
        "gluteus medius",
        "side delt",
        "upper chest",
        "quads",
    ):
        assert words in text
    for muscle in shipped_made.catalog().muscles.values():
        for part in muscle.data.parts.values():
            assert part.name.casefold() in text and (part.coaches or "").casefold() in text


def test_the_legend_draws_every_mark_and_every_symbol_is_there_once() -> None:
    html = shipped()
    legend = html.partition("<ul")[2].partition("</ul>")[0]
    for mark in LEGEND:
        assert legend.count(f'href="#{symbol(mark)}"') == 1
        assert html.count(f'<symbol id="{symbol(mark)}"') == 1


def test_at_most_forty_words_stand_before_the_first_mark() -> None:
    """The number is the handbook's own promise (issue 14, proof)."""
    before = HOME.split("---\n")[2].partition("<!-- handbook: evidence map -->")[0]
    assert len(re.findall(r"[\w’']+", before)) <= 40


def test_growth_and_activity_are_told_apart_in_one_line() -> None:
    assert "Activity in one session is not growth." in HOME


def test_the_map_is_light() -> None:
    """60 KB packed is what the page may weigh with its frame, which takes about 10."""
    assert len(gzip.compress(shipped().encode(), 9)) < 50_000


def test_one_block_is_open_without_a_script_and_all_tables_are_read() -> None:
    html = shipped()
    assert len(re.findall(r'<details class="hb-block"[^>]* open>', html)) == 1
    read = ReadTable(html)
    assert len(read.captions) == len(shipped_made.catalog().muscles)
    assert all(cell.said for cell in read.cells)


def test_a_region_is_wide_where_its_blocks_fill_two_columns() -> None:
    page = model(shipped_made.book().shelf.at("index.md"))
    wide = {region.name for region in page.regions if region.wide}
    assert "Thigh" in wide and "Chest" not in wide and "Forearm" not in wide


def test_kits_come_before_single_things() -> None:
    page = model(shipped_made.book().shelf.at("index.md"))
    assert page.kits[0] == ("No equipment", "none")
    for _, values in page.kits:
        assert set(values.split(",")) <= page.equipment.keys()


def test_a_catalog_of_one_muscle_has_a_map_too(demo_book: Book) -> None:
    html = str(passage(demo_book.shelf.at("index.md")))
    assert ReadTable(html).captions or "compared by nobody" in html
