"""The handout page as coach and client use it, in headless Chromium.

Outside sources: axe-core (Deque) for WCAG 2.2; WCAG 2.2 for reflow at 320 CSS pixels (1.4.10) and for targets of
44 CSS pixels (2.5.5); RFC 3986, section 3.5, for the fragment, which no request may carry (from memory).
"""

from __future__ import annotations

import hashlib
import re
from collections.abc import Iterator
from dataclasses import replace
from importlib import resources
from pathlib import Path
from typing import TYPE_CHECKING
from urllib.request import urlopen

import axe
import pytest
from client_pages import shelf
from folders import DEMO
from handout_site import WEEK, Watched, complete, link, once_more, visit, watch
from handouts import KNOWN, Day, Handout, Item, decode, encode, single

from build_tools.catalog.fixed_words import fixed_words
from build_tools.catalog.load import load
from build_tools.site.client import handout_page

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page

pytestmark = pytest.mark.browser

SCRIPTS = Path(str(resources.files("build_tools.site") / "scripts"))
PHONE = {"viewport": {"width": 390, "height": 844}}
LAPTOP = {"viewport": {"width": 1366, "height": 900}}
CARED = replace(
    WEEK, care=("knee", "gone"), days=(Day(1, WEEK.items), Day(4, WEEK.items[:1])), coach="Mara"
)
HOSTILE = [
    "1.AAAA",
    "2.W10",
    "how-to-do-it",
    "<img src=x onerror=alert(1)>",
    "1." + "A" * 5000,
    encode(WEEK)[:-4],
    encode(single(None, (Item("no-such-exercise"),))),
]


@pytest.fixture(scope="module")
def opened(browser: Browser) -> Iterator[Watched]:
    with watch(browser, **LAPTOP) as watched:
        yield watched


@pytest.fixture
def page(opened: Watched) -> Iterator[Page]:
    with once_more(opened) as page:
        yield page


def edit(page: Page, at: str) -> None:
    """Open a link and its form."""
    complete(page, at)
    page.get_by_role("button", name="Edit this handout").click()
    page.get_by_text("In this handout").wait_for()


def shows(page: Page) -> str:
    """The visible words."""
    return page.locator("main").inner_text()


# --- the coach ---------------------------------------------------------------


def test_a_handout_made_with_the_keyboard_alone(page: Page, handout_address: str) -> None:
    page.goto(handout_address)
    keys = page.keyboard

    def until(name: str) -> None:
        for _ in range(60):
            focused = page.evaluate(
                "(document.activeElement.getAttribute('aria-label') || document.activeElement.name "
                "|| document.activeElement.dataset.part || document.activeElement.innerText)"
            )
            if focused == name:
                return
            keys.press("Tab")
        pytest.fail(f"the keyboard does not reach {name}")

    until("title")
    keys.type(WEEK.title)
    until("search")
    keys.type("cable")
    keys.press("Enter")
    keys.type("lamp curl")  # another name of the crate curl
    until("Add Crate curl also called box curl, seated lamp curl".replace(" also", "\nalso"))
    keys.press("Enter")
    assert page.locator("[data-part=week] legend").all_inner_texts() == [
        "1. Standing cable curl",
        "2. Crate curl",
    ]
    until("Up: Crate curl")
    keys.press("Enter")
    assert page.locator("[data-part=week] legend").all_inner_texts() == [
        "1. Crate curl",
        "2. Standing cable curl",
    ]
    assert page.locator("[role=status]").inner_text() == "Crate curl is now number 1."
    page.locator("input[name=sets]").first.focus()
    for typed in ("3", "8 – 12", "20 kg", "2", "120", "3 1 1".replace(" ", "."), "Slowly down."):
        keys.type(typed)
        keys.press("Tab")
    page.locator("input[name=repetitions]").nth(1).focus()
    keys.type("20-40 sec")
    assert page.get_by_label("Send this to your client").input_value() == link(handout_address)


def test_removing_keeps_the_place(page: Page, handout_address: str) -> None:
    edit(page, link(handout_address))
    page.get_by_role("button", name="Remove: Crate curl").click()
    assert (
        page.evaluate("document.activeElement.getAttribute('aria-label')")
        == "Remove: Standing cable curl"
    )
    page.keyboard.press("Enter")
    assert page.evaluate("document.activeElement.dataset.part") == "search"
    assert "Add an exercise to get a link." in shows(page)
    assert page.get_by_label("Send this to your client").is_hidden()


