"""Text that would run stays text in everything that is published, theme and files included: one site with another payload in each text.

Judges: Chromium (what runs, what is asked of other hosts), and readers of each format: html.parser, ElementTree, json, csv.
"""

from __future__ import annotations

import csv
import io
import json
import re
import xml.etree.ElementTree as ET
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from hostile import PAYLOADS
from poisoned_site import made, pages
from site_reading import Reader
from site_serving import serve, watched
from week_links import link_of

if TYPE_CHECKING:
    from playwright.sync_api import Browser

FIRST = ("=", "+", "-", "@", "\t", "\r", "\n")


@pytest.fixture(scope="module")
def harmless(tmp_path_factory: pytest.TempPathFactory) -> Path:
    # Names are as different as those of the others: a page says the one of a study only where it is another.
    return made(tmp_path_factory.mktemp("harmless"), [f"b{n}" for n in range(len(PAYLOADS))])[0]


@pytest.fixture(scope="module", params=[0, 1, 2])
def hostile(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Three sites, so that most texts meet three payloads of different kinds."""
    at = request.param * 57
    site, number = made(tmp_path_factory.mktemp("hostile"), PAYLOADS[at:] + PAYLOADS[:at])
    assert number > len(PAYLOADS) >= 150
    return site


def structure(html: str) -> list[tuple[str, tuple[str, ...]]]:
    """Elements and their attributes, without lines of text in a drawing, and breaks that a longer word needs."""
    return [
        element for element in Reader(html).elements if element[0] not in ("text", "tspan", "wbr")
    ]


def test_no_page_has_another_element_or_attribute(harmless: Path, hostile: Path) -> None:
    expected = dict(pages(harmless))
    found = dict(pages(hostile))
    assert found.keys() == expected.keys()
    wrong = [path for path, html in found.items() if structure(html) != structure(expected[path])]
    assert not wrong


def test_every_file_is_read_as_what_it_is(hostile: Path) -> None:
    kinds = set()
    for path in sorted(hostile.rglob("*")):
        kinds.add(path.suffix)
        if path.suffix in (".svg", ".atom", ".xml"):
            names = {element.tag.rpartition("}")[2] for element in ET.parse(path).iter()}
            assert not names & {"script", "foreignObject", "iframe", "image", "a"} - {
                "a" if path.suffix == ".atom" else ""
            }, path
        if path.suffix in (".json", ".jsonld"):
            json.loads(path.read_text(encoding="utf-8"))
        if path.suffix == ".csv":
            for row in csv.reader(
                io.StringIO(path.read_text(encoding="utf-8-sig"), newline=""), strict=True
            ):
                for cell in row:
                    assert not cell.startswith(FIRST) or re.fullmatch(
                        r"-?\d+(\.\d+)?(e[+-]?\d+)?", cell
                    ), (path, cell)
    assert {".svg", ".atom", ".json", ".csv", ".html"} <= kinds


def test_data_in_pages_is_read_as_data(hostile: Path) -> None:
    number = 0
    for _, html in pages(hostile):
        for text in re.findall(
            r'<script [^>]*type="application/(?:ld\+)?json"[^>]*>(.*?)</script>', html, re.S
        ):
            json.loads(text)
            number += 1
    assert number > 20


@pytest.mark.browser
def test_nothing_runs_and_nothing_is_asked_of_others(browser: Browser, hostile: Path) -> None:
    with serve(hostile) as address, browser.new_context() as context:
        page, wrong = watched(context, address)
        paths = [path for path, html in pages(hostile) if "refresh" not in html]
        for path in paths:
            page.goto(f"{address}{path.removesuffix('index.html')}")
            page.wait_for_timeout(50)
            assert not wrong, (path, wrong)
        # What scripts show: search, the finder, the week with a name of odd letters, a handout.
        page.goto(address)
        page.get_by_role("combobox").first.fill("curl")
        page.locator("[role=option]").first.wait_for()
        page.goto(f"{address}compare/?exercises=crate-curl,cable-curl")
        page.locator(".hb-grid").wait_for()
        page.goto(f"{address}find/")
        page.wait_for_load_state("networkidle")
        assert not wrong
        page.goto(f"{address}week/#{link_of({0: ['crate-curl', 'cable-curl']})}")
        page.locator(".hb-row").nth(1).wait_for()
        with page.expect_download() as got:
            page.get_by_role("button", name="Save as a file").press("Enter")
        saved = json.loads(got.value.path().read_text(encoding="utf-8"))
        assert [row["exercise"] for row in saved["days"][0]] == ["crate-curl", "cable-curl"]
        assert not wrong
