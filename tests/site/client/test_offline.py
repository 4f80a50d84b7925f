"""What was kept opens without a network, follows the site when it changes, and goes when keeping is turned off.

The judge is Chromium, which follows the W3C's Service Workers and takes the network away itself.
"""

from __future__ import annotations

import threading
from collections.abc import Iterator
from functools import partial
from http.server import ThreadingHTTPServer
from pathlib import Path
from typing import TYPE_CHECKING

import handout_site
import pytest
from client_pages import PUBLISHED, files, write
from folders import DEMO
from kept_pages import KEPT, RENEWED, Quiet, catalog, keep, status, until
from site_reading import Reader

from build_tools.catalog.load import load
from build_tools.site.publication import Publication

if TYPE_CHECKING:
    from playwright.sync_api import BrowserContext, Page, Request

OFF = Publication(None, offline=False)


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """Client pages in a folder of a host, and pages that are not for clients."""
    write(tmp_path / "handbook", catalog())
    for other in ("handbook/exercises", "elsewhere"):
        (tmp_path / other).mkdir()
        (tmp_path / other / "index.html").write_text("<h1>Another page</h1>")
    return tmp_path


@pytest.fixture
def context(browser: object, folder: Path) -> Iterator[BrowserContext]:
    with (
        ThreadingHTTPServer(("127.0.0.1", 0), partial(Quiet, directory=str(folder))) as server,
        browser.new_context(base_url=f"http://127.0.0.1:{server.server_port}/handbook/") as context,
    ):
        threading.Thread(target=server.serve_forever, daemon=True).start()
        yield context
        server.shutdown()


# --- keeping -----------------------------------------------------------------


@pytest.mark.browser
def test_a_kept_sheet_opens_without_a_network(page: Page, context: BrowserContext) -> None:
    page.goto("cues/crate-curl/")
    page.get_by_role("link", name="Keep this sheet").click()
    assert status(page).startswith("Saved on this phone. Crate curl now opens")
    context.set_offline(True)
    page.get_by_role("link", name="Open the sheet").click()
    page.wait_for_url("**/cues/crate-curl/")
    assert page.inner_text("h1") == "Crate curl"


@pytest.mark.browser
def test_a_visited_sheet_is_kept_once_there_is_a_worker(
    page: Page, context: BrowserContext
) -> None:
    keep(page)
    page.goto("cues/cable-curl/")
    until(page, f"() => ({KEPT})().then(kept => kept.includes('/handbook/cues/cable-curl/'))")
    context.set_offline(True)
    page.goto("cues/cable-curl/?from=chat")
    assert page.inner_text("h1") == "Standing cable curl"


@pytest.mark.browser
def test_only_client_pages_are_kept(page: Page, context: BrowserContext) -> None:
    keep(page)
    page.goto("exercises/")
    page.goto("/elsewhere/")
    page.goto("keep/")
    assert all(
        path.startswith(("/handbook/cues/", "/handbook/keep/")) for path in page.evaluate(KEPT)
    )
    context.set_offline(True)
    for path in ("exercises/", "/elsewhere/"):
        with pytest.raises(Exception, match="ERR_"):
            page.goto(path)
        page.wait_for_load_state()


@pytest.mark.browser
def test_a_sheet_that_was_not_kept_says_so_without_a_signal(
    page: Page, context: BrowserContext
) -> None:
    keep(page)
    context.set_offline(True)
    answer = page.goto("cues/cable-curl/")
    assert answer is not None and answer.status == 503
    assert page.title() == "No signal" and "not kept on this phone" in page.inner_text("body")
    context.set_offline(False)
    page.get_by_role("link", name="Try again").click()
    page.get_by_role("heading", level=1, name="Standing cable curl").wait_for()


@pytest.mark.browser
def test_a_worker_keeps_nothing_from_elsewhere(page: Page) -> None:
    keep(page)
    for address in (
        "../exercises/",
        "/elsewhere/",
        "https://lantern-yard.example/cues/x/",
        "../cues/no-such/",
    ):
        answer = page.evaluate(
            """address => new Promise(async resolve => {
            const {port1, port2} = new MessageChannel();
            port1.onmessage = event => resolve(event.data);
            (await navigator.serviceWorker.ready).active.postMessage({keep: [address]}, [port2]) })""",
            address,
        )
        assert answer == {"kept": False}, address
    assert page.evaluate(KEPT) == ["/handbook/cues/crate-curl/"]


# --- hostile and hapless -----------------------------------------------------


@pytest.mark.browser
@pytest.mark.parametrize(
    "fragment",
    [
        "",
        "<img src=x onerror=document.title='hit'>",
        "%3Cscript%3E",
        "../exercises",
        "..%2f",
        "crate-curl/../..",
        "//lantern-yard.example",
        "javascript:document.title='hit'",
        "a" * 100_000,
        "Crate-Curl",
        "crate--curl",
    ],
)
def test_a_fragment_that_names_nothing_asks_for_nothing(page: Page, fragment: str) -> None:
    asked: list[Request] = []
    page.on("request", lambda request: asked.append(request))
    said = keep(page, fragment)
    assert said.startswith("This link names no cue sheet.")
    assert page.title() == "Keep a cue sheet on your phone"
    assert {request.url.partition("#")[0].rpartition("/handbook/")[2] for request in asked} <= {
        "keep/",
        "keep/keep.js",
    }
    assert page.evaluate(
        "navigator.serviceWorker.getRegistration().then(found => found === undefined)"
    )


