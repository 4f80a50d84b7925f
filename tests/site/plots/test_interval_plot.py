"""Interval plots: places on the axis, shapes, words, and what hostile names can do to them.

Outside checks: positions are read back from the drawing and compared with the
logarithm's own laws (equal ratios, equal distances); the XML is judged by
expat, the parser of the standard library.
"""

from __future__ import annotations

import math
import xml.etree.ElementTree as ET

import pytest
from hypothesis import given
from hypothesis import strategies as st

from build_tools.evidence.terms import RatioInterval
from build_tools.site.plots.axis import fitting
from build_tools.site.plots.interval_plot import PlotRow, plot, svg

SVG = "{http://www.w3.org/2000/svg}"
RATIOS = st.floats(0.02, 50)
ROWS = [
    PlotRow("Wick et al. 2030, 18 people", "5% more", "sample", RatioInterval(1.05, 1.01, 1.09)),
    PlotRow("Glow 2031, 12 people", "less", "direction", direction="less"),
    PlotRow("Wax 2032, 9 people", "no difference", "direction", direction="neither"),
    PlotRow("All together", "4% more", "together", RatioInterval(1.04, 1.005, 1.07)),
]


def drawn(rows: list[PlotRow], margin: float = 1.02) -> ET.Element:
    return ET.fromstring(svg(plot("fig", "Muscle size: a against b", rows, margin)).strip())


def share(attribute: str) -> float:
    return float(attribute.removesuffix("%")) / 100


@given(st.lists(RATIOS, min_size=1, max_size=5), st.floats(1.001, 3))
def test_equal_ratios_are_equal_distances(ratios: list[float], factor: float) -> None:
    axis = fitting(ratios, ratios)
    steps = [axis.place(axis.low * factor**n) for n in range(3) if axis.low * factor**n < axis.high]
    for a, b, c in zip(steps, steps[1:], steps[2:], strict=False):
        assert b - a == pytest.approx(c - b)


@given(st.lists(st.floats(1 / 16, 16), min_size=1, max_size=5))
def test_every_estimate_is_on_the_axis(ratios: list[float]) -> None:
    axis = fitting(ratios, ratios)
    assert all(axis.low <= r * (1 + 1e-8) and r <= axis.high * (1 + 1e-8) for r in ratios)
    assert all(0 < axis.place(r) < 1 for r in ratios)


def test_places_in_the_drawing_are_the_ratios() -> None:
    """Read back from the percentages and the two ends of the axis, by hand."""
    root = drawn(ROWS)
    line = root.find(f".//{SVG}line[@class='hb-plot__line']")
    low, high = math.log(0.9), math.log(1.1)  # the axis that fits 1.01 to 1.09
    read = [
        math.exp(low + (share(line.get(end)) - 0.02) / 0.96 * (high - low)) for end in ("x1", "x2")
    ]
    assert read == pytest.approx([1.01, 1.09], abs=2e-4)


def test_shapes_tell_the_kinds_apart_without_colour() -> None:
    rows = drawn(ROWS).findall(f"{SVG}svg")
    assert len(rows) == 4
    shapes = [
        [
            (e.tag.removeprefix(SVG), e.get("class"))
            for e in row.iter()
            if e.tag.removeprefix(SVG) in ("circle", "path", "line")
        ]
        for row in rows
    ]
    assert shapes[0] == [("line", "hb-plot__line"), ("circle", "hb-plot__solid")]
    assert shapes[1] == [("path", "hb-plot__arrow"), ("circle", "hb-plot__hollow")]  # no interval
    assert shapes[2] == [("circle", "hb-plot__hollow")]
    assert shapes[3] == [
        ("line", "hb-plot__line hb-plot__line--together"),
        ("path", "hb-plot__solid"),
    ]


def test_a_number_without_a_spread_is_hollow_and_stands_at_its_ratio() -> None:
    rows = [*ROWS, PlotRow("Wax 2032, 9 people", "7% more", "number", number=1.07)]
    drawn_row = drawn(rows).findall(f"{SVG}svg")[-1]
    assert [
        e.get("class") for e in drawn_row.iter() if e.tag in (f"{SVG}circle", f"{SVG}line")
    ] == ["hb-plot__hollow"]
    low, high = math.log(0.9), math.log(1.1)
    at = share(drawn_row.find(f"{SVG}svg").get("x"))
    assert math.exp(low + (at - 0.02) / 0.96 * (high - low)) == pytest.approx(1.07, abs=2e-4)
    assert "prints no spread" in plot("fig", "t", rows, 1.02).key


def test_a_wide_interval_is_cut_with_an_arrow() -> None:
    wide = [
        PlotRow("a", "x", "sample", RatioInterval(1.05, 0.1, 12)),
        PlotRow("b", "x", "sample", RatioInterval(1.04, 1.01, 1.07)),
    ]
    laid = plot("fig", "t", wide, 1.02)
    assert laid.marks[0].cut_low and laid.marks[0].cut_high
    assert not laid.marks[1].cut_low and not laid.marks[1].cut_high
    assert laid.marks[1].high - laid.marks[1].low > 0.1  # not pressed flat by the other


def test_the_words_say_every_row() -> None:
    root = drawn(ROWS)
    assert root.get("role") == "img" and root.get("aria-labelledby") == "fig-title fig-says"
    says = root.find(f"{SVG}desc").text
    assert says == (
        "Wick et al. 2030, 18 people: 5% more. Glow 2031, 12 people: less. Wax 2032, 9 people: no difference. "
        "All together: 4% more."
    )


def test_the_margin_is_a_band_around_alike() -> None:
    root = drawn(ROWS, margin=1.05)
    band = root.find(f"{SVG}rect[@class='hb-plot__band']")
    one = share(root.find(f"{SVG}line[@class='hb-plot__one']").get("x1"))
    left, width = share(band.get("x")), share(band.get("width"))
    assert left < one < left + width
    assert "within 5%" in plot("fig", "t", ROWS, 1.05).key


@given(
    st.text(st.characters(exclude_categories=["Cs", "Cc"]), min_size=1)
    | st.sampled_from(
        [
            "</text><script>alert(1)</script>",
            '"><img src=x onerror=alert(1)>',
            "]]>",
            "&lt;",
            "{{ 7*7 }}",
        ]
    )
)
def test_labels_stay_text(label: str) -> None:
    expected = [
        e.tag for e in drawn([PlotRow("a", "x", "sample", RatioInterval(1.1, 1, 1.2))]).iter()
    ]
    root = drawn([PlotRow(label, label, "sample", RatioInterval(1.1, 1, 1.2))])
    assert [e.tag for e in root.iter()] == expected
    assert root.find(f".//{SVG}text[@class='hb-plot__label']").text == label
