"""Colour separation: what resvg draws, read by Pillow's decoder (independent), is what the plates hold."""

from __future__ import annotations

import struct
import zlib
from io import BytesIO
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from PIL import Image

from build_tools.site.previews import plates as subject

DRAWING = (
    f'<circle cx="40" cy="30" r="22" fill="{subject.shade(0.4)}" stroke="{subject.INK}" stroke-width="5"/>'
    f'<path d="M3 50L77 8" stroke="{subject.ACCENT}" stroke-width="6"/>'
)


def test_plates_are_the_channels_that_pillow_reads(monkeypatch: pytest.MonkeyPatch) -> None:
    made: list[bytes] = []
    draw = subject.resvg_py.svg_to_bytes
    monkeypatch.setattr(
        subject.resvg_py, "svg_to_bytes", lambda **how: (made.append(draw(**how)), made[-1])[1]
    )
    found = subject.plates(DRAWING, 80, 60)
    pixels = np.array(Image.open(BytesIO(made[0])).convert("RGB"))
    assert (found.ink == 255 - pixels[..., 0]).all()
    assert (found.accent == 255 - pixels[..., 2]).all()
    assert found.ink.max() == 255 and found.accent.max() == 255
    assert not (found.ink[29, 40] and found.accent[29, 40] == 255)  # an accent covers the ink


def filtered(rows: list[list[int]], kinds: list[int]) -> bytes:
    """An RGBA PNG of grey rows, each filtered as the PNG specification (section 9.2) says, written here once more."""
    lines, above = b"", [0] * (4 * len(rows[0]))
    for row, kind in zip(rows, kinds, strict=True):
        flat = [part for value in row for part in (value, value, value, 255)]
        line = []
        for n, value in enumerate(flat):
            a = flat[n - 4] if n >= 4 else 0
            b, c = above[n], above[n - 4] if n >= 4 else 0
            p = a + b - c
            paeth = min((a, b, c), key=lambda one: abs(p - one))
            guess = (0, a, b, (a + b) // 2, paeth)[kind]
            line.append((value - guess) & 255)
        lines += bytes([kind, *line])
        above = flat
    chunks = [
        (b"IHDR", struct.pack(">IIBBBBB", len(rows[0]), len(rows), 8, 6, 0, 0, 0)),
        (b"IDAT", zlib.compress(lines)),
        (b"IEND", b""),
    ]
    return b"\x89PNG\r\n\x1a\n" + b"".join(
        struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))
        for kind, data in chunks
    )


@settings(max_examples=60, deadline=None)
@given(st.data())
def test_every_filter_is_undone(data: Any) -> None:
    width, height = data.draw(st.integers(1, 9)), data.draw(st.integers(1, 7))
    levels = st.sampled_from([0, 1, 90, 200, 254, 255])
    rows = data.draw(
        st.lists(st.lists(levels, min_size=width, max_size=width), min_size=height, max_size=height)
    )
    kinds = data.draw(st.lists(st.integers(0, 4), min_size=height, max_size=height))
    png = filtered(rows, kinds)
    assert (
        np.array(Image.open(BytesIO(png)))[..., 0].tolist() == rows
    )  # Pillow agrees with the writer above
    assert subject._channel(subject._lines(png), 0).tolist() == rows


def test_a_png_of_another_kind_is_refused() -> None:
    out = BytesIO()
    Image.new("L", (4, 4)).save(out, "png")
    with pytest.raises(ValueError, match="another kind"):
        subject._lines(out.getvalue())
