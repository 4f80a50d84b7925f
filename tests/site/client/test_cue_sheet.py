"""The client's page: one small request without a script, readable on any phone, one page on paper.

Outside sources: WCAG 2.2 for contrast (relative luminance and ratio of its glossary; 1.4.6 asks 7:1 of small words), for
reflow at 320 CSS pixels (1.4.10), and for targets of 44 CSS pixels (2.5.5). The Open Graph protocol
(ogp.me) for title, type, description, site name and address.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from html.parser import HTMLParser
from typing import TYPE_CHECKING

import pytest
import shipped_made
from client_pages import PUBLISHED, files
from folders import DEMO
from hostile import HOSTILE, poisoned
from hypothesis import given, settings
from site_reading import Reader

from build_tools.catalog import care
from build_tools.catalog.load import Catalog, load
from build_tools.site.publication import UNPUBLISHED

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page


LARGEST = 30 * 1024


CURL = "cues/crate-curl/index.html"


class Words(HTMLParser):
    """The visible words of a page in their order, metadata by name, and links by their relation."""

    def __init__(self, html: str) -> None:
        super().__init__()
        self.lines: list[str] = []
        self.meta: dict[str, str] = {}
        self.links: dict[str, str] = {}
        self.title = ""
        self._inside: list[str] = []
        self.feed(html)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        given = {name: value or "" for name, value in attrs}
        if tag == "meta" and (name := given.get("name") or given.get("property")):
            self.meta[name] = given["content"]
        if tag == "link":
            self.links[given["rel"]] = given["href"]
        if tag not in ("meta", "link", "path"):
            self._inside.append(tag)

    def handle_endtag(self, tag: str) -> None:
        if tag != "path":
            assert self._inside.pop() == tag

    def handle_data(self, data: str) -> None:
        if self._inside == ["html", "head", "title"]:
            self.title += data
        elif data.strip() and "body" in self._inside and "svg" not in self._inside:
            self.lines.append(data.strip())


@pytest.fixture(scope="module")
def shipped() -> dict[str, bytes]:
    return files(shipped_made.catalog())


@pytest.fixture(scope="module")
def demo_pages() -> dict[str, bytes]:
    return files(load(DEMO, "catalog"))


def sheets(made: dict[str, bytes]) -> dict[str, str]:
    return {
        uri: content.decode()
        for uri, content in made.items()
        if re.fullmatch(r"cues/[^/]+/index\.html", uri)
    }


# --- what it says ------------------------------------------------------------


def test_it_says_what_to_do_in_the_order_it_is_needed(demo_pages: dict[str, bytes]) -> None:
    assert Words(demo_pages[CURL].decode()).lines == [
        "Crate curl",
        "You need: wooden crate.",
        "Start",
        "Finish",
        "Set up",
        "Sit tall on the crate.",
        "How to move",
        "Pull your heel under the crate.",
        "Check",
        "Feel the work behind your thigh.",
        "If it does not look right",
        "The hips slide forward.",
        "Sit back against the wall.",
        "Call for emergency help if",
        "The lamp burns your chest or you faint.",
        "The whole leg turns cold and white.",
        "Stop at once if",
        "The knee hurts sharply or gives way.",
        "Take extra care",
        "Anyone with a sore knee today.",
        "Bend only as far as it feels fine. Ask a licensed physiotherapist or doctor.",
        "This is general teaching, not medical advice. Ask a licensed professional; local rules come first.",
        "More cautions",
        "Keep this sheet for when there is no signal",
        "For the curious: what the studies say",
        "Scan the code to open this page",
        "or type: https://handbook.lantern-yard.example/strength/cues/crate-curl/",
        "Lantern Yard handbook, Lantern Yard (invented). Last reviewed 1 November 2026. Licence: CC0-1.0.",
    ]


def test_whom_to_ask_reads_as_a_sentence() -> None:
    made = changed(
        {
            "cautions": [
                {"ask": ask}
                for ask in ("A doctor.", "Your surgeon's team.", "Have a coach watch you.")
            ]
        }
    )
    lines = " ".join(Words(files(made)[CURL].decode()).lines)
    assert all(
        f"feels fine. {ask}" in lines
        for ask in ("Ask a doctor.", "Ask your surgeon's team.", "Have a coach watch you.")
    )


def test_who_waits_for_a_go_ahead_is_told_first() -> None:
    made = changed({"cautions": [{"concerns": ["knee"]}, {"concerns": ["operation", "knee"]}]})
    lines = Words(files(made)[CURL].decode()).lines
    assert lines[lines.index("Take extra care") :][1:3] == [
        "Before you begin",
        "After an operation, wait for a go-ahead.",
    ]
    assert lines.count("The whole leg turns cold and white.") == 1


def test_what_shows_later_stands_apart_and_once() -> None:
    told = "Tell your coach if the knee is stiff the next morning."
    made = changed({"cautions": [{"afterwards": told}, {"afterwards": told}]})
    lines = Words(files(made)[CURL].decode()).lines
    start = lines.index("Afterwards")
    assert lines[start - 1].startswith("The knee hurts sharply")
    assert lines[start : start + 3] == ["Afterwards", told, "Take extra care"]


def test_every_shipped_sheet_says_when_to_call_for_help(shipped: dict[str, bytes]) -> None:
    for uri, html in sheets(shipped).items():
        lines = Words(html).lines
        assert "Your chest hurts" in lines[lines.index("Call for emergency help if") + 1], uri
    backs = {
        id
        for id, exercise in shipped_made.catalog().exercises.items()
        if "lower-back" in care.named(exercise.data)
    }
    told = {
        id for id in backs if "numb between the legs" in shipped[f"cues/{id}/index.html"].decode()
    }
    assert len(backs) >= 50 and told == backs


def test_what_stands_in_for_equipment_is_said() -> None:
    catalog = load(DEMO, "catalog")
    crate = catalog.vocabulary.data.equipment["crate"]
    catalog.vocabulary.data.equipment["crate"] = crate.model_copy(
        update={"note": "Any low seat does."}
    )
    assert (
        "You need: wooden crate (any low seat does)." in Words(files(catalog)[CURL].decode()).lines
    )


def test_one_side_at_a_time_is_said() -> None:
    line = Words(files(changed({"sides": "one"}))[CURL].decode()).lines[1]
    assert line.endswith("Do one side, then the other.")


def test_a_hold_is_drawn_once() -> None:
    movement = load(DEMO).exercises["crate-curl"].data.movement
    held = movement.model_copy(update={"end": movement.start, "hold": True})
    html = files(changed({"movement": held}))[CURL].decode()
    assert re.findall(r"<title id=[^>]*>(\w+)<", html) == ["Hold"]


def changed(fields: dict[str, object]) -> Catalog:
    """The demo catalog with another crate curl; cautions only name what differs."""
    catalog = load(DEMO, "catalog")
    entry = catalog.exercises["crate-curl"]
    if "cautions" in fields:
        fields = {
            "cautions": [
                entry.data.cautions[0].model_copy(update=each) for each in fields["cautions"]
            ]
        }
    object.__setattr__(entry, "data", entry.data.model_copy(update=fields))
    return catalog


def test_its_preview_says_what_it_is(demo_pages: dict[str, bytes]) -> None:
    words = Words(demo_pages[CURL].decode())
    assert words.title == words.meta["og:title"] == "Crate curl: how to do it"
    assert words.meta["description"] == words.meta["og:description"]
    assert words.meta["description"].startswith("Crate curl on one page")
    assert words.meta["og:type"] == "article"
    assert words.meta["og:site_name"] == "Lantern Yard handbook"
    assert (
        words.meta["og:url"]
        == words.links["canonical"]
        == "https://handbook.lantern-yard.example/strength/cues/crate-curl/"
    )


def test_without_an_address_it_claims_none() -> None:
    made = files(load(DEMO, "catalog"), UNPUBLISHED)
    words = Words(made[CURL].decode())
    assert "og:url" not in words.meta and "canonical" not in words.links
    assert not [uri for uri in made if uri.endswith(("qr.svg", "qr.png"))]
    assert "QR" not in made[CURL].decode()


# --- what it is --------------------------------------------------------------


def test_every_shipped_sheet_is_small(shipped: dict[str, bytes]) -> None:
    size, uri = max((len(shipped[uri]), uri) for uri in sheets(shipped))
    print(f"largest cue sheet: {uri}, {size} bytes")
    assert size <= LARGEST


def test_every_shipped_sheet_is_one_request_without_a_script(shipped: dict[str, bytes]) -> None:
    for uri, html in sheets(shipped).items():
        page = Reader(html)
        tags = {tag for tag, _ in page.elements}
        assert not tags & {
            "script",
            "img",
            "iframe",
            "object",
            "embed",
            "audio",
            "video",
            "source",
            "image",
            "use",
        }, uri
        links = [tag for tag in re.findall(r"<link [^>]*>", html) if "canonical" not in tag]
        assert len(links) == 1 and 'rel="icon" href="data:' in links[0], uri
        assert not re.search(r"url\(|@import", html), uri
        assert not [
            name
            for _, names in page.elements
            for name in names
            if name.startswith("on") or name == "style"
        ], uri
        assert len(page.ids) == len(set(page.ids)), uri


@settings(max_examples=40)
@given(text=HOSTILE)
def test_no_text_becomes_structure(text: str) -> None:
    def made(added: str) -> dict[str, list[tuple[str, tuple[str, ...]]]]:
        built = files(poisoned(load(DEMO), added))
        pages = {uri: content.decode() for uri, content in built.items() if uri.endswith(".html")}
        # How full a sheet is follows from the length of its words, and is written on <html>: no structure.
        return {
            uri: Reader(re.sub(r'(<html[^>]*) data-print="[a-z]*"', r"\1", html)).elements
            for uri, html in pages.items()
        }

    assert made("a" + text + "a") == made("a")


# --- how it looks ------------------------------------------------------------


@pytest.fixture(scope="module")
def longest(shipped: dict[str, bytes]) -> list[str]:
    """The dozen shipped sheets with the most to say."""
    return sorted(sheets(shipped).values(), key=lambda html: -sum(map(len, Words(html).lines)))[:12]


@pytest.fixture
def page(browser: Browser) -> Iterator[Page]:
    with browser.new_context() as context:
        yield context.new_page()


@pytest.mark.browser
@pytest.mark.parametrize(
    "width", [160, 195, 320, 390, 1366]
)  # 160 and 195: phones of 320 and 390 at 200 % zoom
def test_nothing_runs_out_of_the_window(page: Page, longest: list[str], width: int) -> None:
    page.set_viewport_size({"width": width, "height": 700})
    for html in longest:
        page.set_content(html)
        assert page.evaluate("document.documentElement.scrollWidth - innerWidth") <= 0


@pytest.mark.browser
@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_words_are_large_and_stand_out(
    page: Page, demo_pages: dict[str, bytes], scheme: str
) -> None:
    page.emulate_media(color_scheme=scheme)
    page.set_content(demo_pages[CURL].decode())
    found = page.evaluate("""() => [...document.querySelectorAll('body *')].filter(e => !e.closest('svg') && e.checkVisibility() &&
        [...e.childNodes].some(n => n.nodeType === 3 && n.data.trim())).map(e => {
            const under = [...(function* () { for (let u = e; u; u = u.parentElement) yield getComputedStyle(u).backgroundColor; })()]
                .find(colour => !colour.endsWith(', 0)'));
            const style = getComputedStyle(e);
            return [e.textContent.trim(), parseFloat(style.fontSize), style.color, under]; })""")
    assert len(found) > 20
    assert min(size for _, size, _, _ in found) >= 18
    assert {
        words: round(contrast(ink, paper), 1)
        for words, _, ink, paper in found
        if contrast(ink, paper) < 7
    } == {}


def contrast(one: str, other: str) -> float:
    """The contrast ratio of two CSS colours (WCAG 2.2, glossary)."""

    def luminance(colour: str) -> float:
        channels = [int(value) / 255 for value in re.findall(r"\d+", colour)[:3]]
        r, g, b = (c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in channels)
        return 0.2126 * r + 0.7152 * g + 0.0722 * b

    low, high = sorted((luminance(one), luminance(other)))
    return (high + 0.05) / (low + 0.05)


def test_contrast_is_reckoned_as_published() -> None:
    assert contrast("rgb(0, 0, 0)", "rgb(255, 255, 255)") == pytest.approx(
        21
    )  # the scale's end, WCAG 2.2
    assert contrast("rgb(118, 118, 118)", "rgb(255, 255, 255)") == pytest.approx(
        4.54, abs=0.005
    )  # #767676, the well-known least grey


@pytest.mark.browser
def test_links_are_as_large_as_a_thumb(page: Page, demo_pages: dict[str, bytes]) -> None:
    page.set_viewport_size({"width": 320, "height": 700})
    page.set_content(demo_pages[CURL].decode())
    boxes = [link.bounding_box() for link in page.locator("a").all()]
    assert len(boxes) == 3
    assert min(min(box["width"], box["height"]) for box in boxes) >= 44


@pytest.mark.browser
@pytest.mark.parametrize("paper", ["A5", "A4", "Letter"])
def test_it_prints_on_one_page(
    page: Page, shipped: dict[str, bytes], longest: list[str], paper: str
) -> None:
    # On the smallest paper the sheets just below a step of `fullness` are the tightest, so all are tried.
    for html in sheets(shipped).values() if paper == "A5" else longest:
        page.set_content(html)
        assert len(re.findall(rb"/Type\s*/Page\b", page.pdf(format=paper))) == 1, Words(html).title


@pytest.mark.browser
@pytest.mark.parametrize("paper", ["A5", "A4"])
def test_without_an_address_the_notice_keeps_the_width_of_the_paper(page: Page, paper: str) -> None:
    """A handbook that is built without SITE_URL has no code beside its notice."""
    page.set_viewport_size({"width": 500, "height": 700})
    page.emulate_media(media="print")
    for html in sheets(files(load(DEMO, "catalog"), UNPUBLISHED)).values():
        page.set_content(html)
        assert len(re.findall(rb"/Type\s*/Page\b", page.pdf(format=paper))) == 1
        notice, footer = (page.locator(each).bounding_box() for each in (".notice", "footer"))
        assert notice["width"] >= 0.9 * footer["width"]


@pytest.mark.browser
def test_on_paper_it_has_its_code_and_address(page: Page, demo_pages: dict[str, bytes]) -> None:
    page.set_content(demo_pages[CURL].decode())
    page.emulate_media(media="print")
    assert page.get_by_role("img", name="QR code of this page").is_visible()
    assert page.get_by_text(f"{PUBLISHED.url}cues/crate-curl/").is_visible()
    assert not page.get_by_role("link").first.is_visible()
