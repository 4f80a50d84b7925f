"""Two bars: their lengths, what could be, the people, and that no text meets another.

Outside checks: percentages of change by hand, the XML by expat, the places of texts by the browser's own boxes.
"""

from __future__ import annotations

import xml.etree.ElementTree as ET
from dataclasses import replace
from typing import TYPE_CHECKING

import pytest
import shipped_made
from folders import DEMO
from made import compared, row

from build_tools.catalog.load import load
from build_tools.catalog.palette import Palette
from build_tools.evidence.claims.conclusions import Comparison
from build_tools.evidence.terms import Gains, RatioInterval
from build_tools.evidence.wording.names import Names
from build_tools.site.plots import gain_bars
from build_tools.site.templating import render

if TYPE_CHECKING:
    from playwright.sync_api import Browser

SVG = "{http://www.w3.org/2000/svg}"
NAMES = Names(load(DEMO, "catalog"))
#: 18% against 10%: 1.18 / 1.10 = 1.0727; between 1.10 x 1.02 - 1 = 12.2% and 1.10 x 1.13 - 1 = 24.3%.
GREW = compared(
    "crate-curl",
    "cable-curl",
    row(),
    estimate=(1.18 / 1.10, 1.02, 1.13),
    finding="found",
    side="more",
    gains=Gains(1.18, 1.10),
    weeks=(12.0, 12.0),
)
TURNED = compared(
    "cable-curl",
    "crate-curl",
    row(),
    estimate=(1.10 / 1.18, 1 / 1.13, 1 / 1.02),
    finding="found",
    side="less",
    gains=Gains(1.10, 1.18),
    weeks=(12.0, 12.0),
)
PRINTED = compared(
    "cable-curl",
    "crate-curl",
    row(direction="less", weighed=True, difference="difference −3.2 mm, 95% interval −6 to −0.4"),
    finding="found",
    side="less",
)


def drawn(comparison: Comparison, reach: gain_bars.Reach | None = None) -> ET.Element:
    made = gain_bars.bars(NAMES, comparison, "b1", reach)
    assert made
    return ET.fromstring(gain_bars.svg(made).strip())


def share(attribute: str) -> float:
    return float(attribute.removesuffix("%")) / 100


def widths(root: ET.Element) -> list[float]:
    return [share(bar.get("width")) for bar in root.findall(f"{SVG}rect")]


def test_bars_are_as_long_as_the_gains() -> None:
    first, second = widths(drawn(GREW))
    assert first / second == pytest.approx(18 / 10, rel=1e-3)
    line = drawn(GREW).find(f"{SVG}line[@class='hb-bars__line']")
    ends = [share(line.get(end)) for end in ("x1", "x2")]
    assert [end / second * 10 for end in ends] == pytest.approx([12.2, 24.3], abs=0.02)


def test_whoever_is_ahead_stands_first() -> None:
    assert gain_bars.bars(NAMES, TURNED, "b1") == gain_bars.bars(NAMES, GREW, "b1")


def test_the_words_say_all_that_is_drawn() -> None:
    root = drawn(GREW)
    assert root.get("role") == "img" and root.get("aria-labelledby") == "b1-title b1-says"
    assert root.find(f"{SVG}title").text == (
        "Growth of the long head of the lantern muscle: crate curl against standing cable curl"
    )
    assert root.find(f"{SVG}desc").text == (
        "Crate curl: 18%. Standing cable curl: 10%. 18% could be 12% to 24%. 18 people, 12 weeks."
    )


@pytest.mark.parametrize(("people", "dots"), [(1, 1), (18, 18), (40, 40), (41, 0)])
def test_a_dot_is_a_person_up_to_forty(people: int, dots: int) -> None:
    root = drawn(replace(GREW, people=people))
    people_drawn = root.find(f"{SVG}path[@class='hb-bars__people']")
    assert (people_drawn.get("d").count("M") if people_drawn is not None else 0) == dots
    assert any(str(people) in (text.text or "") for text in root.findall(f"{SVG}text"))


def test_a_loss_goes_to_the_left_of_nothing() -> None:
    lost = replace(GREW, estimate=None, gains=None)
    assert gain_bars.bars(NAMES, lost, "b1") is None  # nothing to draw
    lost = compared(
        "crate-curl",
        "cable-curl",
        row(),
        estimate=(1.02 / 0.98, 0.97, 1.11),
        gains=Gains(1.02, 0.98),
    )
    made = gain_bars.bars(NAMES, lost, "b1")
    assert made and made.bars[1].end == made.zero and made.bars[1].start < made.zero
    assert made.bars[1].amount == "2% lost" and made.reference < made.zero