@pytest.mark.parametrize(
    ("field", "typed", "told"),
    [
        ("sets", "0", "Write a whole number from 1 to 20."),
        ("sets", "many", "Write a whole number from 1 to 20."),
        ("repetitions", "12-8", "Write 8, 8-12, 30s or 20-40s."),
        ("tempo", "fast", "Write seconds down, held and up, for example 3-1-1."),
        ("rest", "901", "Write a whole number from 0 to 900."),
        ("note", "a\u202eb", "This is too long, or holds a character that cannot be shown."),
    ],
)
def test_what_cannot_be_read_is_marked(
    page: Page, handout_address: str, field: str, typed: str, told: str
) -> None:
    edit(page, link(handout_address))
    box = page.locator(f"input[name={field}]").first
    box.fill(typed)
    assert box.get_attribute("aria-invalid") == "true"
    described = page.evaluate(
        "ids => ids.split(' ').map(id => document.getElementById(id).innerText).join('')",
        box.get_attribute("aria-describedby"),
    )
    assert described == told
    assert "Mend the marked fields to get a link." in shows(page)
    box.fill("")
    assert box.get_attribute("aria-invalid") == "false"
    assert page.get_by_label("Send this to your client").is_visible()


# The invented ranges of tests/demo/catalog/programme.yaml, both goals together.
@pytest.mark.parametrize(
    ("field", "within", "outside", "told"),
    [
        (
            "repetitions",
            ["1-20", "90s"],
            ["21", "15-25"],
            "The ranges in this handbook run from 1 to 20 repetitions. This is outside.",
        ),
        (
            "load",
            ["30 %", "85%", "99 kg"],
            ["90 %", "29.5%"],
            "run from 30 to 85 per cent of the most that can be lifted once.",
        ),
        ("left", ["0", "3"], ["4"], "run from 0 to 3 repetitions left"),
        ("rest", ["60", "180"], ["59", "181"], "run from 60 to 180 seconds of rest."),
        ("tempo", ["1-9-1", "3-0-3-9"], ["4-0-3"], "run from 2 to 6 seconds for one repetition"),
    ],
)
def test_doses_outside_the_ranges_get_one_quiet_line(
    page: Page, handout_address: str, field: str, within: list[str], outside: list[str], told: str
) -> None:
    edit(page, link(handout_address, single(None, (Item("crate-curl"),))))
    box, aside = (
        page.locator(f"input[name={field}]"),
        page.locator(f".field:has(input[name={field}]) [data-part=aside]"),
    )
    for typed in within:
        box.fill(typed)
        assert aside.inner_text() == ""
    for typed in outside:
        box.fill(typed)
        assert told in aside.inner_text()
        assert page.get_by_label("Send this to your client").is_visible()  # never in the way


def test_a_catalog_without_a_programme_has_no_ranges() -> None:
    catalog = load(DEMO)
    catalog.programme = None
    assert handout_page.data(shelf(catalog))["doses"] == {}


def test_too_much_for_a_link_is_said(page: Page, handout_address: str) -> None:
    twelve = (Item("crate-curl"),) * 12
    edit(
        page, link(handout_address, Handout(None, None, None, (), (Day(0, twelve), Day(1, twelve))))
    )
    for box in page.locator("input[name=note]").all():
        box.fill("x" * 140)
    assert "This is more than a link can hold." in shows(page)
    page.get_by_label("Find an exercise").fill("cable")
    page.keyboard.press("Enter")
    assert (
        page.locator("[role=status]").inner_text() == "A handout holds at most 12 exercises a day."
    )
    assert page.locator("[data-part=week] legend").count() == 24


# --- the client --------------------------------------------------------------


def test_the_client_reads_plain_words(page: Page, handout_address: str) -> None:
    page.goto(link(handout_address))
    page.locator(".poses").nth(1).wait_for()
    words = shows(page).replace("\u00a0", " ")
    for said in (
        "Week 1",
        "1. Crate curl",
        "3 sets of 8 to 12 repetitions, 20 kg",
        "Stop when you could still do "
        "about 2 more. Rest 2 minutes between sets. Lower for 3 seconds, hold for 1, lift for 1.",
        "Slowly down.",
        "Pull your heel under the crate.",
        "2. Standing cable curl",
        "20 to 40 seconds",
        "Stop at once if",
        "Ask a licensed physiotherapist or doctor.",
    ):
        assert said in words, said
    assert page.title() == "Week 1"
    assert page.locator("article svg[role=img]").count() == 4
    assert page.locator("article a").evaluate_all("links => links.map(link => link.href)") == [
        f"{handout_address.removesuffix('handout/')}cues/{id}/"
        for id in ("crate-curl", "cable-curl")
    ]
    assert "not medical advice" in page.locator("footer").inner_text()


