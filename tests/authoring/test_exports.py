"""Exports of four formats give one record.

Outside sources: the formats' own descriptions (NLM's MEDLINE display format, RIS, BibTeX, CSL-JSON 1.0.2; the shapes are from memory) and
pybtex, which reads the written record back.
"""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pybtex.database import parse_string
from sample_exports import ALL, DOI, NBIB, RIS, TITLE

from build_tools.authoring import exports
from build_tools.authoring.bibliography import written


@pytest.mark.parametrize("name", ALL)
@pytest.mark.parametrize("ends", ["\n", "\r\n"])
def test_every_format_gives_the_same_work(name: str, ends: str) -> None:
    [record] = exports.read("\ufeff" + ALL[name].replace("\n", ends), name)
    assert record.type == "article"
    assert record.fields["author"] == "Maeo, Sumiaki and Huang, Meng"
    assert (record.fields["title"], record.fields["doi"]) == (TITLE, DOI)
    assert record.fields["pages"] in ("825--837",)
    assert [record.fields[key] for key in ("year", "volume", "number")] == ["2021", "53", "4"]
    assert record.fields.keys() <= set(exports.KEPT) and "url" not in record.fields
    assert record.unknown == ()
    made = parse_string(written(record, "maeo2021"), "bibtex").entries["maeo2021"]
    assert [str(person) for person in made.persons["author"]] == ["Maeo, Sumiaki", "Huang, Meng"]
    assert (made.fields["title"], made.fields["read"]) == (TITLE, "record")


def test_identifiers_of_pubmed_are_kept() -> None:
    [record] = exports.read(NBIB)
    assert (record.fields["pmid"], record.fields["pmcid"]) == ("33009197", "PMC7969179")


@pytest.mark.parametrize(
    ("written", "pages"),
    [("469-77", "469--477"), ("1078-1083", "1078--1083"), ("e123", "e123"), ("S5-S9", "S5--S9")],
)
def test_shortened_pages_are_written_out(written: str, pages: str) -> None:
    text = NBIB.replace("825-837", written)
    assert exports.read(text)[0].fields["pages"] == pages


REMARKS = 'Record #1 of 2\nProvider: a database\nContent: text/plain; charset="UTF-8"\n1. \n'


@pytest.mark.parametrize("name", ["work.ris", "work.bib"])
def test_remarks_of_the_program_are_passed_over(name: str) -> None:
    """As in the samples of rispy (``example_extraneous_data.ris``) and BibTeX's own ``xampl.bib``."""
    found = exports.read(REMARKS + ALL[name] + "\nRecord #2 of 2\n2.\n" + ALL[name])
    assert [record.fields["title"] for record in found] == [TITLE, TITLE]


def test_older_tags_of_ris_mean_the_same() -> None:
    """T1, A1, Y1 and JF, one tag for both pages, and lines that go on without a tag (rispy's ``example_full``, ``example_endnote``)."""
    older = {"AU  -": "A1  -", "TI  -": "T1  -", "JO  -": "JF  -", "PY  - 2021": "Y1  - 2021//"}
    text = RIS.replace("SP  - 825\nEP  - 837", "SP  - 825-837").replace(
        "KW  - hamstrings", "KW  - hamstrings\nmuscle\nAD  - Here\nB. C., There"
    )
    for new, old in older.items():
        text = text.replace(new, old)
    assert exports.read(text)[0].fields == exports.read(RIS)[0].fields


def test_pubmed_central_writes_its_number_first() -> None:
    """As in nbib's sample of PMC: no identifier at the top but PMC's, an empty abstract, several identifiers of which one is the DOI."""
    text = "\nPMC - PMC7969179\n" + NBIB.replace("PMC - PMC7969179\n", "").replace(
        f"LID - {DOI} [doi]\n", "LID - 18\nOAB - \nAID - 207 [pii]\n"
    ).replace("AU  - Maeo S\n", "AU  - Maeo S\nAUID- ORCID: 0000-0001-2345-6789\n")
    assert exports.read(text)[0].fields == exports.read(NBIB)[0].fields


def test_several_records_stay_apart() -> None:
    assert len(exports.read(RIS + "\n" + RIS)) == 2
    assert len(exports.read(NBIB + "\n" + NBIB)) == 2


@pytest.mark.parametrize(
    "text", ["", "  \n", "hello", "{", "[1]", "TY  - JOUR", "@article{x", "PMID- x"]
)
def test_what_is_no_export_says_so(text: str) -> None:
    with pytest.raises(exports.UnreadableExport) as bad:
        exports.read(text)
    assert all(bad.value.args) and len(bad.value.args) == 2


@given(st.sampled_from(list(ALL.values())), st.integers(0, 900), st.text(max_size=6))
def test_a_damaged_export_is_read_or_refused(text: str, at: int, put: str) -> None:
    at %= len(text)
    try:
        found = exports.read(text[:at] + put + text[at + len(put) :])
    except exports.UnreadableExport as bad:
        assert len(bad.args) == 2
    else:
        assert all(record.fields.keys() <= set(exports.KEPT) for record in found)
