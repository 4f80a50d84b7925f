"""The client's pages of a catalog on a local port, and a page that notices everything wrong."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING, Any

import client_pages
from handouts import Handout, Item, encode, single
from site_serving import serve

from build_tools.catalog.load import Catalog
from build_tools.site.client import handout_page, offline
from build_tools.site.publication import UNPUBLISHED, Publication

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page

WEEK = single(
    "Week 1",
    (
        Item("crate-curl", 3, "8-12", "20 kg", 2, 120, "3-1-1", "Slowly down."),
        Item("cable-curl", repetitions="20-40s"),
    ),
)


def write(to: Path, written: Catalog, site: Publication = UNPUBLISHED) -> None:
    """Cue sheets, the handout page, and what keeps both."""
    shelf = client_pages.shelf(written, site)
    pages = [*client_pages.files(written, site).items(), *handout_page.files(shelf)]
    for uri, content in [*pages, *offline.files(shelf, pages)]:
        (to / uri).parent.mkdir(parents=True, exist_ok=True)
        (to / uri).write_bytes(content)


@contextmanager
def handout_site(folder: Path, written: Catalog) -> Iterator[str]:
    """The address of the handout page."""
    write(folder, written)
    with serve(folder) as address:
        yield f"{address}handout/"


Watched = tuple["Page", list[str]]
"""A page, and what has gone wrong on it."""


@contextmanager
def watch(browser: Browser, **options: Any) -> Iterator[Watched]:
    """A page with what goes wrong on it: console messages, errors, failed requests, those that carry a fragment or leave."""
    with browser.new_context(**{"service_workers": "block", **options}) as context:
        context.add_init_script(
            "if (navigator.serviceWorker) navigator.serviceWorker.register = () => Promise.reject(new Error('no'))"
        )
        page, wrong = context.new_page(), []
        page.on("console", lambda message: wrong.append(message.text))
        page.on("pageerror", lambda error: wrong.append(str(error)))
        page.on("dialog", lambda dialog: wrong.append(dialog.message))
        page.on(
            "request",
            lambda asked: (
                wrong.append(asked.url)
                if not asked.url.startswith(("http://127.0.0.1", "data:"))
                else None
            ),
        )
        page.on(
            "response", lambda answer: wrong.append(answer.url) if answer.status >= 400 else None
        )
        yield page, wrong


@contextmanager
def visit(browser: Browser, **options: Any) -> Iterator[Page]:
    """A page of its own on which nothing may go wrong."""
    with watch(browser, **options) as watched, once_more(watched) as page:
        yield page


@contextmanager
def once_more(watched: Watched) -> Iterator[Page]:
    """The same page emptied, on which nothing may go wrong: a new one costs more than most tests do on it."""
    page, wrong = watched
    yield page
    page.unroute_all()
    page.emulate_media(media="null")
    page.goto("about:blank")
    found, wrong[:] = list(wrong), []
    assert not found, found


def link(address: str, handout: Handout = WEEK) -> str:
    """The link of a handout."""
    return f"{address}#{encode(handout)}"


def complete(page: Page, address: str | None) -> None:
    """Open a handout's link, or the page anew, and wait until figures, ticks and the code stand."""
    if address is None:
        page.reload()
    else:
        page.goto("about:blank")
        page.goto(address)
    page.locator("html[data-print]").wait_for(state="attached")
