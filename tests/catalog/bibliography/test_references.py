"""Records read from BibTeX: what they hold, and everything that can be wrong with them.

Outside check: pybtex's own full parser reads the downloads.
"""

from __future__ import annotations

from pathlib import Path

import pytest
from bibliography_records import GOOD, NEXT, one, read, record
from hypothesis import given
from hypothesis import strategies as st
from pybtex.database import parse_string

from build_tools.catalog.bibliography.references import (
    MAX_BIB_BYTES,
    WHOLE_FILE,
    Reference,
    read_bibliography,
)


def test_a_record(tmp_path: Path) -> None:
    r = one(
        tmp_path,
        author="Wick, Ada and Ember, Bo",
        volume="5",
        number="2",
        pages="101--112",
        doi=r"10.1000/a\_b",
        pmid="123",
        pmcid="PMC45",
        url="https://example.org/~x?a=1%20b&c",
        readat="PubMed page",
        recheck="the volume",
    )
    assert r == Reference(
        key="wick2030",
        type="article",
        authors=(("Wick", "A"), ("Ember", "B")),
        more_authors=False,
        title="T",
        year="2030",
        journal="J",
        volume="5",
        number="2",
        pages="101–112",
        publisher="",
        doi="10.1000/a_b",
        pmid="123",
        pmcid="PMC45",
        url="https://example.org/~x?a=1%20b&c",
        read="abstract",
        readat="PubMed page",
        recheck="the volume",
        spot=("c/references.bib", 1, 1),
        bibtex=r.bibtex,
    )


def test_links_prefer_the_doi_and_never_leave_http(tmp_path: Path) -> None:
    doi = {"doi": '10.1000/a"b c'}
    everything = {"pmid": "12", "pmcid": "PMC3", "url": "https://example.org/a"}
    assert one(tmp_path, **doi, **everything).link == "https://doi.org/10.1000/a%22b%20c"
    assert one(tmp_path, **everything).link == "https://pubmed.ncbi.nlm.nih.gov/12/"
    assert (
        one(tmp_path, **(everything | {"pmid": "x"})).link
        == "https://pmc.ncbi.nlm.nih.gov/articles/PMC3/"
    )
    assert one(tmp_path, url="https://example.org/a").link == "https://example.org/a"
    assert one(tmp_path).link is None


def test_authors_that_nobody_saw_need_a_recheck(tmp_path: Path) -> None:
    assert one(tmp_path, author="", recheck="author list not shown on the page read").authors == ()
    assert read(tmp_path, record(author=""))[1] == [
        ("missing-key", 1, 1, "`wick2030` has no `author`")
    ]


@pytest.mark.parametrize(
    ("fields", "rule", "line", "message"),
    [
        (
            {"title": r"H$_2$O"},
            "wrong-value",
            3,
            "`title` holds the TeX `$`, which is no plain text",
        ),
        (
            {"title": r"\emph{in vivo}"},
            "wrong-value",
            3,
            r"`title` holds the TeX `\emph`, which is no plain text",
        ),
        (
            {"title": "10^{th}"},
            "wrong-value",
            3,
            "`title` holds the TeX `^`, which is no plain text",
        ),
        ({"title": "{}"}, "wrong-value", 3, "`title` is empty"),
        ({"title": "a <b> c"}, "wrong-value", 3, "`title` has markup or invisible characters"),
        ({"title": "a\u202eb"}, "wrong-value", 3, "`title` has markup or invisible characters"),
        (
            {"author": "Wick, A <b>"},
            "wrong-value",
            2,
            "`author` has markup or invisible characters",
        ),
        (
            {"doi": "10.1002/x<1::y>3.0"},
            "wrong-value",
            7,
            "`doi` has markup or invisible characters",
        ),
        (
            {"url": "javascript:alert(1)"},
            "wrong-value",
            7,
            "`url` `javascript:alert(1)` is not a web address",
        ),
        ({"url": "https://a b"}, "wrong-value", 7, "`url` `https://a b` is not a web address"),
        ({"year": "in press"}, "wrong-value", 5, "`year` cannot be `in press`"),
        ({"read": "skimmed"}, "wrong-value", 6, "`read` cannot be `skimmed`"),
        ({"auther": "x"}, "unknown-key", 7, "unknown field `auther`"),
        ({"title": ""}, "missing-key", 1, "`wick2030` has no `title`"),
        ({"year": ""}, "missing-key", 1, "`wick2030` has no `year`"),
        ({"journal": ""}, "missing-key", 1, "`wick2030` has no `journal`"),
        ({"read": ""}, "missing-key", 1, "`wick2030` has no `read`"),
        (
            {"author": "Maeo S and Huang M"},
            "wrong-value",
            2,
            "`author` would read `Maeo S` as the family name S",
        ),
        (
            {"author": "Wick, A, B, C, D"},
            "wrong-value",
            2,
            "`author` has too many commas in `Wick, A, B, C, D`",
        ),
        (
            {"author": "Wick, A et al."},
            "wrong-value",
            2,
            "`author` has `Wick, A et al.` for a name",
        ),
        (
            {"author": "Wick, A and and B, C"},
            "wrong-value",
            2,
            "`author` has a name without a family name",
        ),
        ({"author": "others"}, "wrong-value", 2, "`author` has `others` for a name"),
        ({"author": " "}, "wrong-value", 2, "`author` names nobody"),
    ],
)
def test_a_field_that_does_not_fit(
    tmp_path: Path, fields: dict[str, str], rule: str, line: int, message: str
) -> None:
    references, findings, broken = read(tmp_path, record(**fields))
    assert findings == [(rule, line, 1 if line == 1 else 3, message)]
    assert references == {} and broken == {"wick2030"}