@pytest.mark.parametrize(
    ("item", "told"),
    [
        (Item("crate-curl", sets=1, repetitions="1"), "1 set of 1 repetition"),
        (Item("crate-curl", sets=2), "2 sets"),
        (Item("crate-curl", repetitions="30s"), "30 seconds"),
        (Item("crate-curl", load="red band"), "red\u00a0band"),
        (Item("crate-curl", left=0), "Go on until you cannot do one more with good form."),
        (Item("crate-curl", rest=0), "No rest between sets."),
        (Item("crate-curl", rest=90), "Rest 90 seconds between sets."),
        (Item("crate-curl", rest=150), "Rest 2 minutes 30 seconds between sets."),
        (Item("crate-curl", tempo="1-0-2-1"), "Lower for 1 second, lift for 2, hold for 1."),
    ],
)
def test_doses_in_words(page: Page, handout_address: str, item: Item, told: str) -> None:
    page.goto(link(handout_address, single(None, (item,))))
    page.locator("article .poses").wait_for()
    assert page.locator("article > p").all_inner_texts() == [told]
    assert page.locator("h1:visible").inner_text() == "Your exercises"


def test_a_retired_exercise_leads_to_its_successor(page: Page, handout_address: str) -> None:
    page.goto(link(handout_address, single(None, (Item("lamp-curl", 3),))))
    page.locator("article .poses").wait_for()
    assert "1. Crate curl" in shows(page)


def test_back_and_forth(page: Page, handout_address: str) -> None:
    edit(page, link(handout_address))
    page.locator("input[name=sets]").first.fill("5")
    page.get_by_role("button", name="See what the client sees").click()
    page.locator(".dose", has_text="5 sets of").wait_for()
    assert decode(page.url.partition("#")[2], KNOWN).items[0] == replace(WEEK.items[0], sets=5)
    page.go_back()
    assert page.locator("input[name=sets]").first.input_value() == "5"
    page.go_back()
    page.locator(".dose", has_text="3 sets of").wait_for()


def test_a_handout_without_its_sheets_still_says_what_to_do(
    page: Page, handout_address: str
) -> None:
    page.route(
        "**/cues/**",
        lambda route: route.fulfill(body="<html>nothing</html>", content_type="text/html"),
    )
    page.goto(link(handout_address))
    page.get_by_text("could not be loaded just now").nth(1).wait_for()
    assert "3 sets of 8 to 12 repetitions" in shows(page) and "Slowly down." in shows(page)


# --- what must never happen ---------------------------------------------------


@pytest.mark.parametrize("fragment", HOSTILE)
def test_a_hostile_fragment_gets_a_message_and_nothing_else(
    page: Page, handout_address: str, fragment: str
) -> None:
    page.goto(f"{handout_address}#{fragment}")
    message = page.locator("[role=alert]")
    message.wait_for()
    assert message.inner_text() in fixed_words("handout")["script"]["problems"].values()
    assert shows(page).split("\n\n") == [
        "This handout cannot be shown",
        message.inner_text(),
        "Make a new handout",
    ]


def test_markup_in_a_handout_is_text(page: Page, handout_address: str) -> None:
    evil = "<img src=x onerror=alert(1)><script>alert(2)</script>"
    page.goto(
        link(handout_address, single(evil, (Item("crate-curl", load="<b>20</b>", note=evil),)))
    )
    page.locator("article .poses").wait_for()
    assert (
        page.locator("h1:visible").inner_text() == evil
        and page.locator(".note").inner_text() == evil
    )
    assert page.locator("main img, main script, article b").count() == 0


def test_only_listed_elements_of_a_sheet_are_taken_over(
    browser: Browser, handout_address: str
) -> None:
    sheet = (
        "<style>p{color:red}</style><main><h1>No</h1><p class=needs onclick=alert(1) id=x>You need: <i>a</i> "
        "<a href='javascript:alert(2)'>link</a><script>alert(3)</script><iframe src=https://example.org></iframe></p>"
        "<section><h2>Set up</h2><img src=x onerror=alert(4)><form><input></form></section>"
        "<svg viewBox='0 0 1 1' onload=alert(5)><a href=x><path d='M0 0'/></a><use href='https://example.org/x#y'/>"
        "<path d='M0 0h1' class=hb-pose__body /><foreignObject><p>no</p></foreignObject></svg></main>"
    )
    # Without the page's policy, which would refuse the handlers too: the list alone has to hold.
    with visit(browser, bypass_csp=True) as page:
        page.route("**/cues/**", lambda route: route.fulfill(body=sheet, content_type="text/html"))
        page.goto(link(handout_address, single(None, (Item("crate-curl"),))))
        page.locator("article h3").wait_for()
        assert page.locator(".sheet").inner_html() == (
            '<p class="needs">You need: <i>a</i> </p><section><h3>Set up</h3></section>'
            '<svg viewBox="0 0 1 1"><path class="hb-pose__body" d="M0 0h1"></path></svg>'
        )


