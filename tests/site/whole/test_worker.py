"""What the worker does when something goes wrong around it: no room, foreign answers, a broken copy, two versions, its file gone.

The judge is Chromium, whose quota and network the tests take away themselves.
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
from client_pages import PUBLISHED
from kept_pages import KEPT, RENEWED, Quiet, catalog, keep, until

if TYPE_CHECKING:
    from playwright.sync_api import BrowserContext, Page

SHEET, OTHER = "/handbook/cues/crate-curl/", "/handbook/cues/cable-curl/"
UPDATE = "navigator.serviceWorker.getRegistration().then(found => found.update())"
#: A signal to log in at, as hotspots answer in the place of every page.
HOTSPOT = b"<!doctype html><html><title>Log in</title><h1>Free network: log in</h1></html>"


class Host(Quiet):
    """Plain files, but for paths that something else answers: path -> (status, type, body)."""

    instead: dict[str, tuple[int, str, bytes]]

    def do_GET(self) -> None:
        given = self.instead.get(self.path) or self.instead.get("*")
        if given is None:
            return super().do_GET()
        status, kind, body = given
        self.send_response(status)
        self.send_header("Content-Type", kind)
        self.send_header("Content-Length", str(len(body)))
        if 300 <= status < 400:
            self.send_header("Location", body.decode())
        self.end_headers()
        self.wfile.write(body)


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """The client's pages in a folder of a host."""
    handout_site.write(tmp_path / "handbook", catalog(), PUBLISHED)
    return tmp_path


@pytest.fixture
def instead() -> dict[str, tuple[int, str, bytes]]:
    """What answers in the place of files."""
    return {}


@pytest.fixture
def context(
    browser: object, folder: Path, instead: dict[str, tuple[int, str, bytes]]
) -> Iterator[BrowserContext]:
    host = type("Answering", (Host,), {"instead": instead})
    with (
        ThreadingHTTPServer(("127.0.0.1", 0), partial(host, directory=str(folder))) as server,
        browser.new_context(base_url=f"http://127.0.0.1:{server.server_port}/handbook/") as context,
    ):
        threading.Thread(target=server.serve_forever, daemon=True).start()
        yield context
        server.shutdown()


def fill(page: Page, quota: int | None = None) -> None:
    """Leave this origin no room: its quota is what it uses now, or even less."""
    origin = page.evaluate("location.origin")
    used = page.evaluate("navigator.storage.estimate().then(found => found.usage)")
    session = page.context.new_cdp_session(page)
    session.send(
        "Storage.overrideQuotaForOrigin", {"origin": origin, "quotaSize": quota or used + 1000}
    )


# --- no room -----------------------------------------------------------------


@pytest.mark.browser
@pytest.mark.parametrize("path", ["cues/cable-curl/", "handout/", "keep/"])
def test_a_full_phone_online_shows_the_page(page: Page, path: str) -> None:
    keep(page)
    fill(page)
    answer = page.goto(path)
    assert answer is not None and answer.status == 200 and page.title() != "No signal"
    assert OTHER not in page.evaluate(KEPT), "else there was room"


@pytest.mark.browser
def test_a_full_phone_is_told_that_there_is_no_room(page: Page, context: BrowserContext) -> None:
    keep(page)
    fill(page)
    assert keep(page, "cable-curl").startswith("Not saved: there is no room on this phone.")
    page.get_by_role("link", name="Open the sheet").click()
    page.get_by_role("heading", level=1, name="Standing cable curl").wait_for()


@pytest.mark.browser
@pytest.mark.parametrize("quota", [1, None])
def test_what_is_kept_stays_when_a_full_phone_opens_or_keeps_it_again(
    page: Page, context: BrowserContext, quota: int | None
) -> None:
    """Writing the same copy once more found no room, and the copy was gone."""
    keep(page)
    fill(page, quota)
    page.goto("cues/cable-curl/")
    for _ in range(2):
        page.goto("about:blank")
        page.goto("cues/crate-curl/")
        page.wait_for_timeout(300)
    assert keep(page).startswith("Saved on this phone.")
    context.set_offline(True)
    page.goto("cues/crate-curl/")
    assert page.inner_text("h1") == "Crate curl"


