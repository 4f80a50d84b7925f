"""What is passed on from an exercise's page: by plain links, and by the buttons that a script adds.

Outside sources: the citation list is held against citeproc-py in ``tests/catalog/bibliography``; BibTeX is read back by pybtex; codes
by the tests of the cue sheet; accessibility by axe-core in ``whole/test_browser.py``.
"""

from __future__ import annotations

import struct
from collections.abc import Iterator
from dataclasses import replace
from html.parser import HTMLParser
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from folders import DEMO
from pybtex.database import parse_string
from site_building import build, configuration
from site_serving import serve

from build_tools.catalog.bibliography import apa as referencing
from build_tools.catalog.load import Catalog, load
from build_tools.checks.profile import load_profile
from build_tools.evidence.claims.conclude import conclude
from build_tools.movement.length.length import MeanLengths
from build_tools.site import book
from build_tools.site.publication import UNPUBLISHED, Publication

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page, Route

SITE = Publication("https://lantern.example/handbook/")
CURL = "exercises/crate-curl.md"


def rendered(catalog: Catalog, site: Publication) -> book.Book:
    return book.render(catalog, conclude(catalog, MeanLengths(catalog)), load_profile(), site)


@pytest.fixture(scope="module")
def published() -> book.Book:
    """The demo catalog's book at a known address."""
    return rendered(load(DEMO, "catalog"), SITE)


class Parts(HTMLParser):
    """The elements of a page, each as its attributes with the tag under ``tag``."""

    def __init__(self, text: str) -> None:
        super().__init__()
        self.found: list[dict[str, str | None]] = []
        self.feed(text)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.found.append({**dict(attrs), "tag": tag})

    def having(self, name: str) -> list[dict[str, str | None]]:
        return [element for element in self.found if name in element]


def parts(made: book.Book, uri: str = CURL) -> Parts:
    return Parts(next(page.text for page in made.pages if page.uri == uri))


def test_a_published_page_offers_the_address_and_its_code(published: book.Book) -> None:
    page = parts(published)
    assert [e["data-copy-address"] for e in page.having("data-copy-address")] == [
        "https://lantern.example/handbook/cues/crate-curl/"
    ]
    links = {e["href"]: e.get("download") for e in page.having("href")}
    assert links["../../cues/crate-curl/"] is None
    assert (
        links["../../cues/crate-curl/qr.svg"] == "crate-curl-qr.svg"
        and links["../../cues/crate-curl/qr.png"] == "crate-curl-qr.png"
    )
    assert {"cues/crate-curl/qr.svg", "cues/crate-curl/qr.png", "cues/crate-curl/index.html"} <= {
        file.uri for file in published.files
    }


def test_without_an_address_there_is_no_code(demo_book: book.Book) -> None:
    page = parts(demo_book)
    assert [e["data-copy-address"] for e in page.having("data-copy-address")] == [
        "../../cues/crate-curl/"
    ]
    assert not any("qr." in (e["href"] or "") for e in page.having("href"))


def test_what_is_copied_for_slides(published: book.Book) -> None:
    figure, sources = (e["data-copy"] or "" for e in parts(published).having("data-copy"))
    assert figure == (
        "Crate curl: start and finish. Drawn from joint angles with the segment lengths of Drillis and Contini (1966). "
        "From: Lantern Yard handbook, Lantern Yard (invented). Licence: CC0-1.0. "
        "https://lantern.example/handbook/exercises/crate-curl/"
    )
    reference = load(DEMO).references["wick2030"]
    assert sources.splitlines() == [
        "Sources of “Crate curl” (Lantern Yard handbook)",
        "https://lantern.example/handbook/exercises/crate-curl/",
        "",
        referencing.plain(reference),
    ]


