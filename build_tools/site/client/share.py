"""What a coach passes on from an exercise's page: the client's link with its QR code, the sources, and the figure with its credit.

Links work by themselves; ``share.js`` adds what only a script can do: copying, sending, and a picture of the figure.
"""

from __future__ import annotations

from dataclasses import dataclass

from ...catalog.bibliography import apa as referencing
from ..addresses import url
from ..context import PageContext, RenderContext
from ..figures import file as figure_file
from . import cue_sheet, handout_page, offline, scripts

SCRIPT = scripts.uri(scripts.SHARE)


@dataclass(frozen=True)
class Share:
    """What the exercise's template shows. Links are relative to its page."""

    id: str
    sheet: str
    """The cue sheet."""
    address: str
    """The cue sheet's address as it is copied: absolute when it is known, else relative and completed by the script."""
    qr: tuple[str, str] | None
    """The code of that address as SVG and as PNG; None without an address."""
    handout: str
    """A new handout that begins with the exercise."""
    figure: str
    """The figure's citation line."""
    sources: str
    """Everything cited on the page, one reference a line; empty when nothing is."""
    bibtex: str | None
    """The records of all sources, of which a script takes those; None when nothing is cited."""
    keys: str
    """Keys of what is cited, parted by blanks."""
    records: str
    """That script."""
    script: str
    worker: str | None
    """The service worker that keeps cue sheets; None when nothing is to be kept."""


def view(desk: PageContext, id: str, keys: list[str]) -> Share:
    """What is passed on from the page of exercise ``id``, which cites ``keys``."""
    shelf, sheet = desk.shelf, desk.href(cue_sheet.uri(id))
    svg, png = cue_sheet.qr_uris(id)
    published = shelf.site.at(url(cue_sheet.uri(id)))
    return Share(
        id=id,
        sheet=sheet,
        address=published or sheet,
        qr=(desk.href(svg), desk.href(png)) if published else None,
        handout=handout_page.beginning_with(desk, id),
        figure=_figure(shelf, id),
        sources=_sources(shelf, id, keys),
        bibtex=desk.href("data/references.bib") if keys else None,
        keys=" ".join(keys),
        records=desk.href(scripts.uri(scripts.RECORDS)),
        script=desk.href(SCRIPT),
        worker=desk.href(offline.WORKER) if shelf.site.offline else None,
    )


def _sources(shelf: RenderContext, id: str, keys: list[str]) -> str:
    if not keys:
        return ""
    head = f"Sources of “{shelf.catalog.exercises[id].data.name}” ({shelf.handbook.title})"
    told = (referencing.plain(shelf.catalog.references[key], shelf.letters[key]) for key in keys)
    return "\n".join([head, *_where(shelf, id), "", *told])


def _figure(shelf: RenderContext, id: str) -> str:
    name = shelf.catalog.exercises[id].data.name
    return " ".join(
        [f"{name}: start and finish.", *figure_file.credits(shelf, id), *_where(shelf, id)]
    )


def _where(shelf: RenderContext, id: str) -> list[str]:
    """The page's own address; nothing while it is unknown."""
    at = shelf.site.at(url(f"exercises/{id}.md"))
    return [at] if at else []
