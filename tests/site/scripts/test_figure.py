"""Drawings of pages as files, made in Chromium and read by Python's parser (expat)."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING
from xml.etree import ElementTree

import pytest

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page

pytestmark = pytest.mark.browser

SVG = "{http://www.w3.org/2000/svg}"


@pytest.fixture(scope="module")
def page(browser: Browser, shipped_address: str) -> Iterator[Page]:
    with browser.new_context(
        base_url=shipped_address, color_scheme="dark", accept_downloads=True
    ) as context:
        yield context.new_page()


def saved(page: Page, path: str, button: str) -> tuple[str, ElementTree.Element]:
    """The name of a file that a page makes, and what stands in it."""
    page.goto(path)
    page.evaluate("document.querySelectorAll('details').forEach(d => d.open = true)")
    with page.expect_download() as download:
        page.locator(button).first.click()
    written = Path(download.value.path()).read_bytes()
    # It asks nobody for anything.
    assert b"url(" not in written and b"href" not in written and b"@import" not in written
    assert b"var(" not in written
    return download.value.suggested_filename, ElementTree.fromstring(written)


def words(root: ElementTree.Element) -> str:
    return " ".join(text.text or "" for text in root.iter(f"{SVG}text"))


def test_postures_with_their_words_and_whose_they_are(page: Page) -> None:
    name, root = saved(page, "exercises/back-squat/", '.hb-posed [data-figure$=".svg"]')
    assert name == "back-squat.svg"
    assert root.attrib["role"] == "img" and "knees bent" in root.attrib["aria-label"]
    assert len(root.findall(f"{SVG}svg/{SVG}g/{SVG}svg")) == 3  # top, bottom, and the feet
    told = words(root)
    for part in ("Back squat", "Top", "Bottom", "Thick line: quads", "Drillis", "Delp", "Licence:"):
        assert part in told
    styled = set(re.findall(r"\.(hb-pose__\w+)", root.find(f"{SVG}style").text or ""))  # type: ignore[union-attr]
    assert {path.attrib["class"] for path in root.iter(f"{SVG}path")} <= styled


def test_a_plot_of_studies_names_them(page: Page) -> None:
    name, root = saved(page, "exercises/seated-leg-curl/", '[data-figure^="claim-"]')
    assert re.fullmatch(r"claim-\d+-\d+\.svg", name)
    told = words(root)
    for part in ("Sources: ", "et al.", "https://doi.org/", "From: Evidence handbook", "Licence:"):
        assert part in told


def test_curves_say_what_they_rest_on_and_do_not_show(page: Page) -> None:
    path, two = "exercises/seated-leg-curl/", '[data-figure^="with-"]'
    for button in ('[data-figure="load-and-length.svg"]', two):
        _, root = saved(page, path, button)
        told = words(root)
        for part in ("It does not show growth.", "Delp", "CC BY 3.0", "de Leva 1996", "Licence:"):
            assert part in told


def test_without_a_network_it_is_said(page: Page) -> None:
    page.goto("exercises/back-squat/")
    page.route("**/data/figure.json", lambda route: route.abort())
    page.get_by_role("button", name="Download as SVG").click()
    page.get_by_role("status").filter(has_text="Is there a network?").wait_for()