def test_every_source_of_the_page_is_copied_and_in_the_file(demo: Path) -> None:
    curl = demo / "exercises" / "crate-curl.yaml"
    curl.write_text(
        curl.read_text(encoding="utf-8").replace(
            "common_practice: Seen often with tired clients.",
            "cites: [{key: glow2031, at: Table 2}]",
        ),
        encoding="utf-8",
    )
    made = rendered(load(demo, "catalog"), SITE)
    text = next(page.text for page in made.pages if page.uri == CURL)
    listed = text[text.index('<ul class="hb-sources">') :].count("<li>")
    file = next(file for file in made.files if file.uri == "data/references.bib")
    written = parse_string(file.content.decode(), "bibtex").entries
    [link] = parts(made).having("data-records")
    assert link["href"] == "../../data/references.bib"
    records = {key: written[key] for key in (link["data-records"] or "").split()}
    copied = (parts(made).having("data-copy")[-1]["data-copy"] or "").splitlines()[3:]
    assert len(records) == listed == len(copied) == 2
    for line, key in zip(copied, records, strict=True):
        assert records[key].fields["title"] in line


def test_a_page_without_sources_offers_none() -> None:
    catalog = load(DEMO, "catalog")
    for entry in catalog.exercises.values():
        object.__setattr__(entry, "data", entry.data.model_copy(update={"emphasis": []}))
    made = rendered(catalog, SITE)
    assert [
        e["data-copy"]
        for e in parts(made).having("data-copy")
        if "Sources of" in (e["data-copy"] or "")
    ] == []
    assert not parts(made).having("data-records")


@pytest.mark.parametrize("offline", [True, False])
def test_the_worker_is_asked_for_only_when_pages_are_kept(offline: bool) -> None:
    made = rendered(load(DEMO, "catalog"), replace(UNPUBLISHED, offline=offline))
    assert [e["data-worker"] for e in parts(made).having("data-worker")] == (
        ["../../sw.js"] if offline else []
    )


def test_buttons_wait_for_the_script(published: book.Book) -> None:
    """Without it none shows, and nothing is in the page that would run by itself."""
    page = parts(published)
    buttons = [e for e in page.found if e["tag"] == "button"]
    assert len(buttons) == 9 and all("hidden" in e and e["type"] == "button" for e in buttons)
    assert not any(name.startswith("on") for e in page.found for name in e)
    loaded = [e for e in page.found if e["tag"] == "script"]
    assert {e["src"] for e in loaded} == {"../../scripts/share.js", "../../scripts/records.js"}
    assert all(e["type"] == "module" for e in loaded)


# --- in Chromium ---------------------------------------------------------------