def test_no_request_carries_the_fragment(page: Page, handout_address: str) -> None:
    asked: list[str] = []
    page.on(
        "request",
        lambda request: asked.append(f"{request.url} {request.headers} {request.post_data}"),
    )
    page.goto(link(handout_address))
    page.locator(".poses").nth(1).wait_for()
    payload = encode(WEEK)
    # Playwright shows the document's own address with its fragment; what goes over the wire is its path.
    assert len(asked) > 5 and not [
        line for line in asked if payload in line.replace(f"{link(handout_address)} ", "", 1)
    ]
    assert page.evaluate("[localStorage.length, sessionStorage.length, document.cookie]") == [
        0,
        0,
        "",
    ]


def test_scripts_never_make_markup_from_text() -> None:
    for script in SCRIPTS.rglob("*.js"):
        if script.name != "lean-qr.js":
            code = script.read_text(encoding="utf-8")
            if script.name == "searchable-map.js":  # a copied library; its remarks name addresses
                code = re.sub(r"(?s:/\*.*?\*/)|// Modified version of .*", "", code)
            ways = (
                "innerHTML",
                "outerHTML =",
                "insertAdjacentHTML",
                "document.write",
                "eval(",
                "Function(",
                "http:",
                "https:",
            )
            assert not [
                way
                for way in ways
                if way
                in re.sub(
                    "http://www.w3.org/|https://(doi.org|creativecommons.org/licenses)/", "", code
                )
            ], script.name


def test_the_library_is_the_published_one() -> None:
    """SHA-256 of nano.mjs in the package lean-qr 2.7.4 of the npm registry, taken when it was copied."""
    digest = hashlib.sha256((SCRIPTS / "handout" / "lean-qr.js").read_bytes()).hexdigest()
    assert digest == "9f064e870e3ab537ca1f87fadbaa45dd7fa56d8c32440bbddb8b893201b951d7"


# --- everybody ----------------------------------------------------------------


def test_without_scripts_the_cue_sheets_are_listed(browser: Browser, handout_address: str) -> None:
    with visit(browser, java_script_enabled=False) as page:
        page.goto(link(handout_address))
        links = page.get_by_role("listitem").get_by_role("link")
        assert links.all_inner_texts() == ["Crate curl", "Standing cable curl"]
        assert "no server ever sees it" in shows(page)
        for one in links.all():
            assert b"<main>" in urlopen(f"{handout_address}{one.get_attribute('href')}").read()


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_axe_finds_nothing_and_all_fits(
    browser: Browser, handout_address: str, scheme: str
) -> None:
    # axe is put into the page, which its own policy would refuse.
    with visit(browser, color_scheme=scheme, bypass_csp=True) as page:
        for width in (320, 1366):
            page.set_viewport_size({"width": width, "height": 800})
            for state in ("view", "step", "pain", "builder", "problem"):
                if state == "problem":
                    page.goto("about:blank")
                    page.goto(f"{handout_address}#x")
                elif state == "builder":
                    edit(page, link(handout_address, CARED))
                    page.get_by_label("Find an exercise").fill("curl")
                    page.locator("input[name=sets]").first.fill("0")
                    page.locator("summary").click()
                else:
                    complete(page, link(handout_address, CARED))
                if (
                    state != "view"
                    and (begin := page.get_by_role("button", name="Start", exact=True)).is_visible()
                ):
                    begin.click()
                if state == "pain":
                    page.get_by_role("button", name="It hurts").click()
                assert axe.violations(page) == [], (state, width)
                assert page.evaluate("document.documentElement.scrollWidth - innerWidth") <= 0, (
                    state,
                    width,
                )
                small = page.eval_on_selector_all(
                    "button, input, select, summary, .list a, a.button",
                    """all => all
                    .filter(e => e.offsetParent && e.offsetHeight < 44).map(e => e.outerHTML)""",
                )
                assert small == [], (state, width)