@pytest.mark.browser
def test_an_unknown_sheet_is_said_to_be_unknown(page: Page) -> None:
    assert keep(page, "no-such-curl").startswith("There is no cue sheet of that name.")
    assert page.evaluate(
        "navigator.serviceWorker.getRegistration().then(found => found === undefined)"
    )


@pytest.mark.browser
def test_without_a_signal_it_can_be_tried_again(page: Page, context: BrowserContext) -> None:
    page.goto("keep/")
    context.set_offline(True)
    page.evaluate("location.hash = 'crate-curl'")
    page.wait_for_selector("text=there is no signal just now")
    context.set_offline(False)
    page.get_by_role("button", name="Try again").click()
    page.wait_for_selector("text=Saved on this phone.")


@pytest.mark.browser
def test_a_browser_that_keeps_nothing_is_told_so(page: Page) -> None:
    page.add_init_script(
        "navigator.serviceWorker.register = () => Promise.reject(new DOMException('no', 'SecurityError'))"
    )
    assert "this browser cannot keep pages" in keep(page)


@pytest.mark.browser
def test_without_scripts_it_leads_to_the_sheet(
    browser: object, context: BrowserContext, page: Page
) -> None:
    page.goto("keep/")
    with browser.new_context(java_script_enabled=False) as plain:
        bare = plain.new_page()
        bare.goto(f"{page.url}#crate-curl")
        bare.get_by_role("link", name="Crate curl").click()
        assert bare.url.endswith("/handbook/cues/crate-curl/")


# --- a new build -------------------------------------------------------------


@pytest.mark.browser
def test_a_new_build_brings_what_was_kept_up_to_date(
    page: Page, context: BrowserContext, folder: Path
) -> None:
    keep(page)
    keep(page, "cable-curl")
    before = page.evaluate("caches.keys()")
    write(folder / "handbook", catalog("Sit even taller."))
    page.evaluate("navigator.serviceWorker.getRegistration().then(found => found.update())")
    until(page, RENEWED, before[0])
    assert {"/handbook/cues/crate-curl/", "/handbook/cues/cable-curl/"} <= set(page.evaluate(KEPT))
    context.set_offline(True)
    page.goto("cues/crate-curl/")
    assert page.get_by_text("Sit even taller.").is_visible()


@pytest.mark.browser
def test_a_sheet_that_is_gone_is_let_go(page: Page, folder: Path) -> None:
    keep(page)
    keep(page, "cable-curl")
    before = page.evaluate("caches.keys()")
    write(folder / "handbook", catalog("Sit even taller."))
    (folder / "handbook/cues/cable-curl/index.html").rename(folder / "away.html")
    (folder / "handbook/cues/cable-curl/qr.svg").unlink()
    (folder / "handbook/cues/cable-curl/qr.png").unlink()
    (folder / "handbook/cues/cable-curl").rmdir()
    page.evaluate("navigator.serviceWorker.getRegistration().then(found => found.update())")
    until(page, RENEWED, before[0])
    assert "/handbook/cues/crate-curl/" in page.evaluate(
        KEPT
    ) and "/handbook/cues/cable-curl/" not in page.evaluate(KEPT)


@pytest.mark.browser
def test_a_kept_handout_gets_the_scripts_that_a_new_build_added(
    page: Page, context: BrowserContext, folder: Path
) -> None:
    """As after a build before which the page's scripts stood elsewhere: nothing of them was kept where they stand now."""
    handout_site.write(folder / "handbook", catalog(), PUBLISHED)
    page.goto(handout_site.link("handout/"))
    page.get_by_text("Kept on this device").wait_for()
    before = page.evaluate("caches.keys()")
    page.evaluate(
        """async ([name]) => { const cache = await caches.open(name);
        for (const kept of await cache.keys()) if (kept.url.includes('/scripts/')) await cache.delete(kept); }""",
        before,
    )
    assert not [path for path in page.evaluate(KEPT) if "/scripts/" in path]
    handout_site.write(folder / "handbook", catalog("Sit even taller."), PUBLISHED)
    page.evaluate("navigator.serviceWorker.getRegistration().then(found => found.update())")
    until(page, RENEWED, before[0])
    context.set_offline(True)
    again = context.new_page()
    again.goto(handout_site.link("handout/"))
    again.get_by_text("Sit even taller.").wait_for()


@pytest.mark.browser
def test_turned_off_it_removes_what_was_kept_and_itself(page: Page, folder: Path) -> None:
    keep(page)
    page.evaluate(
        "caches.open('client pages of /elsewhere/ 1')"
    )  # another handbook on the same host
    write(folder / "handbook", catalog(), OFF)
    page.evaluate("navigator.serviceWorker.getRegistration().then(found => found.update())")
    until(page, "() => navigator.serviceWorker.getRegistration().then(found => !found)")
    assert page.evaluate("caches.keys()") == ["client pages of /elsewhere/ 1"]


def test_turned_off_nothing_offers_to_keep() -> None:
    made = files(load(DEMO, "catalog"), OFF)
    assert "keep/" not in made["cues/crate-curl/index.html"].decode()
    assert "script" not in {tag for tag, _ in Reader(made["keep/index.html"].decode()).elements}
    assert "unregister" in made["sw.js"].decode()


def test_a_worker_changes_when_and_only_when_a_client_page_does() -> None:
    first, same, other = (
        files(catalog(says))["sw.js"] for says in ("Sit tall.", "Sit tall.", "Sit taller.")
    )
    assert first == same != other