@pytest.mark.browser
def test_a_worker_that_has_no_room_for_a_new_version_leaves_the_old_one(
    page: Page, context: BrowserContext, folder: Path
) -> None:
    keep(page)
    before = page.evaluate("caches.keys()")
    fill(page)
    handout_site.write(folder / "handbook", catalog("Sit even taller. " + "So. " * 500), PUBLISHED)
    page.evaluate(f"{UPDATE}.catch(() => {{}})")
    until(
        page,
        """before => navigator.serviceWorker.getRegistration().then(async (found) => !found.installing && !found.waiting
            && String(await caches.keys()) === String(before))""",
        before,
    )
    context.set_offline(True)
    page.goto("cues/crate-curl/")
    assert page.inner_text("h1") == "Crate curl"


# --- answers that are not ours -----------------------------------------------

SUSPENDED = b"<!doctype html><html><head></head><body>This account is suspended.</body></html>"


@pytest.mark.browser
@pytest.mark.parametrize(
    "given",
    [
        (200, "text/html", HOTSPOT),
        (200, "text/html", SUSPENDED),
        (200, "text/html", b""),
        (200, "text/plain", b"none"),
        (200, "application/json", b"{}"),
        (203, "text/html", HOTSPOT),
        (302, "text/html", b"/handbook/cues/cable-curl/"),
        (500, "text/html", HOTSPOT),
    ],
    ids=["hotspot", "suspended", "empty", "plain", "json", "203", "redirect", "error"],
)
def test_only_our_own_answers_replace_a_kept_sheet(
    page: Page,
    context: BrowserContext,
    instead: dict[str, tuple[int, str, bytes]],
    given: tuple[int, str, bytes],
) -> None:
    keep(page)
    instead[SHEET] = given
    with page.expect_event("requestfinished", lambda asked: asked.url.endswith(SHEET)):
        page.goto("cues/crate-curl/")
    assert page.inner_text("h1") == "Crate curl"
    page.wait_for_timeout(300)
    context.set_offline(True)
    page.goto("cues/crate-curl/")
    assert page.inner_text("h1") == "Crate curl"


@pytest.mark.browser
@pytest.mark.parametrize("path", ["404.html", "index.html", "exercises/crate-curl/index.html"])
def test_another_page_of_the_site_does_not_replace_a_kept_sheet(
    page: Page,
    context: BrowserContext,
    instead: dict[str, tuple[int, str, bytes]],
    demo_site: Path,
    path: str,
) -> None:
    """Hosts that are set up for one-page programs answer 200 with such a page where they have no file."""
    keep(page)
    instead[SHEET] = (200, "text/html", (demo_site / path).read_bytes())
    page.goto("cues/crate-curl/")
    page.wait_for_timeout(300)
    context.set_offline(True)
    page.goto("cues/crate-curl/")
    assert page.title().startswith("Crate curl: how to do it")


