"""What the shipped site weighs: bytes as they lie on the server and packed (gzip), requests of a first visit, and how far pages jump.

Outside sources: a layout shift of at most 0.1 counts as good (web.dev, Cumulative Layout Shift; the measure is the Layout Instability
API's). The other numbers are budgets of our own: what was reached, and a little room. Who needs more says why in the change.
"""

from __future__ import annotations

import gzip
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING
from urllib.parse import urlsplit

import pytest

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page

#: Kind of page -> kB of the heaviest as it lies, kB of the heaviest packed, and kB of all together as they lie.
PAGES = {
    "index.html": (320, 25, 320),
    "exercises/*/index.html": (152, 25, 10_400),
    "sources/*/index.html": (42, 7, 6_150),
    "muscles/*/index.html": (145, 18, 1_030),
    "muscles/*/*/index.html": (195, 22, 4_000),
    "lessons/*/index.html": (23, 6, 280),
    "lessons/*/slides/index.html": (93, 17, 1_040),
    "cues/*/index.html": (17, 6, 2_600),
    "[a-z]*/index.html": (260, 41, 1_420),
}
#: Kind of file that pages load or readers save -> kB of the heaviest, packed, and kB of all together as they lie.
FILES = {
    "data/*.json": (55, 740),
    "data/compare/*.json": (5, 1_750),
    "data/planner/*.json": (6, 270),
    "data/compare/pairs/*.json": (5, 1_300),
    "data/map/*.json": (7, 480),
    "data/set/*": (320, 2_500),
    "search/*.json": (24, 1_080),
    "figures/**/*.svg": (15, 280),
    "scripts/**/*.js": (5, 290),
    "assets/*.css": (9, 70),
}
#: kB of the site without an address, and how many files.
WHOLE, COUNT = 37_200, 1_850
#: Where a first visit may begin -> packed kB of all that it loads beside what the theme ships, and requests.
VISITS = {
    "": (47, 17),
    "exercises/back-squat/": (45, 17),
    "muscles/hamstrings/": (39, 19),
    "muscles/hamstrings/semitendinosus/": (33, 16),
    "sources/kubo2019/": (22, 14),
    "lessons/hamstrings/": (41, 20),
    "exercises/": (29, 15),
    "sources/": (57, 15),
    "find/": (46, 24),
    "compare/": (57, 36),
    "lagging/": (97, 40),
    "week/": (96, 46),
    "tour/": (96, 40),
    "handout/": (35, 19),
    "cues/back-squat/": (6, 2),
}
SHIFT = 0.1
#: Adds up the shifts that no reader caused, as browsers tell them.
WATCH = """window.shifted = 0; new PerformanceObserver((list) => { for (const one of list.getEntries())
  if (!one.hadRecentInput) window.shifted += one.value; }).observe({ type: "layout-shift", buffered: true });"""
#: Rules of stylesheets that a page does not load and that would style something on it.
MISSED = """sheets => {
  const plain = (one) => one.replace(/::?(before|after|placeholder|marker|-webkit-[a-z-]+)/g, "");
  const heads = (rules) => [...rules].flatMap((rule) =>
    rule.selectorText ? rule.selectorText.split(/,(?![^(]*\\))/) : rule.cssRules ? heads(rule.cssRules) : []);
  const there = [...document.styleSheets].map(({ href }) => (href ?? "").split("/").at(-1));
  return Object.entries(sheets).filter(([name]) => !there.includes(name)).flatMap(([name, text]) => {
    const sheet = new CSSStyleSheet();
    sheet.replaceSync(text);
    return heads(sheet.cssRules).map(plain).filter((one) => one.trim() && document.querySelector(one)).map((one) => `${name}: ${one}`);
  });
}"""


def kb(path: Path) -> float:
    return path.stat().st_size / 1000


def packed(path: Path) -> float:
    return len(gzip.compress(path.read_bytes(), 6, mtime=0)) / 1000


def over(found: list[Path], measure: Callable[[Path], float], most: float) -> list[str]:
    return [f"{path}: {size:.1f}" for path in found if (size := measure(path)) > most]


@pytest.mark.parametrize("kind", PAGES)
def test_pages_keep_their_budget(shipped_site: Path, kind: str) -> None:
    heaviest, heaviest_packed, together = PAGES[kind]
    found = sorted(shipped_site.glob(kind))
    assert found and over(found, kb, heaviest) == []
    assert over(found, packed, heaviest_packed) == []
    assert sum(map(kb, found)) <= together


@pytest.mark.parametrize("kind", FILES)
def test_files_keep_their_budget(shipped_site: Path, kind: str) -> None:
    heaviest, together = FILES[kind]
    found = [path for path in sorted(shipped_site.glob(kind)) if path.is_file()]
    assert found and over(found, packed, heaviest) == []
    assert sum(map(kb, found)) <= together


def test_the_whole_keeps_its_budget(shipped_site: Path) -> None:
    found = [path for path in shipped_site.rglob("*") if path.is_file()]
    assert sum(map(kb, found)) <= WHOLE
    assert len(found) <= COUNT
    assert not [path for path in found if path.name.endswith(".map")]


@pytest.mark.browser
@pytest.mark.parametrize("path", VISITS)
def test_a_first_visit_is_light_and_nothing_jumps(
    browser: Browser, shipped_site: Path, shipped_address: str, path: str
) -> None:
    with browser.new_context(
        base_url=shipped_address,
        viewport={"width": 412, "height": 823},
        service_workers="block",
    ) as context:
        page = context.new_page()
        asked: set[str] = set()
        page.on(
            "response",
            lambda answer: (
                asked.add(urlsplit(answer.url).path)
                if answer.url.startswith(shipped_address)
                else None  # a blob
            ),
        )
        page.add_init_script(WATCH)
        slow(page)
        page.goto(path)
        page.wait_for_load_state("networkidle")
        page.wait_for_timeout(300)
        assert page.evaluate("window.shifted") <= SHIFT
        if "md-" in (page.locator("body > *").nth(0).get_attribute("class") or ""):
            sheets = {
                sheet.name: sheet.read_text(encoding="utf-8")
                for sheet in (shipped_site / "assets").glob("*.css")
            }
            assert page.evaluate(MISSED, sheets) == []
    files = [shipped_site / name.lstrip("/") for name in asked]
    files = [file / "index.html" if file.is_dir() else file for file in files]
    own = [file for file in files if ".min." not in file.name]
    most, requests = VISITS[path]
    assert sum(map(packed, own)) <= most
    assert len(files) <= requests


def slow(page: Page) -> None:
    """A phone's network, on which what comes late shows."""
    session = page.context.new_cdp_session(page)
    session.send(
        "Network.emulateNetworkConditions",
        {
            "offline": False,
            "latency": 60,
            "downloadThroughput": 400_000,
            "uploadThroughput": 90_000,
        },
    )
