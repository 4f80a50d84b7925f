"""Colours and their contrast.

Outside sources: the ratios that guides to WCAG print (black on white 21, #767676 4.54, #888 3.5, #595959 7.0, #999 2.85, as read in
several of them), and axe-core (Deque), an independent reckoner of WCAG 2.2.
"""

from __future__ import annotations

import random
from typing import TYPE_CHECKING

import axe
import pytest

from build_tools.catalog.entries import Accents
from build_tools.catalog.palette import SIGN, TEXT, Palette, contrast, mix, nearest, rgb

if TYPE_CHECKING:
    from playwright.sync_api import Browser


@pytest.mark.parametrize(
    ("grey", "ratio"),
    [("#000", 21), ("#767676", 4.54), ("#888", 3.5), ("#595959", 7.0), ("#999999", 2.85)],
)
def test_published_contrasts_with_white(grey: str, ratio: float) -> None:
    assert contrast(grey, "#ffffff") == contrast("#fff", grey) == pytest.approx(ratio, abs=0.05)


@pytest.mark.browser
def test_contrasts_are_those_of_axe(browser: Browser) -> None:
    draw = random.Random(16)
    pairs = [[f"#{draw.randrange(1 << 24):06x}" for _ in range(2)] for _ in range(300)]
    with browser.new_context() as context:
        page = context.new_page()
        page.evaluate(axe.script())
        found = page.evaluate(
            """pairs => pairs.map(pair => axe.commons.color.getContrast(...pair.map(text => {
                 const made = new axe.commons.color.Color(); made.parseHexString(text); return made; })))""",
            pairs,
        )
    assert [contrast(*pair) for pair in pairs] == pytest.approx(found, rel=1e-3)


def test_our_own_colours_can_be_read() -> None:
    palette = Palette()
    for _, colour, surfaces, least in palette.surfaces():
        assert min(contrast(colour, on) for on in surfaces) >= least
    for shades in (palette.light, palette.dark, palette.client["light"], palette.client["dark"]):
        for role in ("ink", "quiet", "accent", "activation", "taught", "care"):
            assert contrast(shades[role], shades["paper"]) >= TEXT, role
            assert contrast(shades[role], shades["panel"]) >= TEXT, role


def test_a_handbooks_colours_are_those_of_every_place() -> None:
    palette = Palette.of(Accents(light="#8a2f55", dark="#efa9c6"))
    assert {palette.light["accent"], palette.client["light"]["accent"]} == {"#8a2f55"}
    assert {palette.dark["accent"], palette.client["dark"]["accent"]} == {"#efa9c6"}
    assert palette.light["care"] == Palette().light["care"], "what speaks of care stays"
    assert palette.file["tint"] not in ("#fff", Palette().file["tint"])


@pytest.mark.parametrize("light", ["#000080", "#7a4a00", "#004d00", "#5a005a"])
def test_a_sign_that_nobody_chose_is_seen_on_light_and_dark(light: str) -> None:
    palette = Palette.of(Accents(light=light, dark="#ffffff"))
    mark, papers = palette.mark, (palette.light["paper"], palette.dark["paper"])
    assert min(contrast(mark, paper) for paper in papers) >= SIGN


def test_the_nearest_shade_passes_and_none_is_told() -> None:
    shade = nearest("#e8a33d", ["#ffffff"], TEXT)
    assert shade and contrast(shade, "#ffffff") >= TEXT
    assert nearest("#8a2f55", ["#ffffff"], TEXT) == "#8a2f55", "a colour that passes stays"
    assert nearest("#777777", ["#000000", "#ffffff"], 5) is None


def test_colours_are_mixed_by_channel() -> None:
    assert mix("#000", "#ffffff", 0.5) == "#808080" and rgb("#fa0") == rgb("#ffaa00")
