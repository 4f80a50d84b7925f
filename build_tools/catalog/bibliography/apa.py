"""References in one style: the reference list of APA Style, 7th edition.

Chosen because it opens with authors and year, which is how a coach looks a study
up from the text, and ends with a link. Rules followed (Publication Manual of the
American Psychological Association, 7th ed., 2020, chapters 8 to 10): initials
with points, ``&`` before the last author, from 21 authors on the first 19 and
the last, group names in full, title first when no author is known, italic title
of the whole work (with its volume), ``Article e123`` for an article number, en
dash in page ranges, DOI as a link without a full stop after it.

Where the handbook departs from it:

- titles keep the capitals of the record: setting them in sentence case by
  program would spoil names and abbreviations;
- a record that ends in "and others" ends in "et al.", as the rest is not known;
- in the text it is "Maeo et al. 2021", without the comma before the year;
- two works with the same short name get the letters a, b, ... even when only
  their first authors agree (APA would add second authors).
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable
from itertools import groupby
from typing import NamedTuple

from .references import Name, Reference

#: From one more on, APA lists the first 19 and the last (section 9.8).
MOST_AUTHORS = 20
#: Words of a title that stand for an author nobody could name.
_TITLE_WORDS = 4


class StyledText(NamedTuple):
    """A stretch of plain text that is set in one way. Escape ``text`` and ``href`` where they land."""

    text: str
    italic: bool = False
    href: str | None = None


def plain(reference: Reference, letter: str = "") -> str:
    """The reference as one line of text; ``letter`` as from ``letters``."""
    return "".join(segment.text for segment in segments(reference, letter))


def segments(reference: Reference, letter: str = "") -> list[StyledText]:
    """The reference as stretches of text, in reading order; ``letter`` as from ``letters``."""
    r = reference
    year, title = [StyledText(f"({r.year}{letter}).")], _title(r)
    parts = [[StyledText(_closed(authors(r)))], year, title] if r.authors else [title, year]
    parts += [_container(r), [StyledText(r.link, href=r.link)] if r.link else []]
    written = [[segment for segment in part if segment.text] for part in parts]
    first, *others = [part for part in written if part]
    return first + [segment for part in others for segment in (StyledText(" "), *part)]


def authors(reference: Reference) -> str:
    """All authors as the reference list names them; empty when none is known."""
    names = [_inverted(name) for name in reference.authors]
    if reference.more_authors:
        return ", ".join([*names, "et al."])
    if len(names) > MOST_AUTHORS:
        return ", ".join(names[: MOST_AUTHORS - 1]) + ", … " + names[-1]
    return ", & ".join(filter(None, (", ".join(names[:-1]), *names[-1:])))


def short(reference: Reference, letter: str = "") -> str:
    """The name in the text: ``Maeo et al. 2021``, ``Kubo & Yata 2019``; ``letter`` as from ``letters``."""
    families = [family for family, _ in reference.authors]
    if not families:
        words = reference.title.split()
        who = (
            "“"
            + " ".join(words[:_TITLE_WORDS]).rstrip(".,:;")
            + ("…”" if len(words) > _TITLE_WORDS else "”")
        )
    elif reference.more_authors or len(families) > 2:
        who = f"{families[0]} et al."
    else:
        who = " & ".join(families)
    return f"{who} {reference.year}{letter}"


def letters(references: Iterable[Reference]) -> dict[str, str]:
    """Key -> the letter after the year where two references would share a short name, else an empty text.

    Letters follow the order of the reference list, so they change only when a
    work with the same short name joins or leaves.
    """
    given = {}
    by_name = sorted(references, key=lambda r: (short(r), *sort_key(r)))
    for _, group in groupby(by_name, key=short):
        alike = list(group)
        for index, reference in enumerate(alike):
            given[reference.key] = _letter(index) if len(alike) > 1 else ""
    return given


def pointed(initials: str) -> tuple[str, str]:
    """``"J-PM Jr"`` to the initials ``"J.-P. M."`` and the suffix ``"Jr."``; either may be empty."""
    letters, _, suffix = initials.partition(" ")
    points = re.sub(r"(\w)(?=\w)", r"\1. ", letters).replace("-", ".-")
    return points and points + ".", suffix if re.fullmatch("[IVX]*", suffix) else suffix + "."


def sort_key(reference: Reference) -> tuple[str, str, str, str]:
    """Order of the reference list: by authors, year and title, without regard to case and accents."""
    names = " ".join(f"{family} {initials}" for family, initials in reference.authors)
    return (
        _folded(names or reference.title),
        reference.year,
        _folded(reference.title),
        reference.key,
    )


def _inverted(name: Name) -> str:
    """``("King", "ML Jr")`` to ``King, M. L., Jr.``"""
    return ", ".join(filter(None, (name[0], *pointed(name[1]))))


def _title(r: Reference) -> list[StyledText]:
    if r.type in ("article", "incollection"):
        return [StyledText(_closed(r.title))]
    edition = f" ({_edition(r.edition)})" if r.edition else ""
    return [
        StyledText(r.title, italic=True),
        StyledText(edition + ("." if edition else _closed(r.title)[len(r.title) :])),
    ]


def _container(r: Reference) -> list[StyledText]:
    """What the work appeared in, up to its full stop."""
    if r.type == "article":
        journal = StyledText(", ".join(filter(None, (r.journal, r.volume))), italic=True)
        issue = f"({r.number})" if r.number else ""
        return [
            journal,
            StyledText(
                (issue if r.volume or not issue else f", {issue}")
                + (f", {_pages(r.pages)}" if r.pages else "")
                + "."
            ),
        ]
    publisher = _closed(r.publisher) if r.publisher else ""
    if r.type == "incollection":
        names = [
            " ".join(filter(None, (pointed(initials)[0], family))) for family, initials in r.editors
        ]
        joined = " & ".join(names) if len(names) < 3 else ", ".join(names[:-1]) + ", & " + names[-1]
        editors = f"{joined} ({'Ed.' if len(names) == 1 else 'Eds.'}), " if names else ""
        place = ", ".join(filter(None, (_edition(r.edition), _pages(r.pages, "pp. "))))
        return [
            StyledText(f"In {editors}"),
            StyledText(r.booktitle, italic=True),
            StyledText((f" ({place})" if place else "") + f". {publisher}"),
        ]
    return [StyledText(publisher)]


def _pages(pages: str, prefix: str = "") -> str:
    if re.fullmatch(r"[A-Za-z]+[0-9]+", pages) and not prefix:
        return f"Article {pages}"
    return prefix + pages if pages else ""


def _edition(edition: str) -> str:
    """``2`` to ``2nd ed.``; anything but a number as written."""
    if not edition.isdigit():
        return edition
    number = int(edition)
    ending = "th" if 10 < number % 100 < 14 else {1: "st", 2: "nd", 3: "rd"}.get(number % 10, "th")
    return f"{number}{ending} ed."


def _closed(text: str) -> str:
    return text if text.endswith((".", "?", "!")) else text + "."


def _letter(index: int) -> str:
    """a to z, then aa, ab, ..."""
    rest, last = divmod(index, 26)
    return (_letter(rest - 1) if rest else "") + "abcdefghijklmnopqrstuvwxyz"[last]


def _folded(text: str) -> str:
    return "".join(
        c for c in unicodedata.normalize("NFKD", text) if not unicodedata.combining(c)
    ).casefold()
