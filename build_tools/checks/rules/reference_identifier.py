"""DOI, PubMed and PubMed Central numbers are well formed and bare.

Why: the link to the paper is made from them, and a reader who lands nowhere
cannot check anything. A DOI is `10.`, a registrant's number, `/` and a suffix
(DOI Handbook, chapter 2; ISO 26324).

Instead: write the bare identifier: 10.0000/invented.1, not its web address; digits
only for `pmid`; PMC and digits for `pmcid`.

Fails: references.bib 6:3
    @article{wick2030,
      author = {Wick, Ada},
      title = {Seated against standing curls for the lantern muscle},
      journal = {Journal of Invented Results},
      year = {2030},
      doi = {https://doi.org/10.0000/invented.1},
      read = {abstract},
      readat = {this file},
    }

Passes: references.bib
    @article{wick2030,
      author = {Wick, Ada},
      title = {Seated against standing curls for the lantern muscle},
      journal = {Journal of Invented Results},
      year = {2030},
      doi = {10.0000/invented.1},
      read = {abstract},
      readat = {this file},
    }
"""

import re
from collections.abc import Iterator

from build_tools.checks.rule import Context, Problem

#: Field -> form, and what to write. A suffix may hold any visible character; a closing point or comma is a slip of copying.
FORMS: dict[str, tuple[re.Pattern[str], str]] = {
    "doi": (
        re.compile(r"10\.\d{4,9}(\.\d+)*/\S*[^\s.,;]", re.ASCII),
        "write the bare DOI, as in 10.0000/invented.1",
    ),
    "pmid": (
        re.compile(r"[1-9]\d{0,8}", re.ASCII),
        "write the PubMed number alone, as in 33009197",
    ),
    "pmcid": (
        re.compile(r"PMC[1-9]\d{0,8}", re.ASCII),
        "write PMC and the number, as in PMC7969179",
    ),
}


def check(context: Context) -> Iterator[Problem]:
    """Identifiers that lead nowhere."""
    for reference in context.catalog.references.values():
        for name, (form, help) in FORMS.items():
            value = getattr(reference, name)
            if value and not form.fullmatch(value):
                yield Problem(reference.place(name), f"`{value}` is not a {name.upper()}", help)
