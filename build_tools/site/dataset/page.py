"""The page of the data set, and its files."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from functools import partial
from typing import NamedTuple

from markupsafe import Markup

from ...committed.conclusions import ANSWER_KEYS, CLAIM_KEYS, PAIR_KEYS
from ..context import Link, PageContext, RenderContext, once
from ..pages import data_files
from ..resource import Resource
from ..templating import render
from . import edition, fields, linked, whole
from .fields import FieldRow
from .tables import TABLES, Table

#: Kinds of entries that are told field by field, each with its heading.
_KINDS = {"exercises": "Exercises", "muscles": "Muscles and parts", "studies": "Studies"}
ANCHORS = ["top", "files", "cite", "fields"]


class FileLine(NamedTuple):
    """One file: its link, what it holds, and how large it is."""

    link: Link
    holds: str
    size: str


def resources(shelf: RenderContext) -> Iterator[Resource]:
    """The page and the files."""
    yield Resource(edition.URI, text, ANCHORS)
    for uri in _makers():
        yield Resource(uri, partial(content, uri=uri))


@once
def content(shelf: RenderContext, uri: str) -> bytes:
    """One file."""
    return _makers()[uri](shelf)


def text(shelf: RenderContext) -> str:
    """The page as Markdown."""
    desk = shelf.at(edition.URI)
    return render(
        "data.md.jinja",
        edition=edition.told(shelf),
        day=edition.day(shelf),
        licence_href=edition.LICENCES.get(shelf.handbook.licence),
        files=[
            _line(
                desk,
                whole.URI,
                "JSON",
                "Everything in one file, compressed: `bunzip2`, or Python's `bz2.open`.",
            ),
            _line(
                desk,
                linked.FILE,
                "JSON-LD",
                "The set, exercises, muscles, sources and claims in the terms of schema.org.",
            ),
        ],
        tables=[(_line(desk, t.uri, t.name, f"A row is {t.row}."), _told(t)) for t in TABLES],
        records=data_files.downloads(desk),
        keys=_keys(whole.KEYS),
        kinds=[
            (heading, fields.rows(kind), desk.href(f"data/schema/{kind}.json"))
            for kind, heading in _KINDS.items()
        ],
        concluded=[
            ("A claim", _keys(CLAIM_KEYS)),
            ("A pair", _keys(PAIR_KEYS)),
            ("An answer", _keys(ANSWER_KEYS)),
            ("A reference, beyond CSL-JSON", _keys(whole.REFERENCE_KEYS)),
        ],
        linked=Markup(linked.of_page(shelf)),
        meta={
            "title": "Data",
            "description": "The whole catalog and what was concluded from it, to take away: JSON, CSV and JSON-LD, described field by field.",
            "hide": ["navigation", "toc"],
        },
    )


def _told(table: Table) -> list[FieldRow]:
    return [FieldRow(column.name, "", column.holds) for column in table.columns]


def _keys(keys: Mapping[str, str]) -> list[FieldRow]:
    return [FieldRow(key, "", holds) for key, holds in keys.items()]


def _makers() -> dict[str, Callable[[RenderContext], bytes]]:
    return {
        whole.URI: whole.content,
        linked.FILE: linked.content,
        **{table.uri: table.content for table in TABLES},
    }


def _line(desk: PageContext, uri: str, name: str, holds: str) -> FileLine:
    size = len(content(desk.shelf, uri))
    told = f"{size / 1e6:.1f} MB" if size >= 1e6 else f"{max(1, round(size / 1e3))} kB"
    return FileLine(Link(name, desk.href(uri)), holds, told)
