"""A new record finds its key, its double and its place. Outside source: difflib of the standard library says how near two titles are."""

from __future__ import annotations

from pathlib import Path

import pytest
from folders import SHIPPED
from sample_exports import BIBTEX, NBIB, RIS

from build_tools.authoring import bibliography, exports
from build_tools.catalog.bibliography.references import read_records

TEXT = """% Records.

% --- Growth ---

@article{adams2019,
  author = {Adams, B.},
  title = {Lamps grow},
  journal = {J},
  year = {2019},
  read = {record},
}

@article{lee2020,
  author = {Lee, C.},
  title = {Lamps shrink},
  journal = {J},
  year = {2020},
  read = {record},
}

% --- Methods ---

@article{zorn2018,
  author = {Zorn, D.},
  title = {Lamps flicker},
  journal = {J},
  year = {2018},
  read = {record},
}
"""


def record() -> exports.ExportedRecord:
    return exports.read(RIS)[0]


def test_the_key_is_the_first_free_one() -> None:
    assert bibliography.free_key(record(), []) == "maeo2021"
    assert bibliography.free_key(record(), ["maeo2021", "maeo2021b"]) == "maeo2021c"
    accents = exports.read(BIBTEX.replace("Maeo, Sumiaki", "Ön-Ağ, Üç"))[0]
    assert bibliography.free_key(accents, []) == "onag2021"


def test_a_work_of_the_shipped_catalog_is_known_again() -> None:
    text = (Path(SHIPPED) / "references.bib").read_text(encoding="utf-8")
    references, _, _ = read_records(text, "references.bib")
    assert list(bibliography.already_there(record(), references)) == [
        ("maeo2021", "has the same DOI")
    ]
    without = exports.read(NBIB.replace("10.1249", "10.9999"))[0]
    assert list(bibliography.already_there(without, references)) == [
        ("maeo2021", "has the same PMID")
    ]
    bare = exports.read(RIS.replace("DO  - ", "N1  - ").replace("Greater", "A greater"))[0]
    assert list(bibliography.already_there(bare, references)) == [
        ("maeo2021", "has nearly the same title")
    ]


@pytest.mark.parametrize(
    ("section", "before", "after"),
    [(None, "% --- Methods ---", "zorn2018"), ("growth", "lee2020", "% --- Methods ---")],
)
def test_a_record_goes_to_its_place_and_nothing_else_moves(
    section: str | None, before: str, after: str
) -> None:
    made = bibliography.written(record(), "maeo2021")
    found = bibliography.placed(TEXT, made, "maeo2021", section)
    assert found.index(before) < found.index("@article{maeo2021,") < found.index(after)
    assert found.replace(made, "", 1).split() == TEXT.split()
    references, findings, _ = read_records(found, "references.bib")
    assert not findings and references["maeo2021"].readat.startswith("TODO")


def test_a_record_begins_an_empty_file_and_ends_a_full_one() -> None:
    made = bibliography.written(record(), "maeo2021")
    assert bibliography.placed("", made, "maeo2021") == made
    found = bibliography.placed(TEXT, made, "zzz2021")
    assert found.endswith(made) and found.startswith(TEXT.rstrip())
    with pytest.raises(LookupError, match="Growth; Methods"):
        bibliography.placed(TEXT, made, "maeo2021", "anatomy")
