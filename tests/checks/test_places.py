"""Places in a paper, and what a record does not say to have been read."""

from __future__ import annotations

import pytest

from build_tools.catalog.bibliography.references import Reference
from build_tools.catalog.finding import Spot
from build_tools.checks import places


def reference(read: str, readat: str) -> Reference:
    return Reference(
        "wick2030",
        "article",
        (),
        False,
        "",
        "2030",
        "",
        "",
        "",
        "",
        "",
        "",
        "",
        "",
        "",
        read,
        readat,
        "",
        Spot("", 1, 1),
        "",
    )


# Places as the shipped catalog and reference styles write them (APA, 7th edition, on citing parts of a source; from memory).
@pytest.mark.parametrize(
    "at",
    [
        "abstract",
        "Abstract, lifting phase",
        "part of the abstract",
        "Table 2",
        "tables 1 and 2",
        "Figure 3b",
        "Fig. 3",
        "p. 830",
        "pp. 12-14",
        "section 3.1",
        "results",
        "Methods, statistics",
        "supplementary Table S2",
        "second-hand, a summary",
        "start of the abstract, on grip",
        "caption of Figure 6",
        "its list of signs",
        "data file, rows 3 to 9",
    ],
)
def test_places(at: str) -> None:
    assert places.is_place(at)


@pytest.mark.parametrize(
    ("at", "help"),
    [
        ("abstarct", "`abstract`"),
        ("Tabel 2", "`table`"),
        ("figur 1", "`figure`"),
        ("reslts", "`results`"),
        ("somewhere", "start with the place"),
        ("tablecloth", "`table`"),
    ],
)
def test_what_is_no_place(at: str, help: str) -> None:
    assert not places.is_place(at) and help in places.nearest_place(at)


@pytest.mark.parametrize(
    ("at", "read", "readat", "unread"),
    [
        ("abstract, 30 degrees", "abstract", "", None),
        ("Table 3", "full text", "", None),
        ("Table 3", "abstract", "journal page, abstract and table 3", None),
        ("Table 3", "abstract", "journal page, abstract and table 13", "Table 3"),
        ("Table 3", "abstract", "journal page, abstract and table 31", "Table 3"),
        ("Table 3", "part of abstract", "index page", "Table 3"),
        ("abstract and Figure 6", "abstract", "index page", "Figure 6"),
        ("p. 830", "record", "", "p 830"),
        ("results", "abstract", "", "results"),
        (
            "list of signs",
            "abstract",
            "publisher page: abstract, and the lists of signs to stop",
            None,
        ),
        ("list of signs", "abstract", "publisher page: abstract", "list"),
        ("its list of signs, in a restatement", "abstract", "publisher page: abstract", None),
        ("caption of Figure 6", "abstract", "abstract and the caption of Figure 6", None),
        ("start of the results", "abstract", "", "results"),
        ("Table 3 of glow2031, which lists it", "abstract", "", None),
        (
            "Table 3 of dusk2029, which nobody entered",
            "abstract",
            "",
            "Table 3 of dusk2029, which nobody entered",
        ),
    ],
)
def test_what_the_record_does_not_say_to_have_been_read(
    at: str, read: str, readat: str, unread: str | None
) -> None:
    record = reference(read, readat)
    assert (
        places.beyond_the_abstract(at, record, {"wick2030": record, "glow2031": record}) == unread
    )
