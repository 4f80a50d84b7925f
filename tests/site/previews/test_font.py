"""How wide words are, held against FreeType as Pillow binds it: an independent reader of the same font file."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from PIL import ImageFont

import build_tools.site.previews as previews
from build_tools.site.previews import font

FILE = Path(previews.__file__).parent / font.FILE
LETTERS = sorted(font.metrics().advances)


def test_the_font_is_small_and_comes_with_its_licence() -> None:
    assert FILE.stat().st_size < 60_000
    licence = FILE.with_name("lettering-licence.txt").read_text(encoding="utf-8")
    assert (
        "SIL OPEN FONT LICENSE Version 1.1" in licence and "@fontsource/noto-sans 5.3.0" in licence
    )


@given(st.text(LETTERS, max_size=60))
def test_a_line_is_as_wide_as_freetype_says(text: str) -> None:
    """At the em's own size, where rounding changes nothing. FreeType gives an accented N the width of N, three units more than its own."""
    units = font.metrics().units
    free = ImageFont.truetype(str(FILE), units, layout_engine=ImageFont.Layout.BASIC)
    assert font.width(text, units) == pytest.approx(free.getlength(text), abs=3 * len(text) + 1)


def test_the_font_calls_itself_as_drawings_ask_for_it() -> None:
    assert ImageFont.truetype(str(FILE), 20).getname() == (font.FAMILY, "Regular")


def test_letters_that_it_lacks_lose_their_accents_or_are_left_out() -> None:
    assert font.known("Wạrm Łódź 日 “x” cm² −") == "Warm Łódź  “x” cm² −"


@given(st.lists(st.text("abcdefgh", min_size=1, max_size=9), max_size=20), st.integers(80, 400))
def test_lines_hold_every_word_in_its_order_and_none_is_too_wide(
    words: list[str], room: int
) -> None:
    lines = font.wrapped(" ".join(words), 26, room)
    assert " ".join(lines).split() == words
    assert all(font.width(line, 26) <= room for line in lines if " " in line)
