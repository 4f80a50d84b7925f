"""Every publication has one record.

Why: two records of one paper make one study look like two, and split what rests
on it.

Instead: keep one record, cite its key everywhere, and name the other key in
moved.yaml if it was ever published.

Fails: references.bib 1:1
    @article{glow2032,
      author = {Glow, Dee},
      title = {Signals over the short lantern head.},
      journal = {Journal of Invented Results},
      year = {2031},
      read = {abstract},
      readat = {this file},
    }

Passes: references.bib
    @article{glow2032,
      author = {Glow, Dee},
      title = {Signals over the long lantern head},
      journal = {Journal of Invented Results},
      year = {2032},
      doi = {10.0000/invented.9},
      read = {abstract},
      readat = {this file},
    }
"""

import re
from collections.abc import Iterator

from build_tools.catalog.bibliography.references import Reference
from build_tools.checks.rule import Context, Problem


def check(context: Context) -> Iterator[Problem]:
    """Records that share an identifier, or a title and an author, with another one."""
    first: dict[tuple[str, str], Reference] = {}
    for reference in sorted(
        context.catalog.references.values(), key=lambda reference: reference.spot, reverse=True
    ):
        shared = [
            (name, first.setdefault((name, value), reference)) for name, value in _marks(reference)
        ]
        name, other = next(
            ((name, other) for name, other in shared if other is not reference), ("", reference)
        )
        if other is not reference:
            yield Problem(
                reference.spot,
                f"`{reference.key}` and `{other.key}` have the same {name}",
                "keep one record and cite its key everywhere",
            )


def _marks(reference: Reference) -> Iterator[tuple[str, str]]:
    """What should be the reference's alone. DOIs do not tell capitals from small letters."""
    for name, value in (
        ("DOI", reference.doi.lower()),
        ("PMID", reference.pmid),
        ("PMCID", reference.pmcid.upper()),
    ):
        if value:
            yield name, value
    family = reference.authors[0][0].casefold() if reference.authors else ""
    yield "title and first author", family + re.sub(r"\W+", " ", reference.title.casefold()).strip()
