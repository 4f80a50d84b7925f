"""Frames of pictures as XML, read by Python's parser (expat); colours written out, words kept whatever they hold."""

from __future__ import annotations

import re
from xml.etree import ElementTree

import pytest
from hypothesis import given
from hypothesis import strategies as st
from script_rules import frame

SVG = "{http://www.w3.org/2000/svg}"
COLOURS = {
    "hb-paper": "#ffffff",
    "hb-ink": "#111111",
    "hb-quiet": "#555555",
    "hb-growth": "#155e5b",
}
STYLE = ".hb-bars { color: var(--hb-growth); } text { fill: var(--hb-ink); }"
WORDS = st.text(
    st.characters(exclude_categories=["Cs", "Cc"], exclude_characters="\ufffe\uffff"), max_size=300
)


def framed(shape: str = "wide", **given_words: str) -> ElementTree.Element:
    picture = {
        "title": "Seated grew more.",
        "note": "Certainty: low",
        "alt": "Seated 15%, prone 7%.",
        "credit": "Sources: A 2020. Licence: CC BY 4.0.",
        "drawing": '<rect width="4" height="2"/>',
        "size": [420, 114],
        **given_words,
    }
    return ElementTree.fromstring(frame.framed(picture, shape, STYLE, COLOURS))


@pytest.mark.parametrize(("shape", "size"), [("wide", (1920, 1080)), ("square", (1080, 1080))])
def test_the_drawing_lies_between_title_and_credit(shape: str, size: tuple[int, int]) -> None:
    read = framed(shape)
    assert (int(read.attrib["width"]), int(read.attrib["height"])) == size
    texts = [(float(t.attrib["y"]), t.text) for t in read.findall(f"{SVG}text")]
    [drawing] = read.findall(f"{SVG}svg")
    top, high = float(drawing.attrib["y"]), float(drawing.attrib["height"])
    left, wide = float(drawing.attrib["x"]), float(drawing.attrib["width"])
    title, credit = texts[0], texts[-1]
    assert title[1].startswith("Seated") and credit[1].endswith("CC BY 4.0.")
    assert title[0] < top and top + high < credit[0] < size[1]
    assert 0 <= left and left + wide <= size[0]
    assert wide / high == pytest.approx(420 / 114, rel=0.01)


def test_colours_are_written_out() -> None:
    [style] = framed().findall(f"{SVG}style")
    assert style.text == ".hb-bars { color: #155e5b; } text { fill: #111111; }"


@given(WORDS, WORDS)
def test_words_stay_what_they_are(title: str, credit: str) -> None:
    read = framed(title=title, credit=credit)
    shown = "".join(t.text or "" for t in read.findall(f"{SVG}text"))
    letters = re.sub(r"\s", "", shown)
    for words in (title, credit):
        assert re.sub(r"\s", "", words) in letters
