"""The pictures of every page: read by Pillow (independent), and words that fit for every entry of the shipped catalog.

That pictures are 1200 by 630 pixels is common practice, the protocol names no size.
"""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from io import BytesIO

import numpy as np
import pytest
import shipped_made
from folders import DEMO
from PIL import Image
from site_building import render

from build_tools.catalog.load import load
from build_tools.site.book import Book
from build_tools.site.context import RenderContext
from build_tools.site.previews import composed as subject
from build_tools.site.previews import lettering, pictures
from build_tools.site.previews.preview import HANDOUT
from build_tools.site.publication import Publication

SITE = Publication("https://lantern.example/handbook/")


@cache
def demo() -> Book:
    return render(load(DEMO, "catalog"))


def drawn(shelf: RenderContext, texts: dict[str, str]) -> dict[str, bytes]:
    at = replace(shelf, site=SITE)
    return dict(subject.files(at, subject.previews(at, texts)))


def texts(book: Book) -> dict[str, str]:
    return {page.uri: page.text for page in book.pages}


def test_each_page_has_a_picture_that_is_not_blank_and_like_no_other() -> None:
    made = drawn(demo().shelf, texts(demo()))
    for uri, png in made.items():
        image = Image.open(BytesIO(png))
        image.load()
        assert (image.size, image.mode, image.format) == ((1200, 630), "P", "PNG"), uri
        assert len(image.convert("RGB").getcolors()) > 5, uri
    assert len(set(made.values())) == len(made)
    assert {
        "previews/exercises/crate-curl.png",
        "previews/muscles/lantern.png",
        "previews/muscles/lantern/long-head.png",
        "previews/handout.png",
        "previews/sources.png",
        "previews/week.png",
    } <= set(made)


def test_two_exercises_differ_in_their_figures_too() -> None:
    made = drawn(demo().shelf, texts(demo()))
    right = [
        np.array(Image.open(BytesIO(made[f"previews/exercises/{id}.png"])))[60:580, 640:]
        for id in ("crate-curl", "cable-curl")
    ]
    assert all((side > 0).mean() > 0.01 for side in right) and (right[0] != right[1]).any()


def test_nothing_is_drawn_without_an_address() -> None:
    shelf = demo().shelf
    assert not list(subject.files(shelf, subject.previews(shelf, texts(demo()))))


def test_the_handouts_preview_names_nobody_and_no_exercise() -> None:
    made = subject.previews(demo().shelf, {})[HANDOUT].preview
    told = f"{made.title} {made.description} {made.alt}".casefold()
    assert not [
        name
        for entry in demo().shelf.catalog.exercises.values()
        for name in [entry.data.name, *entry.data.also_called]
        if name.casefold() in told
    ]


def test_all_words_of_the_shipped_catalog_fit(monkeypatch: pytest.MonkeyPatch) -> None:
    """Every line of every picture ends before what stands beside it, measured by the font; nothing is cut off. ``lay`` refuses what
    would leave the picture. A picture weighs what a phone loads at once: 12 kB on average (aim of the project)."""
    asked: list[tuple[str, int, float]] = []
    fit = lettering.fitted

    def watched(text: str, sizes: tuple[int, ...], room: int, height: int) -> tuple[int, list[str]]:
        size, lines = fit(text, sizes, room, height)
        assert " ".join(lines) == " ".join(lettering.known(text).split()), text
        assert len(lines) * size * lettering.LEADING <= height, text
        asked.append((text, room, max(lettering.width(line, size) for line in lines)))
        return size, lines

    monkeypatch.setattr(pictures, "fitted", watched)
    shelf = shipped_made.book().shelf
    entries = {
        **{f"exercises/{id}.md": "" for id in shelf.catalog.exercises},
        **{f"muscles/{id}.md": "" for id in shelf.catalog.muscles},
        **{
            f"muscles/{id}/{part}.md": ""
            for id, muscle in shelf.catalog.muscles.items()
            for part in muscle.data.parts
        },
    }
    made = drawn(shelf, entries)
    assert len(made) == len(entries) + 1
    assert all(wide <= room for _, room, wide in asked)
    assert {entry.data.name for entry in shelf.catalog.exercises.values()} <= {
        t for t, _, _ in asked
    }
    assert sum(map(len, made.values())) / len(made) < 13_000


def test_what_cannot_fit_ends_in_an_ellipsis() -> None:
    size, lines = lettering.fitted("lantern " * 90, (30, 23), 300, 120)
    assert size == 23 and lines[-1].endswith("…") and len(lines) * size * lettering.LEADING <= 120
    [line] = lettering.fitted("a" * 90, (20,), 200, 40)[1]
    assert line.endswith("…") and lettering.width(line, 20) <= 200