@pytest.fixture(scope="module")
def address(tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    """The demo site, built for a known address and served on a local port."""
    with serve(
        build(configuration(tmp_path_factory.mktemp("share"), DEMO, site_url=SITE.url))
    ) as at:
        yield at


@pytest.fixture
def page(browser: Browser, address: str) -> Iterator[Page]:
    with browser.new_context(
        base_url=address, permissions=["clipboard-read", "clipboard-write"]
    ) as context:
        page = context.new_page()
        page.add_init_script(
            "navigator.share = data => { window.sent = data; return Promise.resolve() }"
        )
        page.goto("exercises/crate-curl/")
        yield page


def clipboard(page: Page) -> str:
    return page.evaluate("navigator.clipboard.readText()")


@pytest.mark.browser
@pytest.mark.parametrize(
    ("button", "told", "copied"),
    [
        (
            "Copy its link",
            "The link is copied.",
            "https://lantern.example/handbook/cues/crate-curl/",
        ),
        ("Copy these sources", "The sources are copied.", "Sources of “Crate curl”"),
        ("Copy its citation", "The figure’s citation is copied.", "Crate curl: start and finish."),
    ],
)
def test_a_button_copies_by_keyboard_and_says_so(
    page: Page, button: str, told: str, copied: str
) -> None:
    page.get_by_role("button", name=button).focus()
    page.keyboard.press("Enter")
    page.get_by_role("status").filter(has_text=told).wait_for()
    assert clipboard(page).startswith(copied)


#: Page, the place of a statement's button among those that show, and where its permalink leads.
STATEMENTS = [
    ("exercises/crate-curl/", ".hb-claim", "exercises/crate-curl/#claim-"),
    ("muscles/lantern/", ".hb-answer", "muscles/lantern/long-head/#answer"),
    ("muscles/lantern/long-head/", ".hb-answer", "muscles/lantern/long-head/#answer"),
    ("muscles/lantern/long-head/", ".hb-pair", "muscles/lantern/long-head/#"),
    ("taught/", ".hb-teachings li", "exercises/crate-curl/#claim-"),
]


@pytest.mark.browser
@pytest.mark.parametrize(("path", "where", "permalink"), STATEMENTS)
def test_a_statement_is_copied_with_all_that_a_citation_needs(
    page: Page, path: str, where: str, permalink: str
) -> None:
    """What a citation of a page that changes holds (author, title, date, address, day of copying): APA Style, section 10.16, from memory."""
    page.goto(path)
    page.evaluate("for (const fold of document.querySelectorAll('details')) fold.open = true")
    button = page.locator(f"[data-statement]:has({where}) .hb-cite, {where} .hb-cite").first
    statement = button.locator("xpath=ancestor::*[@data-statement]")
    button.focus()
    page.keyboard.press("Enter")
    page.get_by_role("status").filter(has_text="Copied, with citation and link.").wait_for()
    assert button.text_content() == "Copied"
    sentence, *rest = clipboard(page).splitlines()
    said = (
        statement.locator("[data-said]").all_text_contents()
        or statement.locator("dl > div > dd").all_text_contents()
    )
    assert said and all(" ".join(part.split()) in sentence for part in said)
    address = rest[-1]
    assert address.startswith(f"{SITE.url}{permalink}")
    reviewed = max(e.data.reviewed for e in load(DEMO).exercises.values())
    assert f"{reviewed.day} {reviewed:%B %Y}" in rest[-2]
    assert "Lantern Yard handbook" in rest[-2] and "CC0-1.0" in rest[-2]
    today = page.evaluate("new Date().getFullYear()")
    assert f"copied {page.evaluate('new Date().getDate()')} " in rest[-2] and str(today) in rest[-2]
    references = load(DEMO).references
    studies = {key for key in references if statement.locator(f'a[href*="sources/{key}/"]').count()}
    assert len(rest[:-2]) == len(studies)
    for key in studies:
        [line] = [line for line in rest if references[key].title.rstrip(".") in line]
        assert references[key].link in line and line.endswith("]")
    page.wait_for_function(
        "button => button.textContent === 'Copy with citation'", arg=button.element_handle()
    )
    # The permalink lands on the statement, clear of the header.
    page.goto(address.removeprefix(SITE.url))
    top = page.evaluate("document.querySelector(':target').getBoundingClientRect().top")
    assert 0 < top < page.viewport_size["height"]  # type: ignore[index]


@pytest.mark.browser
def test_a_statement_without_clipboard_or_records_is_shown_to_copy_by_hand(page: Page) -> None:
    """The records cannot be fetched, say without a network: the studies' short names stand for them."""
    page.route("**/data/citations.json", lambda route: route.abort())
    page.evaluate("Object.defineProperty(navigator, 'clipboard', {value: undefined})")
    page.locator(".hb-claim .hb-cite").first.click()
    told = page.locator(".hb-found .hb-told")
    told.wait_for()
    text = told.text_content() or ""
    assert "Copy by hand:" in text and f"{SITE.url}{CURL.removesuffix('.md')}/#claim-" in text
    assert "Wick" in text


@pytest.mark.browser
def test_without_scripts_a_statement_has_its_permalink(browser: Browser, address: str) -> None:
    with browser.new_context(base_url=address, java_script_enabled=False) as context:
        page = context.new_page()
        page.goto("exercises/crate-curl/")
        link = page.locator(".hb-claim a.hb-cite").first
        assert (link.get_attribute("href") or "").startswith("#claim-")


@pytest.mark.browser
def test_where_copying_is_not_allowed_the_text_is_shown(page: Page) -> None:
    page.evaluate("Object.defineProperty(navigator, 'clipboard', {value: undefined})")
    page.get_by_role("button", name="Copy its link").click()
    page.get_by_role("status").filter(
        has_text="Copy by hand: https://lantern.example/handbook/cues/crate-curl/"
    ).wait_for()


@pytest.mark.browser
def test_the_link_is_sent_where_the_device_can(page: Page) -> None:
    page.get_by_role("button", name="Send it").click()
    assert page.evaluate("window.sent") == {
        "title": "Crate curl: how to do it",
        "url": "https://lantern.example/handbook/cues/crate-curl/",
    }


@pytest.mark.browser
def test_the_code_opens_and_loads(page: Page) -> None:
    page.locator("summary", has_text="QR code").click()
    image = page.get_by_role("img", name="QR code that opens the cue sheet of Crate curl")
    image.wait_for()
    page.wait_for_function(
        "image => image.complete && image.naturalWidth > 0", arg=image.element_handle()
    )


@pytest.mark.browser
def test_the_worker_keeps_the_whole_site_in_view(page: Page, address: str) -> None:
    assert page.evaluate("navigator.serviceWorker.ready.then(ready => ready.scope)") == address


@pytest.mark.browser
def test_without_scripts_the_links_work(browser: Browser, address: str) -> None:
    with browser.new_context(base_url=address, java_script_enabled=False) as context:
        page = context.new_page()
        page.goto("exercises/crate-curl/")
        assert page.locator("main").get_by_role("button").count() == 0
        with page.expect_download() as download:
            page.get_by_role("link", name="Download them as BibTeX").click()
        assert download.value.suggested_filename == "crate-curl-sources.bib"
        assert "wick2030" in Path(download.value.path()).read_text(encoding="utf-8")
        page.get_by_role("link", name="Open the cue sheet").click()
        page.wait_for_url("**/cues/crate-curl/")


#: As strict as a host may be: nothing inline, nothing from elsewhere; a drawing becomes a picture by way of a blob.
STRICT = (
    "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' blob:; connect-src 'self'; "
    "base-uri 'none'; form-action 'none'"
)

#: Chromium's decoder: size, and how many pixels are white, dark, and neither.
DECODED = """async bytes => {
  const bitmap = await createImageBitmap(new Blob([new Uint8Array(bytes)], { type: "image/png" }));
  const canvas = new OffscreenCanvas(bitmap.width, bitmap.height);
  const drawn = canvas.getContext("2d");
  drawn.drawImage(bitmap, 0, 0);
  const { data } = drawn.getImageData(0, 0, bitmap.width, bitmap.height);
  let white = 0, dark = 0;
  for (let n = 0; n < data.length; n += 4) {
    if (Math.min(data[n], data[n + 1], data[n + 2]) === 255) white += 1;
    if (Math.max(data[n], data[n + 1], data[n + 2]) < 80) dark += 1;
  }
  return { width: bitmap.width, height: bitmap.height, white, dark, clear: data.filter((v, n) => n % 4 === 3 && v < 255).length };
}"""


@pytest.mark.browser
def test_the_figure_is_saved_as_a_picture_on_white_under_a_strict_policy(
    browser: Browser, address: str
) -> None:
    """In the dark scheme too. Read back by Chromium's decoder; the size as section 11.2.2 of the PNG standard (IHDR) has it."""
    with browser.new_context(
        base_url=address, color_scheme="dark", accept_downloads=True, service_workers="block"
    ) as context:

        def strictly(route: Route) -> None:
            answer = route.fetch()
            route.fulfill(
                response=answer, headers={**answer.headers, "content-security-policy": STRICT}
            )

        context.route("**/*", strictly)
        page = context.new_page()
        page.goto("exercises/crate-curl/")
        with page.expect_download() as download:
            page.get_by_role("button", name="Download as PNG").click()
        page.get_by_role("status").filter(has_text="The picture is in your downloads.").wait_for()
        assert download.value.suggested_filename == "crate-curl.png"
        png = Path(download.value.path()).read_bytes()
    assert png[:8] == b"\x89PNG\r\n\x1a\n" and png[12:16] == b"IHDR"
    with browser.new_context() as context:
        read = context.new_page().evaluate(DECODED, list(png))
    assert (read["width"], read["height"]) == struct.unpack(">II", png[16:24])
    pixels = read["width"] * read["height"]
    assert read["width"] > 1000 and read["height"] > 500 and read["clear"] == 0
    assert read["white"] > 0.6 * pixels and 0.01 * pixels < read["dark"] < 0.2 * pixels


@pytest.mark.browser
def test_where_no_picture_can_be_made_it_is_said(page: Page) -> None:
    page.evaluate("() => { HTMLCanvasElement.prototype.toBlob = made => made(null) }")
    page.get_by_role("button", name="Download as PNG").click()
    page.get_by_role("status").filter(has_text="This browser does not allow it here.").wait_for()
