"""A lesson and a comparison taken away in Chromium, and what was taken read by others: zipfile, Pillow, csv, pybtex, rispy, citeproc-py.

The slides work from a download: opened as a file, printed one to a page of 16:9 (ISO 32000: page objects and their boxes).
"""

from __future__ import annotations

import csv
import io
import json
import re
import zipfile
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

import axe
import pytest
import rispy
import shipped_made
from citeproc.source.json import CiteProcJSON
from PIL import Image
from pybtex.database import parse_string

from build_tools.site.lessons.lesson import lesson

if TYPE_CHECKING:
    from playwright.sync_api import Browser, BrowserContext, Page

pytestmark = pytest.mark.browser

MUSCLE, OTHER = "calf", "deltoid"
PAIR = "compare/?exercises=seated-leg-curl,nordic-curl"
SHAPES = {"wide": (1920, 1080), "square": (1080, 1080)}


@pytest.fixture(scope="module")
def asked() -> list[str]:
    """Every address that any page of this module asked for."""
    return []


@pytest.fixture(scope="module")
def context(browser: Browser, shipped_address: str, asked: list[str]) -> Iterator[BrowserContext]:
    with browser.new_context(base_url=shipped_address, accept_downloads=True) as made:
        made.on("request", lambda request: asked.append(request.url))
        yield made


@pytest.fixture(scope="module")
def page(context: BrowserContext) -> Page:
    return context.new_page()


def taken(page: Page, address: str, button: str) -> zipfile.ZipFile:
    """Everything, in both shapes and schemes."""
    page.goto(address)
    if address == PAIR:
        page.get_by_text("Take this comparison along").click()
    for name in ("Square", "Dark"):
        page.get_by_label(name, exact=True).check()
    with page.expect_download(timeout=180_000) as found:  # four pictures of each drawing
        page.locator(button).click()
    archive = zipfile.ZipFile(io.BytesIO(Path(found.value.path()).read_bytes()))
    assert archive.testzip() is None
    return archive


@pytest.fixture(scope="module")
def muscle(page: Page) -> zipfile.ZipFile:
    return taken(page, f"lessons/{MUSCLE}/", '[data-part="all"]')


@pytest.fixture(scope="module")
def pair(page: Page) -> zipfile.ZipFile:
    return taken(page, PAIR, '[data-part="take-all"]')


@pytest.fixture(scope="module", params=["muscle", "pair"])
def archive(request: pytest.FixtureRequest) -> zipfile.ZipFile:
    found: zipfile.ZipFile = request.getfixturevalue(request.param)
    return found


def text(archive: zipfile.ZipFile, name: str) -> str:
    return archive.read(name).decode()


def test_it_holds_every_piece(archive: zipfile.ZipFile) -> None:
    names = archive.namelist()
    assert len(set(names)) == len(names)
    for name in ("slides.html", "notes.txt", "alt.txt", "statements.csv", "LICENCE.txt"):
        assert archive.getinfo(name).file_size > 100, name
    assert "CC BY 4.0" in text(archive, "LICENCE.txt")
    assert re.search(r"\d{1,2} \w+ \d{4}, ", text(archive, "LICENCE.txt")), "day and address"


def test_pictures_have_their_size_and_dark_is_not_light(archive: zipfile.ZipFile) -> None:
    pngs = [name for name in archive.namelist() if name.endswith(".png")]
    assert len(pngs) >= 4 and len(pngs) % 4 == 0
    for name in pngs:
        shape, scheme = name.removesuffix(".png").rsplit("-", 2)[1:]
        with Image.open(io.BytesIO(archive.read(name))) as image:
            assert (image.format, image.size) == ("PNG", SHAPES[shape])
            grey = image.convert("L")
            paper = grey.getpixel((3, 3))
            assert isinstance(paper, int) and (paper > 200) == (scheme == "light")
            low, high = grey.getextrema()
            assert isinstance(low, float | int) and high - low > 120, "blank"
            # words stand above and below the drawing, and none is cut at an edge
            for edge in ((0, 0, image.width, 20), (image.width - 20, 0, image.width, image.height)):
                assert len(set(grey.crop(edge).tobytes())) == 1, name


def test_each_svg_holds_credit_and_licence_and_asks_nothing(archive: zipfile.ZipFile) -> None:
    svgs = [name for name in archive.namelist() if name.endswith(".svg")]
    assert svgs
    for name in svgs:
        svg = text(archive, name)
        assert "Licence: CC BY 4.0" in svg and "<desc>" in svg and "var(--" not in svg
        asked = re.findall(r"(?:href|src)=\"([^\"]*)\"|url\(([^)]*)\)", svg)
        assert all(link.startswith("#") for pair in asked for link in pair if link)


def test_references_are_those_of_the_table(archive: zipfile.ZipFile) -> None:
    rows = list(csv.DictReader(io.StringIO(text(archive, "statements.csv"), newline="")))
    keys = {key for row in rows for key in re.split(r" \| |; ", row["studies"]) if key}
    assert keys
    assert set(parse_string(text(archive, "references.bib"), "bibtex").entries) == keys
    assert {one["id"] for one in rispy.loads(text(archive, "references.ris"))} == keys
    assert set(CiteProcJSON(json.loads(text(archive, "references.json")))) == keys


