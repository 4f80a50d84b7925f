"""The PNG of a picture, read by Pillow (independent): colours of the palette where they were put, and nothing outside the picture."""

from __future__ import annotations

from io import BytesIO

import numpy as np
import pytest
from PIL import Image

from build_tools.catalog.palette import Palette, rgb
from build_tools.site.previews.canvas import HEIGHT, WIDTH, Canvas

PALETTE = Palette()
PAPER, TINT = rgb(PALETTE.file["paper"]), rgb(PALETTE.file["tint"])


def read(canvas: Canvas) -> Image.Image:
    image = Image.open(BytesIO(canvas.png()))
    image.load()  # checks the sums of the chunks too
    return image


def test_an_empty_picture_is_paper() -> None:
    image = read(Canvas(PALETTE))
    assert (image.size, image.mode, image.format) == ((WIDTH, HEIGHT), "P", "PNG")
    assert image.convert("RGB").getcolors() == [(WIDTH * HEIGHT, PAPER)]


def test_rectangles_and_plates_stand_where_they_were_put() -> None:
    canvas = Canvas(PALETTE)
    canvas.fill(10, 20, 30, 40, "tint")
    canvas.lay(np.full((4, 6), 255, np.uint8), 101, 33, "accent")
    image = read(canvas).convert("RGB")
    assert image.getpixel((10, 20)) == image.getpixel((39, 59)) == TINT
    assert image.getpixel((40, 20)) == image.getpixel((9, 20)) == PAPER
    box = (
        image.point(lambda v: 255 if v < 100 else 0)
        .convert("L")
        .point(lambda v: 255 if v else 0)
        .getbbox()
    )
    assert box == (101, 33, 107, 37)
    assert image.getpixel((103, 35)) == (21, 94, 91)


def test_coverage_becomes_steps_from_the_paper_to_the_colour() -> None:
    canvas = Canvas(PALETTE)
    canvas.lay(np.arange(256, dtype=np.uint8)[None, :], 0, 0, "ink")
    row = np.array(read(canvas).convert("L"))[0, :256].astype(int)
    assert (np.diff(row) <= 0).all() and row[0] == 255 and row[-1] < 40 and len(set(row)) == 4


@pytest.mark.parametrize(("left", "top"), [(-1, 0), (0, -1), (WIDTH - 5, 0), (0, HEIGHT - 3)])
def test_what_would_leave_the_picture_is_refused(left: int, top: int) -> None:
    with pytest.raises(ValueError, match="leave the picture"):
        Canvas(PALETTE).lay(np.zeros((4, 6), np.uint8), left, top, "ink")


def test_letters_on_end_are_letters_turned() -> None:
    along, up = Canvas(PALETTE), Canvas(PALETTE)
    along.write("Wick", 100, 300, 26)
    up.write_up("Wick", 100, 300, 26)
    dark = [int((np.array(read(c).convert("L")) < 128).sum()) for c in (along, up)]
    assert dark[0] == dark[1] > 100
