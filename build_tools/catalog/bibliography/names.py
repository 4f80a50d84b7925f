"""Names of authors and editors as BibTeX writes them: family name and initials."""

from __future__ import annotations

import re

from pybtex.bibtex.utils import split_name_list
from pybtex.database import Person
from pybtex.exceptions import PybtexError

from .tex import plain_text

#: "Given, MN" are two initials; longer words in capitals are names.
_MOST_INITIALS = 4
#: What may stand between family and given names.
_SUFFIX = re.compile(r"Jr|Sr|[IVX]+|[2-9](?:nd|rd|th)", re.IGNORECASE)
_WRITE = (
    "write Family, Given and Family, Given; a group in double braces: {{World Health Organization}}"
)


class BadName(ValueError):
    """Arguments: what is wrong with a list of names, what to write instead."""


def names(value: str) -> tuple[tuple[tuple[str, str], ...], bool]:
    """(family name, initials) of each name of a BibTeX list, and whether it ends in "and others".

    Initials carry no points; hyphens between them stay; a suffix follows after a
    space: ``("King", "ML Jr")``. Raises ``BadName``, or ``NotText`` from ``plain_text``.
    """
    written = split_name_list(" ".join(value.split()))
    more = len(written) > 1 and written[-1].lower() == "others"
    people = tuple(_name(name) for name in (written[:-1] if more else written))
    if not people:
        raise BadName("names nobody", _WRITE)
    return people, more


def _name(written: str) -> tuple[str, str]:
    try:
        person = Person(written)
    except PybtexError as error:
        raise BadName(f"has too many commas in `{written}`", _WRITE) from error
    family = plain_text(" ".join(person.prelast_names + person.last_names))
    given = plain_text(" ".join(person.first_names + person.middle_names))
    if not family or re.match(r"and\b", written):
        raise BadName("has a name without a family name", _WRITE)
    if re.search(r"\bet al\b", written) or family.lower() == "others":
        raise BadName(f"has `{written}` for a name", "end the list with: and others")
    if "," not in written and re.fullmatch(r"[A-Z]{1,3}", family) and given:
        raise BadName(
            f"would read `{written}` as the family name {family}",
            f"put a comma after the family name: {given}, {family}",
        )
    suffix = plain_text(" ".join(person.lineage_names)).rstrip(".")
    if suffix and not _SUFFIX.fullmatch(suffix):
        raise BadName(
            f"would read `{suffix}` as a suffix like Jr, in `{written}`",
            "write `and` between two people; " + _WRITE,
        )
    return family, " ".join(filter(None, (_initials(given), suffix)))


def _initials(given: str) -> str:
    """``Jean-Paul M.`` to ``J-PM``; words of up to four capitals are initials already."""
    words = re.split(r"[\s.]+(?!-)", given.replace("‐", "-").replace(".-", "-"))
    return "".join("-".join(map(_initial, word.split("-"))) for word in words).strip("-")


def _initial(name: str) -> str:
    return (
        name
        if len(name) <= _MOST_INITIALS and name.isalpha() and name.isupper()
        else name[:1].upper()
    )