def test_suggestions(tmp_path: Path) -> None:
    (tmp_path / "r.bib").write_text(
        "@artcle{wick2030, auther = {Wick, A}, title = {T}, year = {2030}, read = {record}, recheck = {x}}"
    )
    assert [f.help for f in read_bibliography(tmp_path / "r.bib", "r")[1]] == [
        "did you mean `article`?",
        "did you mean `author`?",
    ]


@pytest.mark.parametrize(
    "key", ["Wick2030", "wick-2030", "2030wick", "wick_2030", "../wick", "<script>", "a" * 65]
)
def test_keys_that_cannot_be_addresses(tmp_path: Path, key: str) -> None:
    references, findings, broken = read(tmp_path, "\n" + GOOD.replace("wick2030", key))
    assert (
        findings == [("bad-key", 2, 10, f"`{key}` cannot be a key")]
        and not references
        and broken - {"wick2030"} == {key}
    )


def test_all_errors_in_one_run(tmp_path: Path) -> None:
    text = (
        record(title="a <b>", year="soon", zzz="1", journal="")
        + NEXT.replace("record", "recrod")
        + "@article{x\n"
        + GOOD
    )
    references, findings, broken = read(tmp_path, text)
    assert list(references) == ["wick2030"]
    assert {(rule, line) for rule, line, *_ in findings} == {
        ("missing-key", 1),
        ("unknown-key", 6),
        ("wrong-value", 3),
        ("wrong-value", 4),
        ("wrong-value", 10),
        ("bibtex-syntax", 13),
    } and broken == {"next2031", "x"}


def test_files_that_cannot_be_read(tmp_path: Path) -> None:
    def rule(path: Path) -> tuple[str, set[str]]:
        references, (finding,), broken = read_bibliography(path, "b")
        assert references == {} and finding.spot == ("b", 1, 1)
        return finding.rule, broken

    assert rule(tmp_path / "none.bib") == ("missing-file", {WHOLE_FILE})
    assert rule(tmp_path) == ("file-unreadable", {WHOLE_FILE})
    file = tmp_path / "r.bib"
    file.write_bytes(GOOD.encode("utf-16"))
    assert rule(file) == ("file-encoding", {WHOLE_FILE})
    file.write_bytes(b"%" * (MAX_BIB_BYTES + 1))
    assert rule(file) == ("file-size", {WHOLE_FILE})
    file.write_bytes(b"")
    assert read_bibliography(file, "b") == ({}, [], set())


def test_the_download_is_what_other_tools_read(tmp_path: Path) -> None:
    r = one(
        tmp_path,
        author=r"M{\"u}ller, Ada and others",
        title="{EMG} & 50% more",
        volume="5",
        doi="10.1/a_b%c",
        recheck="all",
    )
    # Outside check: pybtex's full parser, the reference reader of BibTeX in Python.
    ((key, entry),) = parse_string(r.bibtex, "bibtex").entries.items()
    assert (key, entry.type, dict(entry.fields)) == (
        "wick2030",
        "article",
        {
            "title": r"{EMG} \& 50\% more",
            "journal": "J",
            "year": "2030",
            "volume": "5",
            "doi": "10.1/a_b%c",
        },
    )
    assert [str(person) for person in entry.persons["author"]] == [r"M{\"u}ller, Ada", "others"]
    again = read(tmp_path, r.bibtex.replace("\n}", "\n read = {abstract}\n}"))[0]["wick2030"]
    assert (again.authors, again.title, again.bibtex) == (r.authors, "EMG & 50% more", r.bibtex)
    assert (
        r.bibtex
        == one(
            tmp_path,
            **dict(
                reversed(
                    list(
                        {
                            "author": r"M{\"u}ller, Ada and others",
                            "title": "{EMG} & 50% more",
                            "volume": "5",
                            "doi": "10.1/a_b%c",
                        }.items()
                    )
                )
            ),
        ).bibtex
    )


def test_other_types(tmp_path: Path) -> None:
    text = """@incollection{balsam2019, author = {Balsam, K}, title = {A chapter}, editor = {Iwamasa, G and Hays, P}, booktitle = {A book},
      edition = {2}, pages = {287-314}, publisher = {P}, year = {2019}, read = {record}}
      @book{brown2018, author = {Brown, L}, title = {B}, year = {2018}, read = {record}}"""
    references, findings, _ = read(tmp_path, text)
    assert findings == [("missing-key", 3, 7, "`brown2018` has no `publisher`")]
    r = references["balsam2019"]
    assert (r.booktitle, r.edition, r.editors, r.pages) == (
        "A book",
        "2",
        (("Iwamasa", "G"), ("Hays", "P")),
        "287–314",
    )


@given(
    st.one_of(
        st.binary(max_size=80),
        st.text(st.sampled_from("@article{}(),=\"#\\'~$%<> \n\tand,AB.-09é"), max_size=80).map(
            str.encode
        ),
        st.text(max_size=40).map(
            lambda t: record(title="{" + t + "}", author="x").encode("utf-8", "surrogatepass")
        ),
        st.text(max_size=40).map(
            lambda t: record(author=t or "x").encode("utf-8", "surrogatepass")
        ),
    )
)
def test_any_bytes_give_references_or_findings(
    tmp_path_factory: pytest.TempPathFactory, octets: bytes
) -> None:
    file = tmp_path_factory.getbasetemp() / "any.bib"
    file.write_bytes(octets)
    references, findings, broken = read_bibliography(file, "b")
    assert not broken & set(references) and (findings or not broken)
    for r in references.values():
        assert "<" not in r.title + r.bibtex and (r.link or "https://").startswith("https://")
