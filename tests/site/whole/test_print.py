"""Pages on paper, counted in the PDF that the browser prints: an exercise on one A4 page, a muscle and a part on two at most.

The longest of each kind stand for the others; the count of pages is read from the PDF itself (ISO 32000: page objects).
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page

pytestmark = pytest.mark.browser

#: How many of the longest pages of a kind are printed.
MANY = 6


@pytest.fixture(scope="module")
def page(browser: Browser, shipped_address: str) -> Iterator[Page]:
    """Without script, as paper has none."""
    with browser.new_context(base_url=shipped_address, java_script_enabled=False) as context:
        yield context.new_page()


def longest(site: Path, pattern: str) -> list[str]:
    """Addresses of the longest pages, as a reader sees them: what is folded is left out."""
    found = {}
    for file in site.glob(pattern):
        text = re.sub(
            r"<details.*?</details>|<[^>]+>", "", file.read_text("utf-8"), flags=re.DOTALL
        )
        found[f"{file.parent.relative_to(site).as_posix()}/"] = len(text)
    return sorted(found, key=lambda address: -found[address])[:MANY]


@pytest.mark.parametrize(
    ("pattern", "most"),
    [
        ("exercises/*/index.html", 1),
        ("muscles/*/index.html", 2),
        ("muscles/*/*/index.html", 2),
    ],
)
def test_pages_of_a_kind_fit_their_paper(
    page: Page, shipped_site: Path, pattern: str, most: int
) -> None:
    for address in longest(shipped_site, pattern):
        page.goto(address)
        printed = page.pdf(format="A4", prefer_css_page_size=True)
        assert len(re.findall(rb"/Type\s*/Page\b", printed)) <= most, address


def test_paper_shows_the_line_the_cautions_and_what_it_leaves_out(page: Page) -> None:
    page.emulate_media(media="print")
    page.goto("exercises/back-squat/")
    for shown in (
        ".hb-line",
        ".hb-strip >> nth=0",
        ".hb-caution--help",
        ".hb-notice",
        "p.hb-print",
    ):
        assert page.locator(shown).is_visible(), shown
    assert "not printed" in page.locator("p.hb-print").inner_text()