def test_a_printed_difference_is_drawn_as_one_from_the_side_ahead() -> None:
    """−3.2 mm (−6 to −0.4) of the second side is 3.2 mm (0.4 to 6) of the first."""
    made = gain_bars.bars(NAMES, PRINTED, "b1")
    assert made and made.look == "difference" and made.reference == made.zero > 0.1
    assert made.says == (
        "Crate curl: 3.2 mm more. Only the difference is printed. "
        "Could be 0.4 mm more to 6 mm more. 18 people."
    )
    bar, line = made.bars[0], made.whisker
    assert line and (line.high - made.zero) / (bar.end - bar.start) == pytest.approx(
        6 / 3.2, abs=1e-6
    )


def test_only_a_direction_has_no_bars() -> None:
    told = compared(
        "crate-curl", "cable-curl", row(direction="more"), finding="hinted", side="more"
    )
    assert gain_bars.bars(NAMES, told, "b1") is None
    interval_only = replace(told, estimate=GREW.estimate, sized=False)
    assert gain_bars.bars(NAMES, interval_only, "b1") is None


def test_activation_never_looks_like_growth() -> None:
    question = replace(GREW.question, outcome="activation")
    made = gain_bars.bars(NAMES, replace(GREW, question=question, gains=None), "b1")
    assert made and made.look == "activation"
    assert "one session" in made.says and "%: " not in made.says
    root = ET.fromstring(gain_bars.svg(made).strip())
    assert "hb-bars--activation" in root.get("class")
    assert all(bar.get("rx") for bar in root.findall(f"{SVG}rect"))
    assert not any(bar.get("rx") for bar in drawn(GREW).findall(f"{SVG}rect"))


def test_the_last_digit_of_a_machine_is_not_told() -> None:
    """As far from 1 as double-precision numbers can be: libraries of two years gave 1 and 1.0000000000000002."""
    question = replace(GREW.question, outcome="activation")
    alike = replace(GREW, question=question, gains=None, estimate=RatioInterval(1, 0.7, 1.4))
    near = replace(alike, estimate=RatioInterval(1 + 2**-52, 0.7, 1.4))
    told = [gain_bars.bars(NAMES, one, "b1") for one in (alike, near)]
    assert told[0] and told[1] and told[0].says == told[1].says


def test_a_ratio_alone_names_the_sizes_at_the_end() -> None:
    """Gains that do not tell what the estimate tells are left out, as in the sentence: 1.5 / 1.1 lies outside 1.02 to 1.13."""
    made = gain_bars.bars(NAMES, replace(GREW, gains=Gains(1.5, 1.1)), "b1")
    assert made and made.look == "size" and "Sizes at the end" in made.says


def test_comparisons_side_by_side_share_an_axis() -> None:
    small = compared(
        "crate-curl", "cable-curl", row(), estimate=(1.01, 0.99, 1.03), gains=Gains(1.02, 1.0099)
    )
    reach = gain_bars.common_reach([GREW, small, PRINTED])
    both = widths(drawn(GREW, reach))[0], widths(drawn(small, reach))[0]
    assert both[0] / both[1] == pytest.approx(18 / 2, rel=0.01)


@pytest.fixture(scope="module")
def all_bars() -> list[gain_bars.GainBars]:
    """Every comparison of the shipped catalog that can be drawn."""
    known = shipped_made.conclusions()
    every = [c for field in known.fields.values() for c in field.comparisons]
    made = (gain_bars.bars(known.names, c, f"b{n}") for n, c in enumerate(every))
    return [drawn for drawn in made if drawn]


@pytest.mark.browser
def test_no_text_meets_another_on_a_phone(
    all_bars: list[gain_bars.GainBars], browser: Browser
) -> None:
    """At 340 pixels, less than the column of a phone that is 390 wide, in the widest of the usual fonts."""
    page = browser.new_page(viewport={"width": 390, "height": 844})
    page.set_content(
        f'<style>{render("handbook.css.jinja", palette=Palette())} :root{{--md-text-font: "DejaVu Sans", Verdana, sans-serif}}</style>'
        '<body data-md-color-scheme="default"><div style="width:340px">'
        + "".join(map(gain_bars.svg, all_bars))
    )
    assert len(all_bars) > 300
    assert page.evaluate(MEETING) == []
    page.close()


MEETING = """() => [...document.querySelectorAll("svg.hb-bars")].flatMap(svg => {
  const box = svg.getBoundingClientRect(), texts = [...svg.querySelectorAll("text")].map(e => [e.textContent, e.getBoundingClientRect()]);
  const meet = (a, b) => a.left < b.right && b.left < a.right && a.top + 2 < b.bottom && b.top + 2 < a.bottom;
  return texts.flatMap(([text, a], n) => [
    ...(a.left < box.left - 1 || a.right > box.right + 1 || a.bottom > box.bottom + 3 ? [[text, "leaves the drawing"]] : []),
    ...texts.slice(n + 1).filter(([, b]) => meet(a, b)).map(([other]) => [text, other]),
  ]);
})"""
