"""Every reference is cited somewhere or has a study file.

Why: a source that nothing rests on is either a citation that was forgotten or a
leftover, and readers take a long list for much evidence.

Instead: cite it where its fact stands, write its study file, or remove the record.

Fails: references.bib 1:1
    @article{dusk2028,
      author = {Dusk, Eve},
      title = {Lamps at dusk},
      journal = {Journal of Invented Results},
      year = {2028},
      read = {abstract},
      readat = {this file},
    }

Passes: references.bib
    @article{wick2030,
      author = {Wick, Ada},
      title = {Seated against standing curls for the lantern muscle},
      journal = {Journal of Invented Results},
      year = {2030},
      read = {abstract},
      readat = {this file},
    }
"""

from collections.abc import Iterator

from build_tools.checks.rule import Context, Problem


def check(context: Context) -> Iterator[Problem]:
    """References that nothing uses."""
    catalog = context.catalog
    if any(
        kind != "references" for kind, _ in catalog.broken
    ):  # the citation may stand in a file that cannot be read
        return
    used = {
        citation.key for statement in context.statements for citation in statement.basis.cites
    } | set(catalog.studies)
    used |= {
        result.via.key
        for study in catalog.studies.values()
        for result in study.data.results
        if result.via
    }
    for key, reference in catalog.references.items():
        if key not in used:
            yield Problem(
                reference.spot,
                f"nothing cites `{key}`",
                f"cite it, add studies/{key}.yaml, or remove the record",
            )
