"""Writes the client's pages alone, without the pages around them, for the tests of this folder."""

from __future__ import annotations

from pathlib import Path

from build_tools.catalog.load import Catalog
from build_tools.evidence.claims.conclusions import Conclusions
from build_tools.evidence.wording.names import Names
from build_tools.site.addresses import Addresses
from build_tools.site.client import cue_sheet, handout_page, offline
from build_tools.site.context import RenderContext
from build_tools.site.publication import Publication

#: An invented address, as long as real ones are.
PUBLISHED = Publication("https://handbook.lantern-yard.example/strength/", offline=True)


def shelf(catalog: Catalog, site: Publication = PUBLISHED) -> RenderContext:
    """What cue sheets are made from; nothing is concluded."""
    made = RenderContext(catalog, Conclusions(Names(catalog), {}, {}, []), Addresses(), site)
    for uri in (
        "cautions.md",
        "exercises/index.md",
        offline.KEEP_SCRIPT,
        offline.WORKER,
        *handout_page.uris(made),
    ):
        made.addresses.add(uri)
    made.addresses.add(offline.KEEP, list(catalog.exercises))
    for id in catalog.exercises:
        for uri in (f"exercises/{id}.md", *cue_sheet.uris(id, site)):
            made.addresses.add(uri)
    return made


def files(catalog: Catalog, site: Publication = PUBLISHED) -> dict[str, bytes]:
    """All cue sheets with their QR codes, the page that keeps them and the worker."""
    made = shelf(catalog, site)
    sheets = [file for id in catalog.exercises for file in cue_sheet.files(made, id)]
    return dict([*sheets, *offline.files(made, sheets)])


def write(to: Path, catalog: Catalog, site: Publication = PUBLISHED) -> None:
    """Write these files to a folder, over what stands there."""
    for uri, content in files(catalog, site).items():
        (to / uri).parent.mkdir(parents=True, exist_ok=True)
        (to / uri).write_bytes(content)
