"""Plots of load and length: geometry read back from the drawing, words, files, and every shipped exercise.

Outside check: the drawn curve of a sine is read back and compared with the sine; XML is judged by expat.
"""

from __future__ import annotations

import json
import re
from itertools import pairwise
from math import pi, sin

import pytest
import shipped_made

from build_tools.site.book import Book
from build_tools.site.plots import curve_pair, curves
from build_tools.site.plots.curve_plot import (
    EDGE,
    LENGTH,
    LOAD,
    SAMPLES,
    apart,
    band,
    line,
    steps,
    stretches,
)

SVG = "{http://www.w3.org/2000/svg}"


@pytest.fixture(scope="module")
def shipped() -> Book:
    return shipped_made.book()


def points(path: str) -> list[tuple[float, float]]:
    return [(float(x), float(y)) for x, y in re.findall(r"([\d.]+) ([\d.]+)", path)]


def test_a_drawn_load_is_the_curve() -> None:
    """Between the points of the path as everywhere: within a fifth of a pixel, the two roundings added."""
    drawn = points(line([sin(n / 60 * pi / 2) for n in range(61)], LOAD))
    assert drawn[0][0] == 0 and drawn[-1][0] == 100 and len(drawn) < 20
    for (x, y), (further, below) in pairwise(drawn):
        for n in range(11):
            at = x + n / 10 * (further - x)
            shown = y + n / 10 * (below - y)
            asked = EDGE + (1 - sin(at / 100 * pi / 2)) * (LOAD - 2 * EDGE)
            assert shown == pytest.approx(asked, abs=0.2)


def test_what_lies_on_the_other_side_is_drawn_at_nothing() -> None:
    assert {y for _, y in points(line([-1, -0.5, 0.0], LOAD))} == {LOAD - EDGE}


def test_lengths_are_drawn_in_tenths() -> None:
    shares = [0.31, 0.34, 0.36, 0.44, 0.46]
    assert (
        steps(shares, 108) == "M0 74H37.5V64H87.5V54H100"
    )  # 30, 40, 50% of 100 pixels, 4 from the edge
    assert {y for _, y in points(band(shares, 108))} == {69, 79, 59, 49}


def test_hard_stretches_are_where_the_sine_is_high() -> None:
    ((start, width),) = stretches([sin(n / 60 * pi / 2) for n in range(61)], 0.8)
    assert (start, start + width) == (
        pytest.approx(0.59, abs=0.01),
        1,
    )  # asin 0.8 is 53.13 of 90 degrees


def test_every_shipped_exercise_shows_its_curves_or_says_why_not(shipped: Book) -> None:
    for page in shipped.pages:
        if page.uri.startswith("exercises/") and page.uri != "exercises/index.md":
            section = page.text.partition("{#load-and-length}")[2].partition("## Swaps")[0]
            assert "Hardest" in section or "The load" in section, page.uri
            assert 'role="img"' in section or "No model value is available" in section, page.uri
            assert section.count("Compared with") <= curve_pair.MOST_COMPARED
            assert len(section) < 40_000
            assert "methods/#posture" in section


def test_load_and_length_never_share_a_panel(shipped: Book) -> None:
    for id in shipped.shelf.catalog.exercises:
        if curves.has_plot(shipped.shelf, id):
            drawn = curves.draw(shipped.shelf, id)
            bottoms = [(panel.box, panel.bottom) for panel in drawn.panels]
            assert all(
                first[1] < second[0] for first, second in zip(bottoms, bottoms[1:], strict=False)
            )
            assert all(
                len({mark.style == "band" for mark in panel.marks}) == 1 for panel in drawn.panels
            )
            assert all(panel.height in (LOAD, LENGTH) for panel in drawn.panels)
            assert drawn.says.count("Load about") + drawn.says.count("Length of") == len(
                drawn.panels
            )


def test_files_name_models_licence_and_masses(shipped: Book) -> None:
    """Section 4 of CC BY 3.0 asks for author and licence. Files are made in the reader's browser, of these words and those of the page."""
    [held] = [json.loads(f.content) for f in shipped.files if f.uri == "data/figure.json"]
    for words in ("Delp", "Holzbaur", "CC BY 3.0", "de Leva 1996"):
        assert words in held["curves"]
    assert "Licence:" in held["from"]
    drawn = [page.text for page in shipped.pages if "hb-plot__length" in page.text]
    assert len(drawn) > 60
    for text in drawn:
        basis = text.partition("<span data-basis>")[2].partition("</span>")[0]
        assert "It does not show growth" in basis


def test_two_exercises_that_turn_opposite_ways_are_drawn_the_same_way(shipped: Book) -> None:
    drawn = curve_pair.compare(shipped.shelf, "nordic-curl", "seated-leg-curl")
    assert drawn is not None
    assert [words for words, _ in drawn.ends] == [
        "A: knees bent 90° to knees bent 15°",
        "B: knees bent 100° to knees bent 5°",
    ]
    assert "B is drawn from its end to its start" in drawn.key
    assert [[mark.style for mark in panel.marks] for panel in drawn.panels] == [
        ["solid"],
        ["solid", "dashed"],
    ]


def test_noise_in_a_last_digit_moves_no_letter() -> None:
    """Curves that are alike: in IEEE 754 the three tenths of a sum are not three tenths, and where they are met no matter."""
    plain, summed = 0.3, 0.1 + 0.2
    assert plain != summed
    for at in range(SAMPLES):
        noisy = [summed if n == at else plain for n in range(SAMPLES)]
        assert apart([plain] * SAMPLES, noisy) == SAMPLES // 10
    # A difference that shows still takes the letters to it.
    assert apart([plain] * SAMPLES, [0.4 if n == 40 else plain for n in range(SAMPLES)]) == 40


@pytest.mark.parametrize(
    "pair", [("dumbbell-fly", "incline-dumbbell-fly"), ("incline-dumbbell-fly", "dumbbell-fly")]
)
def test_of_two_loads_that_are_alike_the_first_has_its_letter_above(
    shipped: Book, pair: tuple[str, str]
) -> None:
    """Two loads that only a last digit tells apart: the letters once changed places with the version of Python."""
    first, second = curve_pair.compare(shipped.shelf, *pair).panels[0].marks
    assert first.path == second.path and first.x == second.x == 0.1
    assert first.y < second.y  # in SVG, y grows downwards


def test_exercises_of_a_part_stand_by_length_and_in_no_ranking(shipped: Book) -> None:
    uri = "muscles/hamstrings/semitendinosus.md"
    part = next(page.text for page in shipped.pages if page.uri == uri)
    listed = part.partition('<dl class="hb-tenths">')[2].partition("</dl>")[0]
    assert "Not a ranking: it says nothing of growth or activation." in part
    assert (
        listed.index("Long")
        < listed.index("Romanian deadlift")
        < listed.index("Middle")
        < listed.index("Short")
    )
    assert 'Seated leg curl</a> <span class="hb-quiet">(mean)' in listed  # a machine
    shares = [int(share) for share in re.findall(r"<dt>(\d+)%", listed)]
    assert shares == sorted(set(shares), reverse=True) and all(share % 10 == 0 for share in shares)