def test_alt_texts_and_notes_are_those_of_the_slides(muscle: zipfile.ZipFile) -> None:
    of = lesson(shipped_made.book().shelf, MUSCLE)
    alts, notes = text(muscle, "alt.txt"), " ".join(text(muscle, "notes.txt").split())
    assert all(f"{picture.name}\n{picture.alt}\n" in alts for picture in of.pictures)
    said = [note for slide in of.slides for note in slide.notes if "http" not in note]
    assert said and all(" ".join(note.split()) in notes for note in said if "muscles/" not in note)


def test_slides_open_from_the_download_and_print_one_to_a_page(
    archive: zipfile.ZipFile, browser: Browser, tmp_path: Path
) -> None:
    file = tmp_path / "slides.html"
    file.write_bytes(archive.read("slides.html"))
    with browser.new_context(offline=True, viewport={"width": 1280, "height": 720}) as context:
        page, wrong = context.new_page(), list[str]()
        page.on("pageerror", lambda error: wrong.append(str(error)))
        page.on("console", lambda told: wrong.append(told.text) if told.type == "error" else None)
        page.goto(file.as_uri())
        count = page.locator(".slide").count()
        boxes = [slide.bounding_box() for slide in page.locator(".slide").all()]
        for box in boxes:
            assert box and box["width"] / box["height"] == pytest.approx(16 / 9, rel=0.01)
        printed = page.pdf(prefer_css_page_size=True)
        sizes = {
            tuple(float(x) for x in found.split())
            for found in re.findall(rb"/MediaBox\s*\[([^\]]*)\]", printed)
        }
        assert len(re.findall(rb"/Type\s*/Page\b", printed)) == count
        assert all(
            (right - left) / (top - low) == pytest.approx(16 / 9) for left, low, right, top in sizes
        )
        page.get_by_label("Notes below").check()
        with_notes = page.pdf(prefer_css_page_size=True)
        assert len(re.findall(rb"/Type\s*/Page\b", with_notes)) > count
        assert not wrong


def test_arrows_lead_from_slide_to_slide(page: Page) -> None:
    page.set_viewport_size({"width": 1280, "height": 720})
    page.goto(f"lessons/{MUSCLE}/slides/")
    at = "[...document.querySelectorAll('.slide')].findIndex(s => Math.abs(s.getBoundingClientRect().top) < 5)"
    for key, where in (
        ("Home", 0),
        ("ArrowRight", 1),
        ("PageDown", 2),
        ("ArrowLeft", 1),
        ("End", -1),
    ):
        page.keyboard.press(key)
        page.wait_for_timeout(60)
        count = page.locator(".slide").count()
        found = page.evaluate(at)
        assert found == where % count, key
    page.keyboard.press("d")
    dark = page.evaluate("getComputedStyle(document.querySelector('.slide')).backgroundColor")
    page.keyboard.press("d")
    assert dark != page.evaluate(
        "getComputedStyle(document.querySelector('.slide')).backgroundColor"
    )


def test_nothing_on_a_slide_is_cut(page: Page, shipped_site: Path) -> None:
    page.set_viewport_size({"width": 1280, "height": 720})
    for folder in sorted((shipped_site / "lessons").glob("*/slides")):
        page.goto(folder.relative_to(shipped_site).as_posix() + "/")
        cut = page.evaluate(
            """() => [...document.querySelectorAll(".slide")].filter((slide) => {
              const end = slide.getBoundingClientRect(), all = [...slide.children].map((one) => one.getBoundingClientRect());
              return slide.scrollWidth > slide.clientWidth + 1 || slide.scrollHeight > slide.clientHeight + 1
                || all.some((one, n) => all[n + 1] && one.bottom > all[n + 1].top + 2)
                || [...slide.querySelectorAll("dd, dt, li, p, h2")].some((one) => one.getBoundingClientRect().bottom > end.bottom);
            }).map((slide) => slide.id)"""
        )
        assert not cut, folder


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_axe_finds_nothing(page: Page, scheme: str) -> None:
    page.emulate_media(color_scheme=scheme)  # type: ignore[arg-type]
    for address in ("lessons/", f"lessons/{OTHER}/", f"lessons/{OTHER}/slides/", PAIR):
        page.goto(address)
        page.wait_for_load_state("networkidle")
        assert not axe.violations(page), address
    page.emulate_media(color_scheme="light")


def test_each_piece_is_a_link_without_script(browser: Browser, shipped_address: str) -> None:
    with browser.new_context(base_url=shipped_address, java_script_enabled=False) as plain:
        page = plain.new_page()
        page.goto(f"muscles/{MUSCLE}/")
        page.get_by_role("link", name=re.compile("^Teach this")).click()
        links = page.locator(".hb-lesson a").evaluate_all("all => all.map(a => a.href)")
        assert any(link.endswith("/slides/") for link in links)
        for ending in (".csv", ".bib", ".ris", ".json", ".svg"):
            assert any(link.endswith(ending) for link in links), ending
        for link in {link.partition("#")[0] for link in links}:
            assert plain.request.get(link).ok, link
        pictures = page.locator(".hb-lesson__pictures li")
        assert pictures.count() == pictures.locator("details").count() > 4
        assert not page.locator('[data-part="all"]').is_visible()


@pytest.mark.usefixtures("muscle", "pair")
def test_nothing_was_asked_of_anybody_else(asked: list[str], shipped_address: str) -> None:
    own = (shipped_address, "blob:", "data:")
    assert asked and [url for url in asked if not url.startswith(own)] == []
