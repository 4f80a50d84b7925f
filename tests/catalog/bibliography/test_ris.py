"""References as RIS, read back by rispy, a reader of RIS made by others."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
import rispy
import shipped_made
from bibliography_records import one

from build_tools.catalog.bibliography import ris


def back(text: str) -> list[dict[str, Any]]:
    return rispy.loads(text)


def test_an_article_comes_back_whole(tmp_path: Path) -> None:
    r = one(
        tmp_path,
        author="King, Jr., Martin Luther and {A Group} and Wick, Ada",
        title="Müde & wach: 50% more?",
        volume="5",
        number="2",
        pages="101--112",
        doi="10.1000/a_b",
        pmid="123",
    )
    [found] = back(ris.text([r]))
    expected = {
        "type_of_reference": "JOUR",
        "id": "wick2030",
        "authors": ["King, M. L., Jr.", "A Group", "Wick, A."],
        "title": "Müde & wach: 50% more?",
        "secondary_title": "J",
        "year": "2030",
        "volume": "5",
        "number": "2",
        "start_page": "101",
        "end_page": "112",
        "doi": "10.1000/a_b",
        "accession_number": "123",
        "urls": ["https://doi.org/10.1000/a_b"],
    }
    assert found == expected


@pytest.mark.parametrize(
    ("fields", "note"),
    [
        ({"author": "Wick, A and others"}, "There are more authors than these"),
        ({"author": "", "recheck": "authors not shown"}, "The authors could not be seen"),
        (
            {"notice": "retraction 10.1000/gone"},
            "Retraction published: https://doi.org/10.1000/gone",
        ),
    ],
)
def test_what_must_not_be_lost_is_a_note(tmp_path: Path, fields: dict[str, str], note: str) -> None:
    assert back(ris.text([one(tmp_path, **fields)]))[0]["notes"] == [note]


def test_every_shipped_record_comes_back() -> None:
    references = shipped_made.catalog().references
    found = {record["id"]: record for record in back(ris.text(references.values()))}
    assert set(found) == set(references)
    for key, r in references.items():
        record = found[key]
        assert (record["title"], record["year"]) == (r.title, r.year)
        assert record.get("doi", "") == r.doi and len(record.get("authors", ())) == len(r.authors)
