"""Records that a page takes out of those of all sources, in Chromium: read by pybtex (BibTeX), rispy (RIS) and the json module."""

from __future__ import annotations

import json
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
import rispy
from pybtex.database import parse_string

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page

pytestmark = pytest.mark.browser


def taken(page: Page, name: str) -> tuple[str, str]:
    """Name and text of what a link gives."""
    with page.expect_download() as download:
        page.get_by_role("link", name=name, exact=True).click()
    path = Path(download.value.path())
    return download.value.suggested_filename, path.read_text(encoding="utf-8")


def test_a_source_gives_its_own_record_in_every_form(page: Page) -> None:
    page.goto("sources/wick2030/")
    name, bib = taken(page, "BibTeX")
    assert (name, list(parse_string(bib, "bibtex").entries)) == ("wick2030.bib", ["wick2030"])
    name, ris = taken(page, "RIS")
    assert (name, [one["id"] for one in rispy.loads(ris)]) == ("wick2030.ris", ["wick2030"])
    name, csl = taken(page, "CSL-JSON")
    assert (name, [one["id"] for one in json.loads(csl)]) == ("wick2030.json", ["wick2030"])
    assert not page.get_by_text("(in the file of all)").is_visible()


def test_an_exercise_gives_those_that_it_lists(page: Page) -> None:
    page.goto("exercises/crate-curl/")
    name, bib = taken(page, "Download them as BibTeX")
    listed = page.locator(".hb-sources a[href*='/sources/']").evaluate_all(
        "all => all.map(a => a.pathname.split('/').at(-2))"
    )
    assert name == "crate-curl-sources.bib"
    assert sorted(parse_string(bib, "bibtex").entries) == sorted(listed)


def test_without_scripts_the_links_lead_to_all_and_say_so(
    browser: Browser, demo_address: str
) -> None:
    with browser.new_context(base_url=demo_address, java_script_enabled=False) as plain:
        page = plain.new_page()
        page.goto("sources/wick2030/")
        assert page.get_by_text("(in the file of all)").is_visible()
        link = page.get_by_role("link", name="RIS", exact=True).get_attribute("href")
        assert plain.request.get(f"{demo_address}sources/wick2030/{link}").ok