@pytest.mark.browser
def test_a_half_sheet_is_not_kept(
    page: Page, folder: Path, instead: dict[str, tuple[int, str, bytes]]
) -> None:
    keep(page)
    whole = (folder / OTHER.strip("/") / "index.html").read_bytes()
    instead[OTHER] = (200, "text/html", whole[: len(whole) // 2])
    page.goto("cues/cable-curl/")
    page.wait_for_timeout(300)
    assert OTHER not in page.evaluate(KEPT)


@pytest.mark.browser
def test_every_page_for_clients_counts_as_ours(page: Page, folder: Path) -> None:
    keep(page)
    paths = [
        path.parent.relative_to(folder / "handbook").as_posix() + "/"
        for path in (folder / "handbook").rglob("index.html")
    ]
    assert {"handout/", "keep/", "cues/crate-curl/"} <= set(paths)
    for path in paths:
        page.goto(path)
        until(page, f"path => ({KEPT})().then(kept => kept.includes(path))", f"/handbook/{path}")


@pytest.mark.browser
def test_a_script_of_another_kind_is_not_kept(
    page: Page, instead: dict[str, tuple[int, str, bytes]]
) -> None:
    keep(page)
    instead["/handbook/scripts/dom.js"] = (200, "text/html", HOTSPOT)
    page.evaluate("fetch('../scripts/dom.js').then(answer => answer.text())")
    page.wait_for_timeout(300)
    assert "/handbook/scripts/dom.js" not in page.evaluate(KEPT)


# --- a broken copy -----------------------------------------------------------


@pytest.mark.browser
@pytest.mark.parametrize("body", ["", "<h1>Half a she", "Log in"])
def test_a_broken_copy_is_never_shown(page: Page, context: BrowserContext, body: str) -> None:
    keep(page)
    page.evaluate(
        """async ([path, body]) => { const cache = await caches.open((await caches.keys())[0]);
        await cache.put(path, new Response(body, { headers: { "Content-Type": "text/html" } })); }""",
        [SHEET, body],
    )
    context.set_offline(True)
    answer = page.goto("cues/crate-curl/")
    assert answer is not None and answer.status == 503
    context.set_offline(False)
    page.goto("cues/crate-curl/")
    assert page.inner_text("h1") == "Crate curl"


@pytest.mark.browser
def test_without_its_store_the_worker_lets_the_network_answer(page: Page) -> None:
    keep(page)
    page.evaluate(
        "caches.keys().then(names => Promise.all(names.map(name => caches.delete(name))))"
    )
    page.goto("cues/crate-curl/")
    assert page.inner_text("h1") == "Crate curl"


# --- versions ----------------------------------------------------------------


@pytest.mark.browser
def test_two_tabs_of_two_versions_both_work(
    page: Page, context: BrowserContext, folder: Path
) -> None:
    keep(page)
    page.goto(handout_site.link("handout/"))
    page.get_by_text("Kept on this device").wait_for()
    other, before = context.new_page(), page.evaluate("caches.keys()")
    handout_site.write(folder / "handbook", catalog("Sit even taller."), PUBLISHED)
    other.goto("keep/")
    other.evaluate(UPDATE)
    until(other, RENEWED, before[0])
    other.goto(handout_site.link("handout/"))
    other.get_by_text("Sit even taller.").wait_for()
    # The tab from before goes on: what it asks for now comes from the new version, or from the network.
    assert page.get_by_text("Sit tall on the crate.").first.is_visible()
    page.get_by_role("button", name="Larger").click()
    assert page.evaluate("fetch('../scripts/dom.js').then(answer => answer.status)") == 200
    context.set_offline(True)
    page.reload()
    page.get_by_text("Sit even taller.").wait_for()


@pytest.mark.browser
@pytest.mark.parametrize("status", [404, 410])
def test_a_worker_whose_file_is_gone_removes_itself(
    page: Page, folder: Path, instead: dict[str, tuple[int, str, bytes]], status: int
) -> None:
    keep(page)
    page.evaluate("caches.open('client pages of /elsewhere/ 1')")
    instead["/handbook/sw.js"] = (status, "text/html", HOTSPOT)
    again(page)
    until(page, "() => navigator.serviceWorker.getRegistration().then(found => !found)")
    assert page.evaluate("caches.keys()") == ["client pages of /elsewhere/ 1"]


@pytest.mark.browser
@pytest.mark.parametrize("status", [404, 410, 500])
def test_a_host_that_answers_nothing_of_ours_takes_nothing_away(
    page: Page, instead: dict[str, tuple[int, str, bytes]], status: int
) -> None:
    """A suspended account, a hotspot: the worker's file is gone, and so is everything else."""
    keep(page)
    instead["/handbook/sw.js"] = instead["/handbook/cues/cable-curl/"] = (
        status,
        "text/html",
        HOTSPOT,
    )
    again(page, "cues/cable-curl/")
    page.wait_for_timeout(500)
    assert page.evaluate("navigator.serviceWorker.getRegistration().then(found => !!found)")
    assert SHEET in page.evaluate(KEPT)


def again(page: Page, path: str = "cues/crate-curl/") -> None:
    """Visit as on another day: the browser has ended the worker meanwhile."""
    session = page.context.new_cdp_session(page)
    session.send("ServiceWorker.enable")
    session.send("ServiceWorker.stopAllWorkers")
    page.goto("about:blank")
    page.goto(path)
