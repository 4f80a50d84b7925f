"""Client pages without a network: the page that keeps a cue sheet on the phone, and the service worker.

A cue sheet has no script, so it cannot ask for a worker; its link to ``keep/#<id>`` does.
Any page with a script keeps addresses by registering ``sw.js`` and sending the active
worker ``{keep: [address, ...]}`` with a message port, which answers ``{kept: true or false}``.
"""

from __future__ import annotations

from collections.abc import Iterable
from hashlib import sha256

from ...catalog.fixed_words import fixed_words
from ..addresses import url
from ..context import Link, PageContext, RenderContext
from ..hosting.policy import MARK, THEME_MARK
from ..previews.preview import HANDOUT, handout_preview, preview
from ..templating import render

_WORDS = fixed_words("keep")
KEEP, KEEP_SCRIPT, WORKER = "keep/index.html", "keep/keep.js", "sw.js"


def kept_at(desk: PageContext, id: str) -> str:
    """The link that keeps an exercise's cue sheet."""
    return desk.href(KEEP, id)


def files(shelf: RenderContext, pages: Iterable[tuple[str, bytes]]) -> list[tuple[str, bytes]]:
    """The page that keeps sheets, its script and the worker.

    ``pages``: the client's pages and their files. A worker of other pages is another
    version, which fetches anew what was kept.
    """
    desk, site = shelf.at(KEEP), shelf.site
    sheets = [
        (id, Link(entry.data.name, desk.href(f"cues/{id}/index.html")))
        for id, entry in sorted(
            shelf.catalog.exercises.items(), key=lambda item: item[1].data.name.casefold()
        )
    ]
    keep = render(
        "keep.html.jinja",
        palette=shelf.palette,
        words=_WORDS,
        handbook=shelf.handbook,
        offline=site.offline,
        sheets=sheets,
        preview=preview(
            shelf,
            KEEP,
            _WORDS["title"],
            _WORDS["description"],
            handout_preview(shelf).alt,
            HANDOUT,
        ),
        address=site.at(url(KEEP)),
        exercises=desk.href("exercises/index.md"),
        cautions=desk.href("cautions.md"),
    ).encode()
    scripts = sorted(uri for uri, _ in pages if uri.startswith("scripts/"))
    made = [(KEEP, keep), (KEEP_SCRIPT, render("keep.js.jinja").encode())]
    worker = (
        render(
            "sw.js.jinja",
            version=_version([*pages, *made]),
            scripts=scripts,
            words=_WORDS,
            mark=MARK,
            theme_mark=THEME_MARK,
        )
        if site.offline
        else render("sw_off.js.jinja")
    )
    return [*made, (WORKER, worker.encode())]


def _version(pages: Iterable[tuple[str, bytes]]) -> str:
    digest = sha256()
    for uri, content in sorted(pages):
        digest.update(f"{uri} {len(content)} ".encode() + content)
    return digest.hexdigest()[:16]
